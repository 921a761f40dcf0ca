// What a downloaded recording must hold, against what the hand did and what the browser itself saw.
import { execFileSync } from "node:child_process";
import type { Page } from "playwright-core";
import { acquisitionCells } from "../../docs/live/acquisition-table.js";
import { throughput } from "../../src/fitts/index.js";
import { analyze, pointingTrials } from "../../src/movement/index.js";
import { analyzePursuit } from "../../src/pursuit/index.js";
import { formatRecording } from "../../src/trace/index.js";
import type { Recording, Session, Track } from "../../src/trace/types.js";
import { check } from "./checks.js";
import type { Planned } from "./live-hand.js";

/** Seconds before a press in which the hand rests by plan, less a little. */
const VERIFICATION = 0.085;
/** Of ISO 9241-411, recalled: effective width is this times the standard deviation, the square root of 2 pi e. */
const WIDTHS_PER_SD = 4.133;

declare global {
  /** Every position over the field while a task runs, by a listener of the test: time (ms), x, y from the field's corner. */
  var pointerSeen: [t: number, x: number, y: number][];
}

export async function watchPointer(page: Page): Promise<void> {
  await page.evaluate(() => {
    globalThis.pointerSeen = [];
    const field = document.querySelector(".live-field")!;
    for (const type of ["pointermove", "pointerdown", "pointerup"] as const) {
      addEventListener(type, (event) => {
        if (!field.classList.contains("live-runs") || !event.composedPath().includes(field)) return;
        const { left, top } = field.getBoundingClientRect();
        const merged = event.getCoalescedEvents();
        for (const { timeStamp, clientX, clientY } of merged.length > 0 ? merged : [event])
          globalThis.pointerSeen.push([timeStamp, clientX - left, clientY - top]);
      });
    }
  });
}

/** The file is whole, read back to the last bit, and holds every position that the browser told of. */
export async function checkSeen(page: Page, text: string, session: Session): Promise<void> {
  check("download: read and written again, the same bytes", formatRecording(session) === text);
  const seen = await page.evaluate(() => globalThis.pointerSeen);
  const recorded = session.recordings.flatMap(({ trace }) => [...trace.t].map((t, i) => [1000 * t, trace.x[i]!, trace.y[i]!] as const));
  const zero = seen[0]![0] - recorded[0]![0];
  const off = seen.reduce(
    (most, [, x, y], i) => Math.max(most, Math.abs(x - (recorded[i]?.[1] ?? 1e9)), Math.abs(y - (recorded[i]?.[2] ?? 1e9))),
    0,
  );
  const late = seen.map(([t], i) => (recorded[i]?.[0] ?? 1e9) - (t - zero));
  check(
    `download: the ${seen.length} positions that the browser told of, each once and in its place`,
    seen.length === recorded.length && off < 1e-9,
    [recorded.length, off],
  );
  // what comes too late for a chunk that was given already is moved up to it, and never back
  const exact = late.filter((by) => Math.abs(by) < 1e-3).length;
  check(
    `download: ${exact} of them at the browser's own times, none earlier`,
    exact >= 0.8 * late.length && late.every((by) => by > -1e-3),
  );
  for (const { trials, targets, presses, frames, device } of session.recordings) {
    const shown = new Set(frames);
    check(
      `download: ${device}, ${trials.length} trials, ${targets.length} targets, ${presses.length} presses, ${frames?.length} frames; each target was shown in one of the frames`,
      trials.length > 0 &&
        presses.every(({ credited }) => credited !== undefined || trials[0]!.kind === "pursue") &&
        targets.every(({ tShown }) => shown.has(tShown)),
      device,
    );
  }
}

