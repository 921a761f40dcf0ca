import type { Estimate } from "../../math/estimate.js";
import { medianEstimate } from "../../math/median-estimate.js";
import { sdEstimate } from "../../math/sd-estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";
import { type ChangeScale, carried } from "./change-scale.js";
import type { PeriodFigures } from "./comparison.js";
import { autocorrelatedUncertain } from "./effect.js";

/** Centre and spread of one period; `values` on the scale of the work. The interval of a mean allows for the autocorrelation `r`, that of a median does not. */
export function periodFigures(
  values: Float64Array,
  scale: ChangeScale,
  { centre, level, r, unit }: { readonly centre: "mean" | "median"; readonly level: number; readonly r: number; readonly unit: string },
): PeriodFigures {
  const found = centre === "mean" ? autocorrelatedMeanEstimate(values, level, r) : medianEstimate(values, unit, level);
  return {
    sessions: values.length,
    centre: carried(found, scale.level, unit),
    sd: carried(sdEstimate(values, scale.unit, level), scale.spread, scale.unit),
  };
}

function autocorrelatedMeanEstimate(values: Float64Array, level: number, r: number): Estimate {
  const n = values.length;
  if (n < 2) return { ok: false, why: "tooFew", unit: "", n };
  const { value, variance, df } = autocorrelatedUncertain(values, r);
  const half = -studentQuantile((1 - level) / 2, df) * Math.sqrt(variance);
  return { ok: true, value, unit: "", n, interval: [value - half, value + half], level };
}
