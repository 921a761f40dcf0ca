import type { LeastSquaresOptions, LeastSquaresReason } from "../../math/least-squares.js";
import { separableLeastSquares } from "../../math/separable-least-squares.js";
import { type BellKind, fillBell, fillBellDerivatives, PARAMETERS_OF, type WeightedGrid } from "./bell-columns.js";

/** A component may have begun this long before the first sample, seconds. */
const LEAD = 0.1;
/** Bounds of the lognormal's shape: peaks between about 0.2 and 0.8 of the duration, from narrow to nearly flat-topped. */
const MU = [-1, 1] as const;
const SIGMA = [0.5, 1.2] as const;

/** A velocity profile ready to be fitted: every series is multiplied by its weights, which are one over the expected error. */
export interface WeightedProfile extends WeightedGrid {
  readonly vx: Float64Array;
  readonly vy: Float64Array;
  readonly speed: Float64Array;
  /** Allowed durations of a component, seconds. */
  readonly minDuration: number;
  readonly maxDuration: number;
}

/** Components fitted jointly. Times are counted from the profile's first sample. */
export interface BellFit {
  readonly kinds: readonly BellKind[];
  /** Onset and duration of each component, and mu and sigma where it is a lognormal, one after another. */
  readonly parameters: Float64Array;
  readonly dx: Float64Array;
  readonly dy: Float64Array;
  /** Weighted squared error of both velocity components. */
  readonly residualSum: number;
  readonly converged: boolean;
  readonly reason: LeastSquaresReason;
}

/** Where the parameters of component `k` begin. */
export function offsetOf(kinds: readonly BellKind[], k: number): number {
  let at = 0;
  for (let c = 0; c < k; c++) at += PARAMETERS_OF[kinds[c]!];
  return at;
}

/** Fits all components at once from a start; their displacements need none, because they enter linearly. */
export function fitBells(
  profile: WeightedProfile,
  kinds: readonly BellKind[],
  start: ArrayLike<number>,
  options: LeastSquaresOptions,
): BellFit {
  const last = (profile.weights.length - 1) * profile.step;
  const offsets = kinds.map((_, k) => offsetOf(kinds, k));
  const lower: number[] = [];
  const upper: number[] = [];
  const columnOf: number[] = [];
  kinds.forEach((kind, k) => {
    lower.push(-LEAD, profile.minDuration);
    upper.push(last, profile.maxDuration);
    if (kind === "lognormal") {
      lower.push(MU[0], SIGMA[0]);
      upper.push(MU[1], SIGMA[1]);
    }
    for (let q = 0; q < PARAMETERS_OF[kind]; q++) columnOf.push(k);
  });
  const fit = separableLeastSquares(
    {
      start,
      lower,
      upper,
      columnOf,
      columns: kinds.length,
      data: [profile.vx, profile.vy],
      fill: (parameters, columns) => {
        for (let k = 0; k < kinds.length; k++) fillBell(kinds[k]!, parameters, offsets[k]!, profile, columns[k]!);
      },
      differentiate: (parameters, derivatives) => {
        for (let k = 0; k < kinds.length; k++) fillBellDerivatives(kinds[k]!, parameters, offsets[k]!, profile, derivatives);
      },
    },
    options,
  );
  const { parameters, residualSum, converged, reason } = fit;
  return { kinds, parameters, dx: fit.coefficients[0]!, dy: fit.coefficients[1]!, residualSum, converged, reason };
}

/**
 * Weighted squared difference between the speed of the data and the sum of the components' speeds. Two large components that cancel each
 * other fit the velocity just as well, but nobody moves like that, and this sum shows it.
 */
export function summedSpeedError(profile: WeightedProfile, fit: BellFit): number {
  const rest = profile.speed.slice();
  const bell = new Float64Array(rest.length);
  for (let k = 0; k < fit.kinds.length; k++) {
    fillBell(fit.kinds[k]!, fit.parameters, offsetOf(fit.kinds, k), profile, bell);
    const size = Math.sqrt(fit.dx[k]! ** 2 + fit.dy[k]! ** 2);
    for (let i = 0; i < rest.length; i++) rest[i]! -= size * bell[i]!;
  }
  let sum = 0;
  for (let i = 0; i < rest.length; i++) sum += rest[i]! * rest[i]!;
  return sum;
}

/** What the components leave of the weighted velocity. */
export function residualOf(profile: WeightedProfile, fit: BellFit): [Float64Array, Float64Array] {
  const restX = profile.vx.slice();
  const restY = profile.vy.slice();
  const bell = new Float64Array(restX.length);
  for (let k = 0; k < fit.kinds.length; k++) {
    fillBell(fit.kinds[k]!, fit.parameters, offsetOf(fit.kinds, k), profile, bell);
    for (let i = 0; i < bell.length; i++) {
      restX[i]! -= fit.dx[k]! * bell[i]!;
      restY[i]! -= fit.dy[k]! * bell[i]!;
    }
  }
  return [restX, restY];
}