export function checkTapping(recording: Recording, planned: readonly Planned[], tables: readonly string[]): void {
  const rows = analyze(recording);
  check(`tapping: ${planned.length} acquisitions`, rows.length === planned.length, rows.length);
  const outcomes = rows.map(({ outcome }) => (outcome === "hit" ? "h" : outcome === "miss" ? "m" : "?")).join("");
  check(
    `tapping: outcomes as planned (${planned.filter(({ hit }) => !hit).length} misses)`,
    outcomes === planned.map(({ hit }) => (hit ? "h" : "m")).join(""),
    outcomes,
  );

  const errors = planned.map(({ from, target, end }) => {
    const [dx, dy] = [target[0] - from[0], target[1] - from[1]];
    const amplitude = Math.sqrt(dx * dx + dy * dy);
    return {
      amplitude,
      along: ((end[0] - target[0]) * dx + (end[1] - target[1]) * dy) / amplitude,
      across: ((end[0] - target[0]) * dy - (end[1] - target[1]) * dx) / amplitude,
    };
  });
  const presses = recording.presses.filter(({ t }) => recording.trials.some(({ tStart, tEnd }) => t > tStart && t <= tEnd!));
  const apart = Math.max(...presses.map(({ x, y }, i) => Math.max(Math.abs(x! - planned[i]!.end[0]), Math.abs(y! - planned[i]!.end[1]))));
  // the browser keeps positions in single precision: a step is 6e-5 px at 1000 px
  check(
    `tapping: ${presses.length} presses where they were planned, within ${apart.toExponential(0)} px`,
    presses.length === rows.length && apart < 2e-4,
    apart,
  );

  // movements whose events the machine brought so late that the recorder had to move them up, or not at all, are another movement than the planned one
  const whole = rows.flatMap((row, i) => (largestStep(recording, row.times.go, row.times.press!) < 0.012 ? [i] : []));
  console.log(
    `      ${whole.length} of ${rows.length} movements came through the machine as planned; the rest is left out of the times within a movement`,
  );
  check("tapping: enough movements came through to judge the times", whole.length >= 5, whole.length);
  const begin = recording.trials[0]!.tStart;
  const late = (of: "onset" | "stop" | "press", at: readonly number[]) =>
    at.map((i) => Math.abs(1000 * ((rows[i]!.times[of] ?? 1e6) - begin) - (planned[i]![of] - planned[0]!.go)));
  const said = (values: readonly number[]): string =>
    `median ${median(values).toFixed(2)} ms off, 9 in 10 within ${nineInTen(values).toFixed(2)}`;
  // the clock of a page that is not isolated steps by 0.1 ms
  const pressed = late(
    "press",
    rows.map((_, i) => i),
  );
  check(`tapping: presses when they were planned (${said(pressed)})`, nineInTen(pressed) < 0.3, pressed);
  // what the analysis promises of simulated movements: nine onsets in ten within 15 ms, stops a little worse
  const onset = late("onset", whole);
  check(`tapping: onsets as planned (${said(onset)})`, nineInTen(onset) < 15, onset);
  const stop = late("stop", whole);
  check(`tapping: stops as planned (${said(stop)})`, nineInTen(stop) < 25, stop);
  const strokes = whole.filter((i) => rows[i]!.corrections.length === 0).length;
  check(`tapping: ${strokes} of ${whole.length} movements are one stroke, as all were planned`, strokes >= 0.9 * whole.length, strokes);
  const far = Math.max(
    ...whole.map((i) => {
      const { along, across } = rows[i]!.errors.press!;
      return Math.max(Math.abs(along! - errors[i]!.along), Math.abs(across! - errors[i]!.across));
    }),
  );
  check(`tapping: errors along and across the way as planned, within ${far.toFixed(3)} px`, far < 0.05, far);
  checkThroughput(recording, rows, planned, errors, tables);
}

function checkThroughput(
  recording: Recording,
  rows: ReturnType<typeof analyze>,
  planned: readonly Planned[],
  errors: readonly { readonly amplitude: number; readonly along: number }[],
  tables: readonly string[],
): void {
  const cells = new Map<string, number[]>();
  for (const [i, { block }] of rows.entries()) cells.set(block, [...(cells.get(block) ?? []), i]);
  const each = [...cells.values()].map((at) => {
    const along = at.map((i) => errors[i]!.along);
    const width = WIDTHS_PER_SD * sd(along);
    const amplitude = mean(at.map((i) => errors[i]!.amplitude + errors[i]!.along));
    return Math.log2(amplitude / width + 1) / mean(at.map((i) => (planned[i]!.press - planned[i]!.go) / 1000));
  });
  const expected = mean(each);
  const found = throughput(pointingTrials(rows).trials).throughput;
  const value = found.ok ? found.value : Number.NaN;
  // the amplitude of a row counts from where its movement was seen to begin, a pixel or so off; times and endpoints are the same
  check(
    `throughput: ${value.toFixed(3)} bit/s, from the plan ${expected.toFixed(3)}, ${cells.size} conditions`,
    Math.abs(value / expected - 1) < 0.01,
    value,
  );
  const words = `${Number(value.toPrecision(3))} bit/s (`;
  check(
    `throughput: the page says ${words.slice(0, -2)}, too`,
    tables.some((table) => table.includes(words)),
    words,
  );
  const amplitudes = recording.trials.map(({ condition }) => condition.amplitude as number);
  // source: geometry of the chord; the hand starts from its own errors, so that only their mean is near
  const nominal = recording.trials.every((trial, i) => {
    const places = trial.goals.map((id) => recording.targets.find((target) => target.id === id)!.at as { x: number; y: number });
    return places
      .slice(1)
      .every((place, k) => Math.abs(Math.sqrt((place.x - places[k]!.x) ** 2 + (place.y - places[k]!.y) ** 2) - amplitudes[i]!) < 1e-6);
  });
  check("tapping: every target lies the condition's distance from the one before", nominal);
}

