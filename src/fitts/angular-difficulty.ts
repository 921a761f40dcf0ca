import { requireNumber } from "../math/require.js";
import { indexOfDifficulty } from "./index-of-difficulty.js";

/** Options of `angularDifficulty`. */
export interface AngularDifficultyOptions {
  /** Power of the angular width in `weighted`, at least 0, default 3. Raised, small targets count for more. */
  readonly exponent?: number;
}

/** An aim in angles, and two indices of its difficulty. */
export interface AngularDifficulty {
  /** Angle between start and target as seen from where the person stands, degrees. */
  readonly amplitude: number;
  /** Angle that the target takes up, degrees. */
  readonly width: number;
  /** log2(amplitude/width + 1), bit: the Shannon form on angles. The same in any angle unit. */
  readonly plain: number;
  /** log2(amplitude/width^exponent + 1) squared, without a unit; only meaningful with the angles in degrees. */
  readonly weighted: number;
}

const WHERE = "angularDifficulty";
const DEGREES = 57.29577951308232;

/**
 * Difficulty of pointing at a distance, where the hand turns through angles and not along the screen.
 *
 * With amplitude A and width W on a flat display at distance D, start and target at either side of the line of sight:
 * alpha = 2 atan(A/(2D)), omega = atan((A + W)/(2D)) - atan((A - W)/(2D)); plain = log2(alpha/omega + 1), weighted = log2(alpha/omega^k + 1)^2.
 * `weighted` depends on the angle unit unless k is 1, because a power of degrees divides degrees: never compare it with one taken in
 * radians. Where the view itself turns, angles are what was recorded: give them to `indexOfDifficulty`.
 *
 * @param amplitude - distance from start to target centre on the display, at least 0
 * @param width - width of the target on the display along that line, above 0
 * @param distance - from the person (or the hand's pivot) to the display, above 0; all three in one length unit
 * @param options - see `AngularDifficultyOptions`
 * @returns angles in degrees and both indices; higher is harder
 * @throws TypeError if an argument is no number; RangeError if one is out of range, or the angles are too small to be divided
 * @see Kopper, Bowman, Silva and McMahan 2010 (abstract read; formulas recalled)
 * @example
 * ```ts
 * angularDifficulty(0.5, 0.05, 1); // => { amplitude: 28.0725, width: 2.6959, plain: 3.5126, weighted: 1.6451 }
 * ```
 */
export function angularDifficulty(
  amplitude: number,
  width: number,
  distance: number,
  options: AngularDifficultyOptions = {},
): AngularDifficulty {
  const { exponent = 3 } = options;
  requireNumber(WHERE, "amplitude", amplitude, 0);
  requireNumber(WHERE, "width", width, 0, Number.POSITIVE_INFINITY, true);
  requireNumber(WHERE, "distance", distance, 0, Number.POSITIVE_INFINITY, true);
  requireNumber(WHERE, "options.exponent", exponent, 0);
  const far = amplitude / distance;
  const wide = width / distance;
  const alpha = 2 * Math.atan(far / 2) * DEGREES;
  // the difference of the two arcs in one: subtracting them would cost a small target its digits
  const omega = Math.atan2(wide, 1 + ((far - wide) * (far + wide)) / 4) * DEGREES;
  const weight = alpha / omega ** exponent;
  requireNumber(WHERE, "amplitude over the power of the width, in degrees,", weight);
  return { amplitude: alpha, width: omega, plain: indexOfDifficulty(alpha, omega), weighted: Math.log2(weight + 1) ** 2 };
}
