import type { Estimate } from "../math/estimate.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { requireInteger, requireLevel } from "../math/require.js";
import { sdEstimate } from "../math/sd-estimate.js";
import { type KinematicsOptions, kinematics } from "../trace/kinematics.js";
import type { Recording } from "../trace/types.js";
import { type AlignedMovement, alignMovements, type Landmark } from "./align-movements.js";
import { requireRows } from "./require-rows.js";
import type { Acquisition } from "./types.js";

/** Options of `variabilityProfile`. */
export interface VariabilityProfileOptions extends Omit<KinematicsOptions, "space"> {
  /** Steps of normalised time from onset to stop, 2 to 1000, default 20 (every 5 %). */
  readonly steps?: number;
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/** Spread across movements at one point of the way. */
export interface VariabilityPoint {
  /** Standard deviations (n - 1) of the displacement from the start, in the space's unit. */
  readonly along: Estimate;
  readonly across: Estimate;
  /** Mean displacement along the axis. */
  readonly meanAlong: number;
  /** Spread along over what uncorrected differences in force would give: that at peak speed, grown in proportion to the distance covered. Below 1 after peak speed speaks for compensation. */
  readonly ratioToUncorrected: number | null;
}

/** Spread across movements on the way, at shares of the movement time and at landmarks. */
export interface VariabilityProfile {
  /** Movements used. */
  readonly n: number;
  /** Rows without a clean movement. */
  readonly leftOut: number;
  /** `mixedAmplitudes`: the distances differ by more than a tenth, which the spread along then reflects; `few`: under 20 movements. */
  readonly warnings: readonly ("mixedAmplitudes" | "few")[];
  readonly byTime: readonly (VariabilityPoint & { readonly share: number })[];
  readonly byLandmark: Readonly<Record<Landmark, VariabilityPoint>>;
}

const LANDMARKS: readonly Landmark[] = ["peakAcceleration", "peakSpeed", "peakDeceleration", "primaryEnd", "stop"];
/** Fewer movements than this leave a spread too uncertain to compare. */
const ENOUGH = 20;
/** Amplitudes that vary by more than this share of their mean are more than one condition. */
const ONE_CONDITION = 0.1;

/**
 * How the spread of a set of like movements grows and shrinks on the way to the target.
 *
 * Each movement is turned onto its own axis (start to target) but not scaled. At shares of its own movement time (onset to stop), and at peak
 * acceleration, peak speed, peak deceleration, primary end and stop, the standard deviation across movements of the displacement along and
 * across is taken. Time is normalised per movement, so that differences of duration alone do not look like a spread that is corrected away; what
 * remains without correction grows with the distance covered, and `ratioToUncorrected` compares with that.
 * Give movements of one amplitude, width and pace.
 *
 * @param recording - the recording that the rows came from
 * @param rows - its acquisitions
 * @param options - see `VariabilityProfileOptions`
 * @returns spreads with intervals that widen with the tails, and warnings; not ok with fewer than two movements
 * @throws RangeError if an option is out of range
 * @see Gutman, Latash, Almeida and Gottlieb 1993 (spread that falls without correction; abstract read); Khan and Elliott's use of the profile (recalled)
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 5, movements: 30, targets: { amplitude: [400, 400], widths: [40] } });
 * const profile = variabilityProfile(recording, analyze(recording));
 * profile.n; // => 30
 * ```
 */
export function variabilityProfile(
  recording: Recording,
  rows: readonly Acquisition[],
  options: VariabilityProfileOptions = {},
): VariabilityProfile {
  const { steps = 20, level = 0.95, ...conditioning } = options;
  requireRows("variabilityProfile", recording, rows);
  requireInteger("variabilityProfile", "options.steps", steps, 2, 1000);
  requireLevel("variabilityProfile", level);
  const chain = kinematics(recording.trace, conditioning);
  const movements = alignMovements(recording, rows, chain.segments, steps);
  const amplitudes = movements.map((movement) => movement.amplitude);
  const warnings: VariabilityProfile["warnings"][number][] = movements.length < ENOUGH ? ["few"] : [];
  if (relativeSpread(amplitudes) > ONE_CONDITION) warnings.push("mixedAmplitudes");
  const unit = recording.space.unit;
  const atPeak = spread(movements, (movement) => movement.landmarks.peakSpeed);
  const point = (pick: (movement: AlignedMovement) => readonly [number, number]): VariabilityPoint => {
    const here = spread(movements, pick);
    const uncorrected = (atPeak.sd * here.mean) / atPeak.mean;
    return {
      along: sdEstimate(here.along, unit, level),
      across: sdEstimate(here.across, unit, level),
      meanAlong: here.mean,
      ratioToUncorrected: uncorrected > 0 ? here.sd / uncorrected : null,
    };
  };
  const shares = Array.from({ length: steps + 1 }, (_, k) => k / steps);
  return {
    n: movements.length,
    leftOut: rows.length - movements.length,
    warnings,
    byTime: shares.map((share, k) => ({ share, ...point((movement) => movement.byTime[k]!) })),
    byLandmark: Object.fromEntries(LANDMARKS.map((name) => [name, point((movement) => movement.landmarks[name])])) as Record<
      Landmark,
      VariabilityPoint
    >,
  };
}

/** Displacements at one point of all movements, with mean and spread along; zeros when there are none. */
function spread(
  movements: readonly AlignedMovement[],
  pick: (movement: AlignedMovement) => readonly [number, number],
): { along: number[]; across: number[]; mean: number; sd: number } {
  const along = movements.map((movement) => pick(movement)[0]);
  const across = movements.map((movement) => pick(movement)[1]);
  return { along, across, ...(along.length === 0 ? { mean: 0, sd: 0 } : meanAndSd(along)) };
}

function relativeSpread(values: readonly number[]): number {
  const { mean, sd } = meanAndSd(values);
  return values.length < 2 ? 0 : sd / mean;
}