export function checkFollowing(recording: Recording, delay: number): void {
  const [found] = analyzePursuit(recording);
  const { lag, gain, explained, samples, error } = found!;
  const known = lag.byCorrelation.ok ? 1000 * (lag.byCorrelation.value + lag.frameLag) : Number.NaN;
  // the hand aims between the frames' places, so that the half frame which the analysis takes off is its own
  check(
    `following: lag ${known.toFixed(1)} ms, of the hand ${delay} ms (${samples.duration.toFixed(1)} s)`,
    Math.abs(known - delay) < 5,
    known,
  );
  check(`following: gain ${gain.ok ? gain.value.toFixed(3) : gain.why}, of the hand 1`, gain.ok && Math.abs(gain.value - 1) < 0.02, gain);
  check(
    `following: the target explains ${explained.ok ? (100 * explained.value).toFixed(1) : explained.why} % of the motion`,
    explained.ok && explained.value > 0.9,
    explained,
  );
  const { at } = recording.targets[0]!;
  const expected = "t" in at ? laggedError(at, delay / 1000, samples.from, samples.to) : Number.NaN;
  const rms = error.rms.ok ? error.rms.value : Number.NaN;
  check(
    `following: ${rms.toFixed(1)} px off, as a copy of the track so late is (${expected.toFixed(1)} px)`,
    Math.abs(rms / expected - 1) < 0.03,
    rms,
  );
}

/** Root mean square distance between a track and itself `delay` seconds ago. */
function laggedError({ t, x, y }: Track, delay: number, from: number, to: number): number {
  const at = (column: Float64Array, time: number): number => {
    let k = t.findIndex((later) => later >= time);
    k = Math.max(1, k);
    return column[k - 1]! + ((time - t[k - 1]!) / (t[k]! - t[k - 1]!)) * (column[k]! - column[k - 1]!);
  };
  const squares: number[] = [];
  for (let time = Math.max(from, t[0]! + delay); time < Math.min(to, t[t.length - 1]!); time += 0.01)
    squares.push((at(x, time) - at(x, time - delay)) ** 2 + (at(y, time) - at(y, time - delay)) ** 2);
  return Math.sqrt(mean(squares));
}

/** The command reads the file as it is, and finds the acquisitions that the page shows. */
export function checkByCommand(path: string, session: Session, tables: readonly string[]): void {
  const text = execFileSync("node", ["dist/cli.js", path, "--form", "json", "--quiet"], { encoding: "utf8" });
  const lines = text
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as Record<string, unknown>);
  const byCommand = lines.filter(({ kind }) => kind === "acquisition");
  const rows = session.recordings.flatMap((recording) => analyze(recording));
  const isSame = rows.every(
    (row, i) => byCommand[i]?.target === row.target && byCommand[i]?.outcome === row.outcome && byCommand[i]?.end === row.times.end,
  );
  check(
    `command: ${byCommand.length} acquisitions, the same targets, outcomes and times`,
    byCommand.length === rows.length && isSame,
    byCommand[0],
  );
  const shown = tables[tables.length - 1]!;
  check(
    "command: the page shows the same lines",
    rows.every((row) => shown.includes(acquisitionCells(row).join(""))),
    shown.slice(0, 200),
  );
}

/** Longest time without a position on the way, from the first motion after `from`, seconds. */
function largestStep({ trace: { t, x, y } }: Recording, from: number, to: number): number {
  let largest = 0;
  let before: number | undefined;
  for (let i = 1; i < t.length && t[i]! < to - VERIFICATION; i++) {
    if (t[i]! <= from || (before === undefined && x[i] === x[i - 1] && y[i] === y[i - 1])) continue;
    if (before !== undefined) largest = Math.max(largest, t[i]! - before);
    before = t[i]!;
  }
  return largest;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function sd(values: readonly number[]): number {
  const centre = mean(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (values.length - 1));
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!;
}

function nineInTen(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(0.9 * values.length)]!;
}
