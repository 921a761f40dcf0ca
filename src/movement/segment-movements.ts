import { requireNumber } from "../math/require.js";
import { conditionTrace } from "../trace/condition/condition-trace.js";
import { noiseFloorOf } from "../trace/condition/noise-floor.js";
import { type SpeedSegment, toSpeedSegment } from "../trace/condition/speed-segment.js";
import type { KinematicsOptions } from "../trace/kinematics.js";
import type { Trace } from "../trace/types.js";
import { type Bout, findBouts } from "./bell/bouts.js";
import { highestAt, lowestAt, NOISE_LEVELS, valueAt } from "./bell/find-submovements.js";
import { FALL, fallAfter, RISE, riseBefore } from "./bell/onset.js";
import { pathLength } from "./path/path-length.js";

/** A peak is a bell of its own when it stands out by this share of the movement's largest speed. */
const BELL_SHARE = 0.05;

/** Options of `segmentMovements`. */
export interface SegmentMovementsOptions extends KinematicsOptions {
  /** Speed at which a movement begins to count, unit per second, above 0. Default: 4 times the noise floor of speed. Higher misses slow movements, lower finds tremor. */
  readonly enterSpeed?: number;
  /** Movements closer than this are one, seconds, 0 to 10. Default 0.05, shorter than the shortest credible pause before a correction. */
  readonly mergeGap?: number;
  /** Least displacement of a movement, in position quanta, at least 0. Default 2: less is a reading that toggles. */
  readonly minQuanta?: number;
}

/** One bout of movement, without regard to any target. */
export interface Movement {
  /** Seconds, extrapolated to rest: nearly free of the bias that grows with movement time. */
  readonly onset: number;
  /** Seconds at which speed rises through 5 % of the movement's first peak: the common definition, late by about 6 % of the duration. */
  readonly onsetAtThreshold: number;
  /** Time of the largest speed, seconds. */
  readonly peakTime: number;
  /** Unit per second. */
  readonly peakSpeed: number;
  /** Seconds, extrapolated to rest. */
  readonly end: number;
  /** Seconds at which speed falls through 5 % of the last peak. */
  readonly endAtThreshold: number;
  /** Filtered position at onset and end. */
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
  /** Length of the filtered path from onset to end, in the space's unit. */
  readonly pathLength: number;
}

/** Movements with the levels that found them. */
export interface Segmentation {
  /** `belowResolution`: recorded too slowly for the filter's cutoff; `tooFew`: too little motion to tell the rate. Both leave `movements` empty. */
  readonly status: "ok" | "belowResolution" | "tooFew";
  readonly movements: Movement[];
  readonly sampleRateHz: number;
  /** Noise floor of speed, unit per second. */
  readonly noiseFloor: number;
  readonly enterSpeed: number;
  readonly leaveSpeed: number;
  /** Stretches of missing samples; movements never reach across them. */
  readonly missing: number;
}

/**
 * Finds the movements of a trace without knowing any target.
 *
 * The trace goes through `kinematics`; a movement begins when speed rises to `enterSpeed` and ends when it falls below half of that;
 * movements less than `mergeGap` apart are one; those that displace the pointer by less than `minQuanta` quanta are left out.
 * Onset and end are then extrapolated: near rest speed grows as the square of time, so a line through its root over 5-30 %
 * (at the end 40-5 %) of the peak points back to rest. For a minimum-jerk movement that is 1.5 % of the duration early. Cost O(n).
 *
 * @param trace - pointer samples, seconds and the space's unit
 * @param options - see `SegmentMovementsOptions`
 * @returns the movements in time order with the levels used
 * @throws TypeError or RangeError if the trace or an option is not as stated
 * @see Botzer and Karniel 2009 (threshold and extrapolated onsets; abstract read); hysteresis and merging: common practice, no source
 * @example
 * ```ts
 * const t = Float64Array.from({ length: 151 }, (_, i) => i / 250);
 * const s = t.map((time) => Math.min(Math.max((time - 0.1) / 0.3, 0), 1));
 * const x = s.map((u) => 400 * u ** 3 * (10 - 15 * u + 6 * u * u));
 * const found = segmentMovements({ t, x, y: new Float64Array(151) }, { quantum: 1 });
 * found.movements.length; // => 1
 * found.movements[0]!.peakTime; // => 0.25
 * ```
 */
