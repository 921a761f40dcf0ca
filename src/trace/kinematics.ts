import { conditionTrace } from "./condition/condition-trace.js";
import { type NoiseFloor, noiseFloorOf } from "./condition/noise-floor.js";
import { toKinematicSegment } from "./condition/speed-segment.js";
import type { Space, Trace } from "./types.js";
import type { Gap, KinematicSegment } from "./uniform.js";

/** Options of `kinematics`. */
export interface KinematicsOptions {
  /** Rate of the grid, Hz. Default: the nominal rate, at most 1000. Higher adds points, not information. */
  readonly sampleRateHz?: number;
  /** Frequency at which the filter, both passes together, is 3 dB down, Hz, above 0. Default 20. Raised, more noise; lowered, flatter and longer movements. */
  readonly cutoffHz?: number;
  /** Longest silence with a jump that is bridged, seconds. Default 0.05; never below 3 nominal intervals. */
  readonly maxGap?: number;
  /** Smallest change of position that the device can report, in the space's unit. Default: the smallest one in the trace. */
  readonly quantum?: number;
  /** A time on the grid, seconds; it fixes the phase, not the extent. Default: the first sample. */
  readonly start?: number;
  /** Rate of the recording, Hz, when known. Default: one over the median time step of the faster half of the motion. */
  readonly nominalRateHz?: number;
  /** The frame of the recording; in a `view` a step of azimuth counts less away from the horizon. Default: a plane. */
  readonly space?: Space;
}

/** Filtered positions, velocities and speeds of a recording. */
export interface Kinematics {
  /** `belowResolution`: recorded too slowly for the cutoff (under 2.5 samples per period of it); `tooFew`: too few samples that move. Both leave `segments` empty. */
  readonly status: "ok" | "belowResolution" | "tooFew";
  /** Rate of the grid, Hz; 0 when it was neither given nor could be told. */
  readonly sampleRateHz: number;
  /** Rate of the recording itself, Hz; 0 when it was neither given nor could be told. */
  readonly nominalRateHz: number;
  readonly cutoffHz: number;
  /** Smallest change of position, in the space's unit; 0 when nothing moves. */
  readonly quantum: number;
  /** What the rounding of positions alone puts into one component: standard deviations, in the unit, per s, s^2 and s^3. */
  readonly noiseFloor: NoiseFloor;
  readonly segments: KinematicSegment[];
  readonly gaps: Gap[];
}

/**
 * From pointer samples to smooth positions, velocities and speed on an even grid.
 *
 * Steps: even grid (holds kept, missing stretches left out, see `resample`); second-order Butterworth low-pass forward and back, so without
 * lag, with odd reflection of 3 / cutoff seconds at the ends of each segment; central differences, one-sided at the ends; speed as the norm
 * of the velocity, taken last, because noise would add up to a false speed at rest if its size were filtered. In a `view`
 * speed is sqrt((vx cos y)^2 + vy^2) while `vx` stays the rate of azimuth. Positions between samples are linear: ahead of this filter a smooth
 * curve gains nothing in peak speed or acceleration. A part of a recording that has 3 / cutoff seconds more on either side, and a sample after
 * its last gap, gives what the whole gives there.
 *
 * @param trace - times in seconds, not decreasing; positions in the space's unit
 * @param options - see `KinematicsOptions`
 * @returns segments of at least two samples, with the noise floor of the chain; no segments and the reason in `status` when the data do not allow it
 * @throws TypeError or RangeError when the trace or an option is not as stated
 * @see filter against SciPy's filtfilt, differences against NumPy's gradient (tested against both)
 * @example
 * ```ts
 * const t = Float64Array.from({ length: 101 }, (_, i) => i / 100);
 * const steady = { t, x: t.map((s) => 300 * s), y: t.map((s) => 400 * s) };
 * Math.round(kinematics(steady).segments[0]!.speed[50]!); // => 500
 * ```
 */
export function kinematics(trace: Trace, options: KinematicsOptions = {}): Kinematics {
  const turning = options.space?.kind === "view";
  const chain = conditionTrace("kinematics", trace, options, (even, section, padding) =>
    toKinematicSegment(even, section, padding, turning),
  );
  return { ...chain, noiseFloor: noiseFloorOf(chain) };
}
