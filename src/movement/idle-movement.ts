import type { Estimate, Reason } from "../math/estimate.js";
import { ratioEstimate } from "../math/ratio-estimate.js";
import { requireLevel } from "../math/require.js";
import { conditionTrace } from "../trace/condition/condition-trace.js";
import { filterPair } from "../trace/condition/filter-pair.js";
import type { KinematicsOptions } from "../trace/kinematics.js";
import type { Recording, Space } from "../trace/types.js";
import type { UniformSegment } from "../trace/uniform.js";
import { shrinkAt } from "./acquisition/local-frame.js";
import { idlePath } from "./idle/idle-path.js";
import { idleSpans, knownSpans } from "./idle/idle-spans.js";
import { requireRows } from "./require-rows.js";
import type { Acquisition } from "./types.js";

/**
 * A reading that toggles between two steps on both axes at once is, without the harmonics that the filter takes, two sines of 4 / pi quanta from crest to trough: a pointer
 * at rest seems to swing by sqrt(2) times that.
 */
const DEAD_BAND_QUANTA = 1.8;

/** Options of `idleMovement`. */
export interface IdleMovementOptions extends Omit<KinematicsOptions, "space" | "start"> {
  /** Confidence level of the interval of the share, above 0 and below 1, default 0.95. Higher makes it wider. */
  readonly level?: number;
}

/** A stretch between acquisitions. */
export interface IdleStretch {
  /** Seconds. */
  readonly from: number;
  readonly to: number;
  /** Path of the part in which the pointer is known, in the space's unit. */
  readonly pathLength: number;
  /** Seconds of it in which the pointer moved. */
  readonly movingTime: number;
  /** Seconds of it in which nothing is known of the pointer: samples lost, page or pointer hidden. */
  readonly missingTime: number;
}

/** What the pointer did while it was wanted nowhere. */
export interface IdleMovement {
  /** Sum over the stretches, in the space's unit; `n` stretches, without interval. */
  readonly pathLength: Estimate;
  /** Sum over the stretches, seconds. */
  readonly movingTime: Estimate;
  /** Moving time over the time in which the pointer is known; stretches as the independent units. */
  readonly movingShare: Estimate;
  /** Idle time of the recording, and how much of it is missing, seconds. */
  readonly idleTime: number;
  readonly missingTime: number;
  /** In time order. */
  readonly stretches: readonly IdleStretch[];
}

/**
 * Path and time that the pointer spends moving while no acquisition is under way: returns, wandering, fiddling.
 *
 * Idle is what the stretches from `go` to `end` of all rows, and trials of kind `pursue`, leave between the first and the last sample. Positions are filtered as in
 * `kinematics` and read at 100 Hz; a step counts when it leads more than 1.8 quanta from where the last one ended, so that a toggling reading is no path, and its
 * time counts up to 0.05 s, so that the rest before it does not. What is missing is told and left out. A movement that starts before its `go` is idle until then. Cost O(n).
 *
 * @param recording - the recording that the rows came from
 * @param rows - all of its acquisitions: what is left out is taken for idle
 * @param options - see `IdleMovementOptions`
 * @returns totals, and each stretch. Lower is more economical. `belowResolution`: sampled too slowly for the filter; `tooFew`: too few samples that move; `missingData`: all idle time is missing
 * @throws TypeError or RangeError if the trace or an option is not as described
 * @see common practice, no source; interval of a ratio by the delta method (textbook, from memory)
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 3, movements: 20 });
 * const { pathLength, stretches } = idleMovement(recording, analyze(recording));
 * stretches.length; // => 21
 * pathLength.ok && pathLength.value < 10; // => true
 * ```
 */
export function idleMovement(recording: Recording, rows: readonly Acquisition[], options: IdleMovementOptions = {}): IdleMovement {
  const { level = 0.95, ...conditioning } = options;
  requireRows("idleMovement", recording, rows);
  requireLevel("idleMovement", level);
  const { trace, space } = recording;
  const { status, segments, quantum } = conditionTrace("idleMovement", trace, conditioning, (even, section, padding) => {
    filterPair(even.x, even.y, section, padding);
    return unrolled(even, space);
  });
  const stretches = measure(recording, rows, segments, DEAD_BAND_QUANTA * quantum);
  const sum = (pick: (stretch: IdleStretch) => number): number => stretches.reduce((total, stretch) => total + pick(stretch), 0);
  const idleTime = sum(({ from, to }) => to - from);
  const missingTime = sum((stretch) => stretch.missingTime);
  const seen = stretches.filter((stretch) => knownTime(stretch) > 0);
  const n = seen.length;
  const why: Reason | undefined = status !== "ok" ? status : n === 0 && stretches.length > 0 ? "missingData" : undefined;
  const total = (value: number, unit: string): Estimate => (why === undefined ? { ok: true, value, unit, n } : { ok: false, why, unit, n });
  return {
    pathLength: total(
      sum((stretch) => stretch.pathLength),
      space.unit,
    ),
    movingTime: total(
      sum((stretch) => stretch.movingTime),
      "s",
    ),
    movingShare:
      why === undefined
        ? ratioEstimate(
            seen.map((stretch) => ({ part: stretch.movingTime, whole: knownTime(stretch) })),
            level,
          )
        : { ok: false, why, unit: "1", n },
    idleTime,
    missingTime,
    stretches,
  };
}

function knownTime({ from, to, missingTime }: IdleStretch): number {
  return to - from - missingTime;
}

/** In a view a step of azimuth counts less away from the horizon; the steps are laid side by side, so that distances between neighbours are right. */
function unrolled(even: UniformSegment, space: Space): UniformSegment {
  if (space.kind !== "view") return even;
  const { x, y } = even;
  const flat = new Float64Array(x.length);
  for (let i = 1; i < x.length; i++) flat[i] = flat[i - 1]! + (x[i]! - x[i - 1]!) * shrinkAt(space, (y[i]! + y[i - 1]!) / 2);
  return { ...even, x: flat };
}

/** Both lists of stretches are in time order, so that one pass over them serves. */
function measure(recording: Recording, rows: readonly Acquisition[], segments: readonly UniformSegment[], deadBand: number): IdleStretch[] {
  const known = knownSpans(recording, segments);
  let k = 0;
  let s = 0;
  return idleSpans(recording, rows).map(({ from, to }) => {
    const found = { pathLength: 0, movingTime: 0, missingTime: to - from };
    while (k < known.length && known[k]!.to <= from) k++;
    for (let j = k; j < known.length && known[j]!.from < to; j++) {
      const part = { from: Math.max(from, known[j]!.from), to: Math.min(to, known[j]!.to) };
      const middle = (part.from + part.to) / 2;
      while (s + 1 < segments.length && segments[s + 1]!.t0 - 1 / segments[s + 1]!.sampleRateHz <= middle) s++;
      const path = idlePath(segments[s]!, part, deadBand);
      found.pathLength += path.pathLength;
      found.movingTime += path.movingTime;
      found.missingTime = Math.max(0, found.missingTime - (part.to - part.from));
    }
    return { from, to, ...found };
  });
}
