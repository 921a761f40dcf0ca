import type { Recording, Target } from "../trace/types.js";
import type { KinematicSegment } from "../trace/uniform.js";
import { localFrame, localTarget } from "./acquisition/local-frame.js";
import { steepest } from "./acquisition/steepest.js";
import { valueAt } from "./bell/find-submovements.js";
import { isClean } from "./clean-rows.js";
import type { Acquisition } from "./types.js";

/** Points of a movement that its own kinematics single out. */
export type Landmark = "peakAcceleration" | "peakSpeed" | "peakDeceleration" | "primaryEnd" | "stop";

/** One movement turned onto its own axis: displacements along and across from where it started. */
export interface AlignedMovement {
  readonly amplitude: number;
  readonly byTime: readonly (readonly [number, number])[];
  readonly landmarks: Readonly<Record<Landmark, readonly [number, number]>>;
}

/** A device is silent at rest, so that a recording may end a little before its last movement is seen to have ended, seconds. */
const REST_AFTER = 0.1;

/** Turns every clean movement of the rows onto its axis and reads it at `steps + 1` shares of its time and at its landmarks. */
export function alignMovements(
  recording: Recording,
  rows: readonly Acquisition[],
  segments: readonly KinematicSegment[],
  steps: number,
): AlignedMovement[] {
  const targets = new Map(recording.targets.map((target) => [target.id, target]));
  return rows.flatMap((row) => {
    const target = targets.get(row.target);
    const { onset, primaryEnd, stop } = row.times;
    if (target === undefined || onset === undefined || primaryEnd === undefined || stop === undefined) return [];
    const segment = segments.find((s) => s.t0 <= onset && stop <= s.t0 + (s.x.length - 1) / s.sampleRateHz + REST_AFTER);
    if (segment === undefined || !isClean(row)) return [];
    return [align(recording, target, segment, row, onset, primaryEnd, stop, steps)];
  });
}

function align(
  recording: Recording,
  target: Target,
  segment: KinematicSegment,
  row: Acquisition,
  onset: number,
  primaryEnd: number,
  stop: number,
  steps: number,
): AlignedMovement {
  const { shrink } = localFrame(recording.space, target, row.times.go);
  const frame = localFrame(recording.space, target, onset);
  const at = (t: number): { x: number; y: number } => {
    const index = Math.min((t - segment.t0) * segment.sampleRateHz, segment.x.length - 1);
    return { x: (valueAt(segment.x, index) - frame.x) * shrink, y: valueAt(segment.y, index) - frame.y };
  };
  const start = at(onset);
  const centre = localTarget(frame, target, onset);
  const amplitude = Math.sqrt((centre.x - start.x) ** 2 + (centre.y - start.y) ** 2);
  const ux = (centre.x - start.x) / amplitude;
  const uy = (centre.y - start.y) / amplitude;
  const displacement = (t: number): readonly [number, number] => {
    const p = at(t);
    const dx = p.x - start.x;
    const dy = p.y - start.y;
    return [dx * ux + dy * uy, dx * uy - dy * ux];
  };
  const peak = row.times.peak ?? onset;
  return {
    amplitude,
    byTime: Array.from({ length: steps + 1 }, (_, k) => displacement(onset + (k / steps) * (stop - onset))),
    landmarks: {
      peakAcceleration: displacement(steepest(segment, onset, peak, 1).t),
      peakSpeed: displacement(peak),
      peakDeceleration: displacement(steepest(segment, peak, primaryEnd, -1).t),
      primaryEnd: displacement(primaryEnd),
      stop: displacement(stop),
    },
  };
}
