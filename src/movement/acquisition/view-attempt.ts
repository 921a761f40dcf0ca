import { firstAfter } from "../../math/first-after.js";
import { conditionTrace } from "../../trace/condition/condition-trace.js";
import { type SpeedSegment, toSpeedSegment } from "../../trace/condition/speed-segment.js";
import type { Space, Trace } from "../../trace/types.js";
import { findSubmovements, NOISE_LEVELS, QUANTA_MOVED } from "../bell/find-submovements.js";
import type { Flag, Submovement } from "../types.js";
import type { Attempt } from "./attempts.js";
import type { LocalFrame } from "./local-frame.js";
import { placeIn } from "./place-in.js";
import { relativeTo } from "./relative-profile.js";
import { isTrack } from "./target-position.js";

/** A movement may begin this long before go and still be the one to the new target, seconds. */
export const LOOK_BACK = 0.3;
/** Nothing later than this after the deciding press is looked at, so that a live row need not wait longer, seconds. */
export const HORIZON = 0.2;
/** The pointer moves at the press when its mean speed over this time before it is above the noise and above this share of its peak. */
const PRESS_WINDOW = 0.02;
const PRESS_SHARE = 0.02;
/** The pointer rests at go when its mean speed from this long before to this long after is within the noise, seconds. */
const REST_WINDOW = 0.02;
/** Less than this share of the stroke beside it can be the filter's ringing. */
const RINGING_SHARE = 0.005;

/** What turns an attempt into a row, all resolved. */
export interface DescribeSettings {
  readonly space: Space;
  /** `undefined` when too little motion was recorded to tell. */
  readonly sampleRateHz: number | undefined;
  readonly quantum: number;
  readonly noise: number;
  /** Noise of one filtered coordinate, in the space's unit. */
  readonly positionNoise: number;
  readonly cutoffHz: number;
  readonly maxGap: number;
  readonly prominenceShare: number;
  readonly minSpacing: number;
}

/** What the samples show of an attempt. */
export interface View {
  /** The pointer's profile on the screen. */
  readonly pointer: readonly SpeedSegment[];
  /** The same relative to the target, which then lies in the origin; the same profile when the target stands. */
  readonly relative: readonly SpeedSegment[];
  /** Speed bells of this attempt, relative to the target. */
  readonly strokes: readonly Submovement[];
  readonly pressedInMotion: boolean;
  readonly flags: readonly Flag[];
}

/** Finds the strokes of an attempt in samples that are local to its target; nothing that peaked up to `since` belongs to it. */
export function viewAttempt(
  local: Trace,
  attempt: Attempt,
  since: number,
  until: number,
  frame: LocalFrame,
  settings: DescribeSettings,
): View {
  const { target, go } = attempt;
  const { sampleRateHz, quantum, cutoffHz, maxGap } = settings;
  const nothing = { pointer: [], relative: [], strokes: [], pressedInMotion: false };
  if (!leavesItsPlace(local, go, until, QUANTA_MOVED * quantum)) return { ...nothing, flags: ["noMovement"] };
  if (sampleRateHz === undefined) return { ...nothing, flags: ["belowResolution"] };
  const options = { sampleRateHz, nominalRateHz: sampleRateHz, quantum, cutoffHz, maxGap };
  const chain = conditionTrace("createAnalyzer", local, options, (even, section, padding) => toSpeedSegment(even, section, padding, false));
  if (chain.status === "belowResolution") return { ...nothing, flags: ["belowResolution"] };
  const lost = chain.gaps.some((gap) => gap.kind === "missing" && gap.to > go && gap.from < until);
  const pointer = chain.segments;
  let strokes = strokesOf(pointer, countFrom(pointer, since, go, until, settings), until, settings);
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
  const least = Math.max(NOISE_LEVELS * settings.noise, PRESS_SHARE * peak);
  const pressedInMotion =
    attempt.presses.length > 0 && last !== undefined && until < last.end && meanSpeed(relative, until - PRESS_WINDOW, until) > least;
  const flags: Flag[] = lost ? ["missingData"] : last === undefined ? ["noMovement"] : [];
  return { pointer, relative, strokes, pressedInMotion, flags };
}

