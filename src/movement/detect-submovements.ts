import { requireColumn, requireNumber, requireObject } from "../math/require.js";
import type { KinematicSegment } from "../trace/uniform.js";
import { findSubmovements } from "./bell/find-submovements.js";
import type { Submovement } from "./types.js";

/** Options of `detectSubmovements`. */
export interface DetectSubmovementsOptions {
  /** Noise of one velocity component, unit per second, at least 0; take `noiseFloor.speed` of `kinematics`. Default 0: every bump counts. */
  readonly noiseFloor?: number;
  /** Step of the position readings, in the space's unit, at least 0; take `quantum` of `kinematics`. Default 0: exact positions. */
  readonly quantum?: number;
  /** Share of the largest speed by which a bell must stand out up to the end of the primary, above 0 and at most 1, default 0.05. Higher hides early bells. */
  readonly prominenceShare?: number;
  /** Peaks closer than this are one, seconds, 0 to 1, default 0.06. Higher merges quick successions. */
  readonly minSpacing?: number;
}

/** What `detectSubmovements` found. */
export interface DetectedSubmovements {
  /** In time order. */
  readonly submovements: readonly Submovement[];
  /** Index of the primary one, the fastest; `null` when nothing moved. */
  readonly primary: number | null;
}

/**
 * Submovements of one movement, as peaks of speed.
 *
 * Two thresholds: up to the primary submovement a peak must stand out by `prominenceShare` of the largest speed and 4 noise floors; after it by
 * 2 noise floors, and then its bell must displace the pointer by more than 2.5 quanta, because a share of the peak would hide the small
 * corrections one is looking for. Bells meet at the minimum between them; at a rest their ends are extrapolated as in `segmentMovements`.
 *
 * What peaks cannot see: an early correction hidden in the braking of the movement before it. A second minimum-jerk bell of a fifth of the amplitude
 * and half the duration shows a peak only when it starts later than 0.76 of the first one's duration. Report that limit beside every count.
 * Some late bells come from ending the movement or from tremor, not from correcting an error. Cost O(n).
 *
 * @param profile - one segment of `kinematics`, or any even velocity profile with positions
 * @param options - see `DetectSubmovementsOptions`
 * @returns the bells in time order and which is the primary; none for a profile at rest
 * @throws TypeError or RangeError if the profile's columns or an option are not as stated
 * @see prominence as in scipy.signal.find_peaks (tested against it); limits of peaks: computed, tests/movement/detect-submovements.test.ts
 * @example
 * ```ts
 * const t = Float64Array.from({ length: 200 }, (_, i) => i / 250);
 * const path = (time: number, from: number, T: number): number => {
 *   const s = Math.min(Math.max((time - from) / T, 0), 1);
 *   return s ** 3 * (10 - 15 * s + 6 * s * s);
 * };
 * const x = t.map((time) => 300 * path(time, 0.1, 0.3) + 40 * path(time, 0.45, 0.15));
 * const { segments } = kinematics({ t, x, y: new Float64Array(200) }, { quantum: 0.01 });
 * const found = detectSubmovements(segments[0]!, { noiseFloor: 1, quantum: 1 });
 * found.submovements.length; // => 2
 * found.primary; // => 0
 * ```
 */
export function detectSubmovements(profile: KinematicSegment, options: DetectSubmovementsOptions = {}): DetectedSubmovements {
  const { noiseFloor = 0, quantum = 0, prominenceShare = 0.05, minSpacing = 0.06 } = options;
  requireObject("detectSubmovements", "profile", profile);
  requireNumber("detectSubmovements", "options.noiseFloor", noiseFloor, 0);
  requireNumber("detectSubmovements", "options.quantum", quantum, 0);
  requireNumber("detectSubmovements", "options.prominenceShare", prominenceShare, 0, 1, true);
  requireNumber("detectSubmovements", "options.minSpacing", minSpacing, 0, 1);
  requireNumber("detectSubmovements", "profile.t0", profile.t0);
  requireNumber("detectSubmovements", "profile.sampleRateHz", profile.sampleRateHz, 0, undefined, true);
  requireColumn("detectSubmovements", "profile.speed", profile.speed);
  const n = profile.speed.length;
  for (const name of ["x", "y"] as const) requireColumn("detectSubmovements", `profile.${name}`, profile[name], n);
  const range = { start: 0, end: n, from: 0, until: n };
  const { submovements, primary } = findSubmovements(profile, range, { noise: noiseFloor, quantum, prominenceShare, minSpacing });
  return { submovements, primary: primary < 0 ? null : primary };
}
