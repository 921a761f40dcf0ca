import type { Estimate } from "../../math/estimate.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import { minimizeBetween } from "../../math/minimize-between.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import { type BinaryFit, binaryRegression, share } from "./binary-regression.js";

/** Difficulty A/W whose logarithm varies by less than this is one condition. */
const ONE_CONDITION = 0.05;

/** Hits set against the logarithm of movement time, no scatter assumed: P = (1 - lapse) Phi(level + slope ln T + difficulty ln(A/W)). */
export interface HitProbit {
  /** Growth of the probit with the logarithm of movement time. `notIdentified`: hits and misses are separated, or all alike. */
  readonly slope: Estimate;
  /** The probit at 1 s and A = W; `null` like the rest where `slope` is not ok. */
  readonly level: number | null;
  /** Growth with ln(A/W); 0 where distance and width did not vary, so that the fit holds for that condition alone. */
  readonly difficulty: number | null;
  /** Share of presses that miss at any pace, 0 to 0.05. */
  readonly lapse: number | null;
  readonly logLikelihood: number | null;
  /** Whether distance or width varied. */
  readonly conditions: "one" | "several";
}

/** The probit of hits on log movement time, the lapse searched between 0 and `most`. */
export function hitProbit(times: Float64Array, ratio: Float64Array, hit: Float64Array, most: number, level: number): HitProbit {
  const n = hit.length;
  const logT = times.map(Math.log);
  const logR = ratio.map(Math.log);
  const conditions = n > 1 && meanAndSd(logR).sd > ONE_CONDITION ? "several" : "one";
  const none: HitProbit = {
    slope: { ok: false, why: n < 20 ? "tooFew" : "notIdentified", unit: "1", n },
    level: null,
    difficulty: null,
    lapse: null,
    logLikelihood: null,
    conditions,
  };
  if (n < 20) return none;
  const [midT, midR] = [meanAndSd(logT).mean, meanAndSd(logR).mean];
  const ones = new Float64Array(n).fill(1);
  const columns = [ones, logT.map((t) => t - midT), ...(conditions === "several" ? [logR.map((r) => r - midR)] : [])];
  const at = (lapse: number): BinaryFit | undefined => binaryRegression(columns, hit, "probit", lapse);
  if (at(0) === undefined) return none;
  const lapse = most === 0 ? 0 : minimizeBetween((l) => -(at(l)?.logLikelihood ?? Number.NEGATIVE_INFINITY), 0, most, 1e-6).at;
  const fit = at(lapse);
  if (fit === undefined) return none;
  const [centre, slope, difficulty = 0] = fit.coefficients;
  // a slope's own quantile is normal: its information is that of a known variance
  const half = normalQuantile(0.5 + level / 2) * Math.sqrt(fit.covariance[1]![1]!);
  return {
    slope: { ok: true, value: slope!, unit: "1", n, interval: [slope! - half, slope! + half], level },
    level: centre! - slope! * midT - (conditions === "several" ? difficulty * midR : 0),
    difficulty,
    lapse,
    logLikelihood: fit.logLikelihood,
    conditions,
  };
}

/** The share of hits that the probit gives, `undefined` where it was not fitted. */
export function probitShare({ slope, level, difficulty, lapse }: HitProbit, t: number, ratio: number): number | undefined {
  if (!slope.ok || level === null || difficulty === null || lapse === null) return undefined;
  return (1 - lapse) * share("probit", level + slope.value * Math.log(t) + difficulty * Math.log(ratio));
}

/** Movement time at which the probit gives `wanted`; `undefined` where it never does. */
export function probitTime({ slope, level, difficulty, lapse }: HitProbit, wanted: number, ratio: number): number | undefined {
  if (!slope.ok || level === null || difficulty === null || lapse === null || !(slope.value > 0) || !(wanted < 1 - lapse)) return undefined;
  const t = Math.exp((normalQuantile(wanted / (1 - lapse)) - level - difficulty * Math.log(ratio)) / slope.value);
  return Number.isFinite(t) && t > 0 ? t : undefined;
}
