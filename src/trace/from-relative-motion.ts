import { requireNumber, show } from "../math/require.js";
import { followButtons } from "./event/button-presses.js";
import { type MotionSample, readMotion } from "./event/motion-samples.js";
import type { Mark, Recording } from "./types.js";

/** One report of a device that says how far it moved, not where it is. */
export interface RelativeMotionEvent {
  /** Seconds on one clock. */
  readonly t: number;
  /** Counts to the right since the report before; a whole number. */
  readonly dx: number;
  /** Counts downward on the screen (toward the person) since the report before; a whole number. */
  readonly dy: number;
  /** Buttons held after the report, one bit each: 1 left, 2 right, 4 middle, 8 back, 16 forward. Absent means that no button changed. */
  readonly buttons?: number;
}

export interface FromRelativeMotionOptions {
  /** How far the view turns per count, degrees, above 0; measured, for instance from the counts of ten full turns. Twice the value doubles every angle and speed. */
  readonly degPerCount: number;
  /** Direction before the first report, degrees. Default: azimuth 0, elevation 0. */
  readonly start?: { readonly azimuth: number; readonly elevation: number };
  /** Elevations that the view stops at, degrees, down positive. Default: none. Counts beyond them turn nothing and are marked `"edge"`. */
  readonly elevationLimits?: { readonly min: number; readonly max: number };
  /** Time that becomes 0, seconds. Default: the first report's. Give it where targets and frames of the same clock go into the recording too. */
  readonly origin?: number;
  /** Sort what runs backward and drop what cannot be read, and report both, instead of refusing. Default `false`. */
  readonly repair?: boolean;
}

export interface RelativeMotionReport {
  /** Time that became 0, seconds. */
  readonly origin: number;
  /** Sums of the counts read. */
  readonly counts: { readonly x: number; readonly y: number };
  /** Reports whose counts went beyond an elevation limit, in part or whole. */
  readonly atLimit: number;
  /** Reports that had to be moved in time order. */
  readonly sorted: number;
  /** Reports that could not be read, and the first hundred reasons. */
  readonly dropped: { readonly total: number; readonly reasons: readonly string[] };
}

/**
 * Makes a recording in the `view` space from the counts of a relative device: x is azimuth, not wrapped at full turns, y is elevation,
 * down positive, both in degrees; sample `i` is the direction after report `i`. Counts are added as whole numbers and scaled once,
 * direction = start + degPerCount * sum of counts, so that no rounding builds up and the counts can be had back from the samples.
 * Where the view stops at an elevation, the sum starts anew from there.
 *
 * The counts must be the device's own. A browser's `movementX`, `movementY` are pixels after the system's pointer speed and acceleration,
 * in units that differ between browsers: they fit no constant scale and are often not whole, which is refused.
 * @param events - in the order they came
 * @param options - degrees per count (needed), start, elevation limits, origin, repair
 * @returns the `recording`, seconds from `report.origin`, and a `report`; targets and trials are the caller's to add
 * @throws RangeError for a scale of 0 or less, counts that are not whole, time that runs backward, two clocks (never repaired),
 *   milliseconds in place of seconds where that shows; TypeError for what is no report
 * @see a textbook sum; W3C Pointer Lock on movement deltas (recalled)
 * @example
 * ```ts
 * const events = [{ t: 5, dx: 0, dy: 0 }, { t: 5.008, dx: 12, dy: -4 }, { t: 5.016, dx: 8, dy: 0, buttons: 1 }];
 * const { recording } = fromRelativeMotion(events, { degPerCount: 0.125 });
 * Array.from(recording.trace.x) // => [0, 1.5, 2.5]
 * ```
 */
export function fromRelativeMotion(
  events: Iterable<RelativeMotionEvent>,
  options: FromRelativeMotionOptions,
): { recording: Recording; report: RelativeMotionReport } {
  const where = "fromRelativeMotion";
  if (events === null || typeof events !== "object") throw new TypeError(`${where}: events must be a list of reports, got ${show(events)}`);
  requireOptions(where, options);
  const { samples, sorted, dropped } = readMotion(where, Array.from(events), options.origin, options.repair ?? false);
  const origin = options.origin ?? samples[0]?.t ?? 0;
  const { counts, atLimit, ...parts } = turn(samples, origin, options);
  const recording: Recording = { schema: 1, space: { kind: "view", unit: "deg" }, device: "mouse", ...parts, targets: [], trials: [] };
  return { recording, report: { origin, counts, atLimit, sorted, dropped } };
}

function requireOptions(where: string, options: FromRelativeMotionOptions): void {
  if (options === null || typeof options !== "object") throw new TypeError(`${where}: options must give degPerCount, got ${show(options)}`);
  const { degPerCount, start = { azimuth: 0, elevation: 0 }, elevationLimits, origin } = options;
  requireNumber(where, "options.degPerCount", degPerCount, 0, Number.POSITIVE_INFINITY, true);
  if (elevationLimits !== undefined) {
    requireNumber(where, "options.elevationLimits.min", elevationLimits.min);
    requireNumber(where, "options.elevationLimits.max", elevationLimits.max, elevationLimits.min, Number.POSITIVE_INFINITY, true);
  }
  requireNumber(where, "options.start.azimuth", start.azimuth);
  requireNumber(where, "options.start.elevation", start.elevation, elevationLimits?.min, elevationLimits?.max);
  if (origin !== undefined) requireNumber(where, "options.origin", origin);
}

function turn(
  samples: readonly MotionSample[],
  origin: number,
  options: FromRelativeMotionOptions,
): Pick<Recording, "trace" | "presses" | "marks"> & Pick<RelativeMotionReport, "counts" | "atLimit"> {
  const { degPerCount, start = { azimuth: 0, elevation: 0 } } = options;
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = options.elevationLimits ?? {};
  const trace = { t: new Float64Array(samples.length), x: new Float64Array(samples.length), y: new Float64Array(samples.length) };
  const buttons = followButtons(() => "button");
  const marks: Mark[] = [];
  const counts = { x: 0, y: 0 };
  let base = start.elevation;
  let sinceBase = 0;
  let atLimit = 0;
  let heldSince: number | undefined;
  for (let i = 0; i < samples.length; i++) {
    const { dx, dy, buttons: mask } = samples[i]!;
    const t = samples[i]!.t - origin;
    counts.x += dx;
    counts.y += dy;
    sinceBase += dy;
    let elevation = base + degPerCount * sinceBase;
    const beyond = elevation > max || elevation < min;
    if (beyond) {
      elevation = elevation > max ? max : min;
      base = elevation;
      sinceBase = 0;
      atLimit++;
      heldSince ??= t;
    }
    if (heldSince !== undefined && elevation > min && elevation < max) {
      marks.push({ t: heldSince, tEnd: t, kind: "edge" });
      heldSince = undefined;
    }
    trace.t[i] = t;
    trace.x[i] = start.azimuth + degPerCount * counts.x;
    trace.y[i] = elevation;
    if (mask === undefined) continue;
    // what is held at the first report was pressed before it
    if (i === 0) buttons.resume(mask);
    buttons.update(t, mask, trace.x[i]!, elevation);
  }
  if (heldSince !== undefined) marks.push({ t: heldSince, tEnd: trace.t[samples.length - 1]!, kind: "edge" });
  return { trace, presses: buttons.presses, marks, counts, atLimit };
}
