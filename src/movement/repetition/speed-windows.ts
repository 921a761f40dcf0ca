import type { KinematicSegment } from "../../trace/uniform.js";
import { valueAt } from "../bell/find-submovements.js";
import type { Acquisition } from "../types.js";

/** A device is silent at rest, so that a recording may end a little before its last movement is seen to have ended, seconds. */
const REST_AFTER = 0.1;

/** Speed over the peak of the movement at `times` (seconds, counted from the instant that `at` gives) for each row that has all of them in one profile without a break. */
export function speedWindows(
  rows: readonly Acquisition[],
  segments: readonly KinematicSegment[],
  times: readonly number[],
  at: (row: Acquisition) => number | undefined,
): Float64Array[] {
  return rows.flatMap((row) => {
    const instant = at(row);
    const peak = row.peakSpeed;
    if (instant === undefined || peak === undefined || !(peak > 0)) return [];
    const from = instant + times[0]!;
    const to = instant + times.at(-1)!;
    const segment = segments.find((s) => s.t0 <= from && to <= s.t0 + (s.x.length - 1) / s.sampleRateHz + REST_AFTER);
    if (segment === undefined) return [];
    const { speed, t0, sampleRateHz } = segment;
    const last = speed.length - 1;
    return [Float64Array.from(times, (time) => valueAt(speed, Math.min((instant + time - t0) * sampleRateHz, last)) / peak)];
  });
}