export function segmentMovements(trace: Trace, options: SegmentMovementsOptions = {}): Segmentation {
  const { enterSpeed, mergeGap = 0.05, minQuanta = 2 } = options;
  if (enterSpeed !== undefined) requireNumber("segmentMovements", "options.enterSpeed", enterSpeed, 0, undefined, true);
  requireNumber("segmentMovements", "options.mergeGap", mergeGap, 0, 10);
  requireNumber("segmentMovements", "options.minQuanta", minQuanta, 0);
  const turning = options.space?.kind === "view";
  const chain = conditionTrace("segmentMovements", trace, options, (even, section, padding) =>
    toSpeedSegment(even, section, padding, turning),
  );
  const { status, sampleRateHz, segments, gaps, quantum } = chain;
  const noiseFloor = noiseFloorOf(chain).speed;
  const enter = enterSpeed ?? NOISE_LEVELS * noiseFloor;
  const leave = enter / 2;
  const movements: Movement[] = [];
  for (const segment of segments) {
    const bouts = findBouts(segment.speed, segment.t0, sampleRateHz, enter, leave, mergeGap);
    // no movement reaches into the next: they part where the pointer was slowest between them
    const partings = bouts.slice(1).map((bout, k) => lowestAt(segment.speed, bouts[k]!.end - 1, bout.start));
    for (const [k, bout] of bouts.entries()) {
      const movement = describe(segment, bout, partings[k - 1] ?? 0, partings[k] ?? segment.speed.length - 1, turning);
      const dx = movement.to.x - movement.from.x;
      const dy = movement.to.y - movement.from.y;
      if (movement.peakSpeed > 0 && Math.sqrt(dx * dx + dy * dy) >= minQuanta * quantum) movements.push(movement);
    }
  }
  const missing = gaps.filter((gap) => gap.kind === "missing").length;
  return { status, movements, sampleRateHz, noiseFloor, enterSpeed: enter, leaveSpeed: leave, missing };
}

function describe(segment: SpeedSegment, bout: Bout, earliest: number, latest: number, turning: boolean): Movement {
  const { speed, x, y, t0, sampleRateHz } = segment;
  const top = highestAt(speed, bout.start, bout.end - 1);
  const before = Math.max(0, bout.start - 1);
  const after = Math.min(speed.length, bout.end + 1);
  // the edges belong to the first and the last bell of the bout, whose peaks need not be the highest
  const least = BELL_SHARE * speed[top]!;
  const rise = riseBefore(speed, firstBell(speed, before, after, 1, least), before, RISE[0], RISE[1]);
  const fall = fallAfter(speed, firstBell(speed, after - 1, before - 1, -1, least), after, FALL[0], FALL[1]);
  const from = Math.max(earliest, Math.min(rise.extrapolated, rise.crossing));
  const to = Math.min(latest, Math.max(fall.extrapolated, fall.crossing));
  return {
    onset: t0 + from / sampleRateHz,
    onsetAtThreshold: t0 + rise.crossing / sampleRateHz,
    peakTime: t0 + top / sampleRateHz,
    peakSpeed: speed[top]!,
    end: t0 + to / sampleRateHz,
    endAtThreshold: t0 + fall.crossing / sampleRateHz,
    from: { x: valueAt(x, from), y: valueAt(y, from) },
    to: { x: valueAt(x, to), y: valueAt(y, to) },
    pathLength: wayBetween(segment, from, to, turning),
  };
}

/** The first maximum, going in steps of 1 or -1, from which speed falls by `least` before it rises higher. */
function firstBell(speed: Float64Array, start: number, end: number, step: 1 | -1, least: number): number {
  let highest = start;
  let peak = speed[start]!;
  for (let i = start; i !== end; i += step) {
    const value = speed[i]!;
    if (value <= peak - least) break;
    if (value <= peak) continue;
    peak = value;
    highest = i;
  }
  return highest;
}

/** Length of the path between two fractional samples; `turning` shortens steps of azimuth by the cosine of the elevation, degrees. */
function wayBetween({ x, y }: SpeedSegment, from: number, to: number, turning: boolean): number {
  const first = Math.floor(from) + 1;
  const last = Math.ceil(to) - 1;
  const [fromX, fromY, toX, toY] = [valueAt(x, from), valueAt(y, from), valueAt(x, to), valueAt(y, to)];
  if (last < first) return stepLength(fromX, fromY, toX, toY, turning);
  const ends = stepLength(fromX, fromY, x[first]!, y[first]!, turning) + stepLength(x[last]!, y[last]!, toX, toY, turning);
  if (!turning) return ends + pathLength(x, y, first, last + 1);
  let way = 0;
  for (let i = first; i < last; i++) way += stepLength(x[i]!, y[i]!, x[i + 1]!, y[i + 1]!, turning);
  return ends + way;
}

function stepLength(fromX: number, fromY: number, toX: number, toY: number, turning: boolean): number {
  const dx = (toX - fromX) * (turning ? Math.cos((fromY * Math.PI) / 180) : 1);
  const dy = toY - fromY;
  return Math.sqrt(dx * dx + dy * dy);
}
