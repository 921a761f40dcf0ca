import { sumOfSquares } from "../../math/sum-of-squares.js";
import { type BellFit, residualOf, type WeightedProfile } from "./fit-bells.js";

/**
 * Number of independent samples in both velocity components together: two per period of the filter's cutoff and second, never more than there
 * are. Residuals of a filtered profile are correlated, and a criterion that counted every sample would pay for components made of noise.
 */
export function independentSamples(profile: WeightedProfile, cutoffHz: number): number {
  const n = profile.weights.length;
  return 2 * Math.min(n, Math.max(1, 2 * cutoffHz * n * profile.step));
}

/**
 * Bayesian information criterion with N `independent` normal residuals whose standard deviation is 1 in units of the weights, or larger if
 * the residuals are: N ln(s2) + RSS/s2 + p ln N with s2 = max(1, RSS/N). What lies below the expected error thus cannot pay for a parameter.
 * `fit` undefined stands for no component at all.
 */
export function bellCriterion(profile: WeightedProfile, fit: BellFit | undefined, independent: number): number {
  const total = fit === undefined ? sumOfSquares(profile.vx) + sumOfSquares(profile.vy) : fit.residualSum;
  const sum = (total * independent) / (2 * profile.weights.length);
  const variance = Math.max(1, sum / independent);
  const parameters = fit === undefined ? 0 : fit.parameters.length + 2 * fit.kinds.length;
  return independent * Math.log(variance) + sum / variance + parameters * Math.log(independent);
}

/** Share of the energy (the integral of squared speed, unweighted) that the components leave unexplained. */
export function unexplainedEnergy(profile: WeightedProfile, fit: BellFit): number {
  const [restX, restY] = residualOf(profile, fit);
  let left = 0;
  let whole = 0;
  for (let i = 0; i < restX.length; i++) {
    const square = profile.weights[i]! ** 2;
    left += (restX[i]! ** 2 + restY[i]! ** 2) / square;
    whole += profile.speed[i]! ** 2 / square;
  }
  return whole === 0 ? 0 : left / whole;
}