/** Whether a sample up to `until` lies farther than `distance` from where the pointer was at `from`. */
export function leavesItsPlace({ t, x, y }: Trace, from: number, until: number, distance: number): boolean {
  const at = Math.max(0, firstAfter(t, from) - 1);
  for (let i = at; i < t.length && t[i]! <= until; i++) {
    const dx = x[i]! - x[at]!;
    const dy = y[i]! - y[at]!;
    if (dx * dx + dy * dy > distance * distance) return true;
  }
  return false;
}

/**
 * From when on peaks count: from go, or from the start of a movement that was under way then and leads to the target, which lies in the
 * origin. A movement that only happens to be braking at go, as the one back to a starting place, does not come half as near.
 */
function countFrom(segments: readonly SpeedSegment[], since: number, go: number, until: number, settings: DescribeSettings): number {
  // a pointer at rest at go, as it mostly is, was not under way
  if (meanSpeed(segments, go - REST_WINDOW, go + REST_WINDOW) <= settings.noise) return go;
  for (const stroke of strokesOf(segments, Math.max(since, go - LOOK_BACK), until, settings)) {
    if (stroke.peak >= go || stroke.end <= go || stroke.peak <= since) continue;
    const start = placeIn(segments, stroke.start);
    if (start === undefined) continue;
    const endX = start.x + stroke.dx;
    const endY = start.y + stroke.dy;
    if (4 * (endX * endX + endY * endY) <= start.x * start.x + start.y * start.y) return stroke.start;
  }
  return go;
}

/** Submovements that peak within `[from, until]`, without those that no hand made or that hardly move the pointer before the fastest. */
function strokesOf(segments: readonly SpeedSegment[], from: number, until: number, settings: DescribeSettings): Submovement[] {
  const strokes = segments
    .flatMap((segment) => {
      const n = segment.x.length;
      const sample = (t: number): number => (t - segment.t0) * segment.sampleRateHz;
      const range = {
        start: Math.min(Math.max(Math.ceil(sample(from - LOOK_BACK)), 0), n),
        end: Math.min(Math.max(Math.ceil(sample(until + HORIZON)), 0), n),
        from: sample(from),
        until: sample(until),
      };
      return findSubmovements(segment, range, settings).submovements;
    })
    .filter((stroke, k, all) => !isRinging(stroke, all[k - 1], settings.cutoffHz) && !isRinging(stroke, all[k + 1], settings.cutoffHz));
  const fastest = strokes.reduce((most, stroke) => Math.max(most, stroke.peakSpeed), 0);
  const least = (QUANTA_MOVED * settings.quantum) ** 2;
  const first = strokes.findIndex(({ peakSpeed, dx, dy }) => peakSpeed === fastest || dx * dx + dy * dy > least);
  return strokes.slice(Math.max(0, first));
}

/**
 * Whether a stroke is only the filter's answer to the beginning or end of another: right beside it, against it, and a hair of its size.
 * The share is 0.3 % beside a minimum-jerk stroke of 0.1 s and less beside slower ones (computed, tests/movement/special-cases.test.ts);
 * coarse positions hide it.
 */
function isRinging(stroke: Submovement, other: Submovement | undefined, cutoffHz: number): boolean {
  if (other === undefined || Math.max(stroke.start - other.end, other.start - stroke.end) > 1 / cutoffHz) return false;
  if (stroke.dx * other.dx + stroke.dy * other.dy > 0) return false;
  const square = other.dx * other.dx + other.dy * other.dy;
  return stroke.dx * stroke.dx + stroke.dy * stroke.dy < RINGING_SHARE * RINGING_SHARE * square;
}

/** Mean speed over `[from, to]`, 0 where no profile covers it. */
function meanSpeed(segments: readonly SpeedSegment[], from: number, to: number): number {
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
