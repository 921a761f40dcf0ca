import { quadraticForm } from "../../math/quadratic-form.js";
import type { SpeedAccuracyFit } from "../../pacing/index.js";
import { fittedLaw } from "../../pacing/pace/fitted-law.js";
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
  const { amplitude, width, shape } = fit;
  const fitted = fittedLaw(fit, shape);
  if (fitted === undefined || !amplitude.ok || !width.ok) return [];
  const { law, errors, limit } = fitted;
  const aim = { amplitude: amplitude.value, width: width.value, shape };
  return fit.curve.flatMap(({ movementTime: t }): LawPoint[] => {
    const error = shareError(law, errors, aim, t);
    const share = lawShare(law, aim, t);
    const scale = toScale(share);
    const sd = Math.max(0, scatterAt(law.along.scatter, aim.amplitude, t));
    const gradient = scatterGradient(law.along.scatter, aim.amplitude, t);
    const half = limit * Math.sqrt(quadraticForm(errors[0]!.scatterCovariance, gradient));
    if (error === undefined || !Number.isFinite(scale) || !Number.isFinite(error) || !Number.isFinite(half)) return [];
    const back = (by: number): number => -Math.expm1(-Math.exp(scale + by));
    const ends = { lowShare: back(-limit * error), highShare: back(limit * error), lowSd: Math.max(0, sd - half), highSd: sd + half };
    return [{ t, share, sd, ...ends }];
  });
}
