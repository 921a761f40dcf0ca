import type { Estimate } from "../../math/estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";
import { crossingAfter } from "./crossing.js";
import type { ResponseLine } from "./response-line.js";
import { sineErrorPower } from "./sine-error.js";

/**
 * Lowest frequency at which following leaves as large an error as resting: where gain and phase give an error of the target's own power, by a straight
 * line between the lines above chance. The interval runs between the frequencies at which the ends of the error's interval do.
 */
export function restCrossing(told: readonly ResponseLine[], segments: number, level: number): Estimate {
  const none = (why: "notIdentified" | "belowResolution" | "outOfReach"): Estimate => ({ ok: false, why, unit: "Hz", n: segments });
  if (told.length === 0) return none("notIdentified");
  const hz = told.map((line) => line.hz);
  const t = -studentQuantile((1 - level) / 2, told[0]!.df);
  const gainOver = told.map((line) => 1 - sineErrorPower(line.gain, line.phase));
  const spread = told.map((line) => 2 * t * line.error * Math.sqrt(sineErrorPower(line.gain, line.phase)));
  const lowest = (side: number): number | undefined => {
    const margins = gainOver.map((gain, i) => gain + side * spread[i]!);
    const beyond = margins.findIndex((margin) => margin <= 0);
    if (beyond < 0) return undefined;
    return beyond === 0 ? hz[0] : crossingAfter(hz, margins, beyond - 1);
  };
  if (gainOver[0]! <= 0) return none("belowResolution");
  const value = lowest(0);
  if (value === undefined) return none("outOfReach");
  const low = lowest(-1) ?? value;
  const high = lowest(1);
  if (high === undefined) return { ok: true, value, unit: "Hz", n: segments };
  return { ok: true, value, unit: "Hz", n: segments, interval: [Math.min(low, value), Math.max(high, value)], level };
}
