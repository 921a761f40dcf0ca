import type { Estimate } from "../../math/estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";
import { reliabilityOfErrors, unbiasedGain } from "../correction/gain-bias.js";
import type { Acquisition } from "../types.js";

/** Fewer acquisitions than this do not tell a gain. */
const LEAST_ACQUISITIONS = 10;
/** Below this reliability the slope says more of the noise than of the hand. */
const RELIABLE = 0.8;

/** Slope of what corrections did on what there was to do, along the movement axis. */
export interface CorrectiveGain {
  /** 1: errors are removed in one stroke; below 1 they are under-corrected, above 1 over-corrected. */
  readonly slope: Estimate;
  /** Displacement of a correction that finds no error along the axis, in the space's unit: a habitual push, positive away from the start. */
  readonly intercept: Estimate;
  /** Share of the variance of the errors found that is not rounding noise; rounding pulls the slope toward 1, to reliability * gain + (1 - reliability). */
  readonly reliability: Estimate;
  /** The slope freed of that pull. */
  readonly unbiased: Estimate;
  /** The reliability is below 0.8: leave the gain alone. */
  readonly unreliable: boolean;
}

/** Sums over the corrections of one acquisition. */
interface Sums {
  n: number;
  e: number;
  d: number;
  ee: number;
  ed: number;
  noise: number;
}

/**
 * Regresses the displacements of needed corrections on the errors they found. Standard errors by the jackknife over acquisitions, since the
 * corrections of one acquisition belong together.
 */
export function correctiveGain(moved: readonly Acquisition[], level: number, unit: string): CorrectiveGain {
  const groups = moved.flatMap((row) => sumsOf(row) ?? []);
  const whole = groups.reduce(add, ZERO);
  const n = groups.length;
  const lines = groups.map((group) => lineOf(minus(whole, group)));
  const line = lineOf(whole);
  const enough = n >= LEAST_ACQUISITIONS && line !== undefined && lines.every((one) => one !== undefined);
  if (!enough) {
    const none = (label: string): Estimate => ({ ok: false, why: n < LEAST_ACQUISITIONS ? "tooFew" : "noSpread", unit: label, n });
    return { slope: none("1"), intercept: none(unit), reliability: none("1"), unbiased: none("1"), unreliable: false };
  }
  const t = -studentQuantile((1 - level) / 2, n - 1);
  const estimate = (pick: (line: Line) => number, label: string): Estimate => {
    const value = pick(line);
    const squares = lines.reduce((sum, one) => sum + (pick(one!) - value) ** 2, 0);
    const half = t * Math.sqrt((squares * (n - 1)) / n);
    return { ok: true, value, unit: label, n, interval: [value - half, value + half], level };
  };
  const reliable = line.reliability > 0;
  return {
    slope: estimate((one) => one.slope, "1"),
    intercept: estimate((one) => one.intercept, unit),
    reliability: { ok: true, value: line.reliability, unit: "1", n },
    unbiased: reliable
      ? estimate(({ slope, reliability }) => unbiasedGain(slope, reliability), "1")
      : { ok: false, why: "belowResolution", unit: "1", n },
    unreliable: line.reliability < RELIABLE,
  };
}

interface Line {
  readonly slope: number;
  readonly intercept: number;
  readonly reliability: number;
}

const ZERO: Sums = { n: 0, e: 0, d: 0, ee: 0, ed: 0, noise: 0 };

/** Errors count as what there is to do: from the pointer to the centre. */
function sumsOf(row: Acquisition): Sums | undefined {
  const noise = (row.resolution?.positionNoise ?? 0) ** 2;
  let sums = ZERO;
  for (const { errorBefore, errorAfter, unnecessary, gain } of row.corrections) {
    if (unnecessary || gain === undefined || errorBefore.along === undefined || errorAfter.along === undefined) continue;
    const e = -errorBefore.along;
    const d = errorAfter.along - errorBefore.along;
    sums = add(sums, { n: 1, e, d, ee: e * e, ed: e * d, noise });
  }
  return sums.n === 0 ? undefined : sums;
}

function add(a: Sums, b: Sums): Sums {
  return { n: a.n + b.n, e: a.e + b.e, d: a.d + b.d, ee: a.ee + b.ee, ed: a.ed + b.ed, noise: a.noise + b.noise };
}

function minus(a: Sums, b: Sums): Sums {
  return { n: a.n - b.n, e: a.e - b.e, d: a.d - b.d, ee: a.ee - b.ee, ed: a.ed - b.ed, noise: a.noise - b.noise };
}

function lineOf({ n, e, d, ee, ed, noise }: Sums): Line | undefined {
  const spread = ee - (e * e) / n;
  if (n < 3 || !(spread > 1e-12 * ee)) return undefined;
  const slope = (ed - (e * d) / n) / spread;
  return { slope, intercept: (d - slope * e) / n, reliability: reliabilityOfErrors(spread / (n - 1), noise / n) };
}
