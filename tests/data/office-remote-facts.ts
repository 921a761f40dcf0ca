// The figures of the reference for the office-remote recordings, from recordings as this project reads them. Definitions: facts.json there.
import { quantileSorted } from "simple-statistics";
import type { SamplingReport } from "../../src/trace/quality/sampling-report.js";
import type { Recording, Trace } from "../../src/trace/types.js";
import { type OfficeRow, pressPairs } from "./convert-office-remote.js";

/** A recording read in three ways: rows, all rows as samples, and with the rows that carry no position dropped. */
export interface OfficeReading {
  readonly rows: readonly OfficeRow[];
  readonly whole: Recording;
  readonly repaired: Recording;
  /** The sampling of the whole recording, and with the code for a missing position named. */
  readonly plain: SamplingReport;
  readonly named: SamplingReport;
}

const LONG_GAP_MS = 1000;

/** The figures by the names of the reference; what it says of arrival times is left out, for no recording keeps them. */
export function officeRemoteFacts({ rows, whole, repaired, plain, named }: OfficeReading): Record<string, unknown> {
  const { presses } = repaired;
  const times = sortedMs(presses.slice(1).map((press, i) => press.t - presses[i]!.t));
  const holds = sortedMs(presses.flatMap(({ t, tUp }) => (tUp === undefined ? [] : [tUp - t])));
  const slips = slipsOf(rows).sort((a, b) => a - b);
  const all = steps(whole.trace);
  const good = steps(repaired.trace);
  const gaps = good.filter(({ ms }) => ms > LONG_GAP_MS);
  const { x, y } = repaired.trace;
  const last = whole.trace.t.length - 1;
  const median = (sorted: number[]): number | null => (sorted.length === 0 ? null : quantileSorted(sorted, 0.5));
  return {
    rows: rows.length,
    events: counts(rows.map((row) => row.event)),
    presses: presses.length,
    releases: rows.filter((row) => row.event === "release").length,
    pressesByButton: counts(presses.map((press) => press.code!)),
    pressReleasePairs: holds.length,
    pressesNeverReleased: presses.length - holds.length,
    tFirst_ms: milliseconds(whole.trace.t[0]!),
    tLast_ms: milliseconds(whole.trace.t[last]!),
    duration_s: plain.duration,
    medianInterval_ms: median(sortedMs(all.map(({ ms }) => ms / 1000))),
    medianIntervalInMotion_ms: named.interval!.median * 1000,
    intervalInMotion_q05_q95_ms: [named.interval!.q05 * 1000, named.interval!.q95 * 1000],
    zeroIntervals: plain.duplicates.count,
    zeroIntervalsWithMovement: plain.duplicates.withMovement,
    zeroIntervalsSamePosition: plain.duplicates.samePosition,
    backwardSteps: all.filter(({ ms }) => ms < 0).length,
    rowsIdenticalToPrevious: rows.filter((row, i) => row.text === rows[i - 1]?.text).length,
    gapsOver1s: gaps.length,
    gapsOver1sSamePosition: gaps.filter(({ step }) => step === 0).length,
    gapsOver1sWithJump: gaps.filter(({ step }) => step > 0).length,
    longestGap_s: named.gaps.longest,
    sentinelRows: named.missing,
    boundingBox_px: [Math.min(...x), Math.min(...y), Math.max(...x), Math.max(...y)],
    pathLength_px: total(good),
    pathLengthWithSentinels_px: total(all),
    pathLengthWithoutGaps_px: total(good) - total(gaps),
    movingSteps: good.filter(({ step }) => step > 0).length,
    largestStep_px: good.reduce((largest, { step }) => Math.max(largest, step), 0),
    medianHold_ms: median(holds),
    slipsOver3px: slips.filter((slip) => slip > 3).length,
    slipMedian_px: median(slips),
    interPressMedian_ms: median(times),
    interPressUnder500ms: times.filter((ms) => ms < 500).length,
  };
}

/** Entries whose figure differs from the reference by more than its printed digits; entries that only the reference has are not looked at. */
export function officeRemoteDifferences(got: Record<string, unknown>, expected: Record<string, unknown>): string[] {
  return Object.entries(got).flatMap(([name, value]) => (agree(value, expected[name]) ? [] : [`${name}: ${JSON.stringify(value)}`]));
}

function agree(got: unknown, expected: unknown): boolean {
  if (typeof got === "number" && typeof expected === "number") return Math.abs(got - expected) <= 5.1e-4;
  if (Array.isArray(got) && Array.isArray(expected))
    return got.length === expected.length && got.every((value, i) => agree(value, expected[i]));
  return JSON.stringify(got) === JSON.stringify(expected);
}

function steps({ t, x, y }: Trace): { ms: number; step: number }[] {
  return Array.from({ length: Math.max(0, t.length - 1) }, (_, i) => ({
    ms: milliseconds(t[i + 1]! - t[i]!),
    step: Math.hypot(x[i + 1]! - x[i]!, y[i + 1]! - y[i]!),
  }));
}

function slipsOf(rows: readonly OfficeRow[]): number[] {
  return pressPairs(rows).flatMap(({ press, release }) => (release ? [Math.hypot(release.x - press.x, release.y - press.y)] : []));
}

function total(list: readonly { step: number }[]): number {
  return list.reduce((sum, { step }) => sum + step, 0);
}

function counts(entries: readonly string[]): Record<string, number> {
  const found: Record<string, number> = {};
  for (const entry of [...entries].sort()) found[entry] = (found[entry] ?? 0) + 1;
  return found;
}

/** Whole milliseconds of a time that was whole milliseconds in the file. */
function milliseconds(seconds: number): number {
  return Math.round(seconds * 1e6) / 1e3;
}

function sortedMs(seconds: readonly number[]): number[] {
  return seconds.map(milliseconds).sort((a, b) => a - b);
}
