import { studentQuantile } from "../../math/student-quantile.js";
import type { SpeedAccuracyFit } from "../../pacing/index.js";
import { lawShare, shareError, toScale } from "../../pacing/pace/landing.js";
import { scatterAt, scatterGradient } from "../../pacing/scatter/scatter-laws.js";

/** What the chosen law says at one movement time, with its intervals at the level of the fit; lengths in the unit of the fit. */
export interface LawPoint {
  /** Seconds. */
  readonly t: number;
  readonly share: number;
  readonly lowShare: number;
  readonly highShare: number;
  /** Standard deviation along the movement. */
  readonly sd: number;
  readonly lowSd: number;
  readonly highSd: number;
}

/** The fitted law over the movement times seen, by the delta method, as `recommendPace` takes it; empty without a law. Times at which the law has no scatter or no error are left out. */
export function lawBand(fit: SpeedAccuracyFit): LawPoint[] {
  const { law, chosen, amplitude, width, shape } = fit;
  if (law === null || chosen === null || !amplitude.ok || !width.ok) return [];
  const { along, across } = fit.laws[chosen];
  if (along === undefined) return [];
  const strip = shape === "strip" || across === undefined;
  const seen = strip ? { along: law.along, ...(law.times && { times: law.times }) } : law;
  const axes = strip ? [along] : [along, across];
  const aim = { amplitude: amplitude.value, width: width.value, shape };
  const limit = -studentQuantile((1 - fit.level) / 2, fit.n - fit.timeouts - along.parameters);
  return fit.curve.flatMap(({ movementTime: t }): LawPoint[] => {
    const error = shareError(seen, axes, aim, t);
    const share = lawShare(seen, aim, t);
    const scale = toScale(share);
    const sd = Math.max(0, scatterAt(law.along.scatter, aim.amplitude, t));
    const gradient = scatterGradient(law.along.scatter, aim.amplitude, t);
    const half = limit * Math.sqrt(quadratic(along.scatterCovariance, gradient));
    if (error === undefined || !Number.isFinite(scale) || !Number.isFinite(error) || !Number.isFinite(half)) return [];
    const back = (by: number): number => -Math.expm1(-Math.exp(scale + by));
    const ends = { lowShare: back(-limit * error), highShare: back(limit * error), lowSd: Math.max(0, sd - half), highSd: sd + half };
    return [{ t, share, sd, ...ends }];
  });
}

function quadratic(matrix: readonly (readonly number[])[], v: readonly number[]): number {
  return v.reduce((sum, a, i) => sum + v.reduce((inner, b, j) => inner + a * b * matrix[i]![j]!, 0), 0);
}
