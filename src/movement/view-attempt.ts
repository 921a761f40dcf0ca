import { kinematics } from "../trace/kinematics.js";
import type { Space, Trace } from "../trace/types.js";
import type { KinematicSegment } from "../trace/uniform.js";
import type { Attempt } from "./attempts.js";
import { findSubmovements } from "./find-submovements.js";
import type { LocalFrame } from "./local-frame.js";
import { relativeTo } from "./relative-profile.js";
import { isTrack } from "./target-position.js";
import type { Flag, Submovement } from "./types.js";

/** A movement may begin this long before go and still be the one to the new target, seconds. */
export const LOOK_BACK = 0.3;
/** Nothing later than this after the deciding press is looked at, so that a live row need not wait longer, seconds. */
export const HORIZON = 0.2;
/** The pointer moves at the press when its mean speed over this time before it is above the noise and above this share of its peak. */
const PRESS_WINDOW = 0.02;
const PRESS_SHARE = 0.02;

/** What turns an attempt into a row, all resolved. */
export interface DescribeSettings {
  readonly space: Space;
  /** `undefined` when too little motion was recorded to tell. */
  readonly sampleRateHz: number | undefined;
  readonly quantum: number;
  readonly noise: number;
  readonly cutoffHz: number;
  readonly maxGap: number;
  readonly prominenceShare: number;
  readonly minSpacing: number;
}

/** What the samples show of an attempt. */
export interface View {
  /** The pointer's profile on the screen. */
  readonly pointer: readonly KinematicSegment[];
  /** Speed bells of this attempt, relative to the target. */
  readonly strokes: readonly Submovement[];
  readonly pressedInMotion: boolean;
  readonly flags: readonly Flag[];
}

/** Finds the strokes of an attempt in samples that are local to its target. */
export function viewAttempt(local: Trace, attempt: Attempt, until: number, frame: LocalFrame, settings: DescribeSettings): View {
  const { target, go } = attempt;
  const { sampleRateHz, quantum, cutoffHz, maxGap } = settings;
  const nothing = { pointer: [], strokes: [], pressedInMotion: false };
  if (sampleRateHz === undefined) return { ...nothing, flags: ["noMovement"] };
  const chain = kinematics(local, { sampleRateHz, nominalRateHz: sampleRateHz, quantum, cutoffHz, maxGap });
  if (chain.status === "belowResolution") return { ...nothing, flags: ["belowResolution"] };
  const lost = chain.gaps.some((gap) => gap.kind === "missing" && gap.to > go && gap.from < until);
  const pointer = chain.segments;
  let strokes = strokesOf(pointer, go, until, settings);
  let relative = pointer;
  if (isTrack(target.at) && strokes.length > 0) {
    // a movement begins on the screen; it ends when the pointer moves with the target
    const begin = strokes[0]!.start;
    relative = pointer.map((segment) => relativeTo(segment, target, frame, cutoffHz));
    const chasing = strokesOf(relative, begin, until, settings);
    if (chasing.length > 0) strokes = [{ ...chasing[0]!, start: begin }, ...chasing.slice(1)];
  }
  const last = strokes[strokes.length - 1];
  const peak = strokes.reduce((most, stroke) => Math.max(most, stroke.peakSpeed), 0);
  const least = Math.max(4 * settings.noise, PRESS_SHARE * peak);
  const pressedInMotion =
    attempt.presses.length > 0 && last !== undefined && until < last.end && meanSpeed(relative, until - PRESS_WINDOW, until) > least;
  return { pointer, strokes, pressedInMotion, flags: [...(lost ? ["missingData" as const] : []), ...(last === undefined ? ["noMovement" as const] : [])] };
}

function strokesOf(segments: readonly KinematicSegment[], from: number, until: number, settings: DescribeSettings): Submovement[] {
  return segments.flatMap((segment) => {
    const n = segment.x.length;
    const sample = (t: number): number => (t - segment.t0) * segment.sampleRateHz;
    const range = {
      start: Math.min(Math.max(Math.ceil(sample(from - LOOK_BACK)), 0), n),
      end: Math.min(Math.max(Math.ceil(sample(until + HORIZON)), 0), n),
      from: sample(from),
      until: sample(until),
    };
    return findSubmovements(segment, range, settings).submovements;
  });
}

/** Mean speed over `[from, to]`, 0 where no profile covers it. */
function meanSpeed(segments: readonly KinematicSegment[], from: number, to: number): number {
  for (const { t0, sampleRateHz, speed } of segments) {
    const first = Math.max(0, Math.ceil((from - t0) * sampleRateHz));
    const last = Math.min(speed.length - 1, Math.floor((to - t0) * sampleRateHz));
    if (last < first || last <= 0) continue;
    let sum = 0;
    for (let i = first; i <= last; i++) sum += speed[i]!;
    return sum / (last - first + 1);
  }
  return 0;
}
