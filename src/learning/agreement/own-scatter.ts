import { c4 } from "../../math/c4.js";
import type { Estimate } from "../../math/estimate.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import { sdEstimate } from "../../math/sd-estimate.js";

/** One person's own scatter from session to session. */
export interface OwnScatter {
  readonly mean: number;
  /** Standard deviation about the person's own mean (n - 1), practice from session to session included. */
  readonly sd: Estimate;
  /** The standard deviation over c4(n), right on average for normal scores; `null` with one session. */
  readonly unbiasedSd: number | null;
  /** Coefficient of variation, 100 SD/mean, in percent; `null` with one session or where a score is not above 0. */
  readonly cv: number | null;
  /** The same times 1 + 1/(4n), which pays for what it falls short of in few sessions. */
  readonly unbiasedCv: number | null;
  /** From logarithms: 100 sqrt(exp(s^2) - 1), s their standard deviation, in percent. */
  readonly cvFromLogs: number | null;
}

export function ownScatter(scores: ArrayLike<number>, unit: string, level: number): OwnScatter {
  const n = scores.length;
  const { mean, sd } = meanAndSd(scores);
  const logs = Float64Array.from(scores, Math.log);
  const relative = n >= 2 && logs.every(Number.isFinite);
  const cv = relative ? (100 * sd) / mean : null;
  return {
    mean: mean + 0,
    sd: sdEstimate(scores, unit, level),
    unbiasedSd: n < 2 ? null : sd / c4(n),
    cv,
    unbiasedCv: cv === null ? null : cv * (1 + 1 / (4 * n)),
    cvFromLogs: relative ? 100 * Math.sqrt(Math.expm1(meanAndSd(logs).sd ** 2)) : null,
  };
}
