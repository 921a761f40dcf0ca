// What a downloaded recording must hold, against what the hand did and what the browser itself saw.
import { execFileSync } from "node:child_process";
import type { Page } from "playwright-core";
import { acquisitionCells } from "../../docs/live/acquisition-table.js";
import { throughput } from "../../src/fitts/index.js";
import { analyze, pointingTrials } from "../../src/movement/index.js";
import { analyzePursuit } from "../../src/pursuit/index.js";
import { formatRecording } from "../../src/trace/index.js";
import type { Recording, Session } from "../../src/trace/types.js";
import { check } from "./checks.js";
import type { Planned } from "./live-hand.js";

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
  const late = seen.reduce((most, [t], i) => Math.max(most, Math.abs(t - zero - (recorded[i]?.[0] ?? 1e9))), 0);
  check(
    `download: the ${seen.length} positions that the browser told of, each once and in its place`,
    seen.length === recorded.length && off < 1e-9,
    [recorded.length, off],
  );
  // an event that comes too late for what was given already is moved up to it; the recorder allows for 50 ms
  check(`download: at the browser's own times (largest difference ${late.toFixed(3)} ms)`, late < 50, late);
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

export function checkTapping(recording: Recording, planned: readonly Planned[], offset: number, tables: readonly string[]): void {
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
  const far = Math.max(
    ...rows.map(({ errors: { press } }, i) =>
      Math.max(Math.abs(press!.along! - errors[i]!.along), Math.abs(press!.across! - errors[i]!.across)),
    ),
  );
  // positions reach the page in single precision: 1e-4 px at 1000 px; the start of a movement is where the filtered path rests
  check(`tapping: press offsets as planned, within ${far.toFixed(3)} px`, far < 0.05, far);

  const begin = recording.presses[0]!.t;
  const ms = (values: readonly number[]): string => `${median(values).toFixed(1)} ms, 9 in 10 within ${nineInTen(values).toFixed(1)}`;
  const apart = (of: "go" | "press") =>
    rows.map(({ times }, i) => Math.abs(1000 * (times[of]! - begin) - (planned[i]![of] - planned[0]!.go)));
  const presses = apart("press");
  // from this program to the browser an event takes a millisecond or two, more where the machine is busy; the first press's own delay is in all
  check(`tapping: press times as sent (median ${ms(presses)})`, median(presses) < 10 && nineInTen(presses) < 40, presses);
  const onset = rows.map(({ times }, i) => Math.abs(1000 * ((times.onset ?? 1e6) - begin) - (planned[i]!.onset - planned[0]!.go)));
  const stop = rows.map(({ times }, i) => Math.abs(1000 * ((times.stop ?? 1e6) - begin) - (planned[i]!.stop - planned[0]!.go)));
  // the analysis itself is within 15 ms of simulated truth nine times in ten; the events' delay and the browser's grid of 4 ms come on top
  check(`tapping: onsets as planned (median ${ms(onset)})`, median(onset) < 15 && nineInTen(onset) < 40, onset);
  check(`tapping: stops as planned (median ${ms(stop)})`, median(stop) < 20 && nineInTen(stop) < 50, stop);
  check("tapping: each movement is one stroke", rows.filter(({ corrections }) => corrections.length === 0).length >= 0.9 * rows.length);
  checkThroughput(recording, rows, planned, errors, tables);
  void offset;
}

function checkThroughput(
  recording: Recording,
  rows: ReturnType<typeof analyze>,
  planned: readonly Planned[],
  errors: readonly { readonly amplitude: number; readonly along: number }[],
  tables: readonly string[],
): void {
  const cells = new Map<string, number[]>();
  rows.forEach(({ block }, i) => cells.set(block, [...(cells.get(block) ?? []), i]));
  const each = [...cells.values()].map((at) => {
    const along = at.map((i) => errors[i]!.along);
    const width = WIDTHS_PER_SD * sd(along);
    const amplitude = mean(at.map((i) => errors[i]!.amplitude + errors[i]!.along));
    return Math.log2(amplitude / width + 1) / mean(at.map((i) => (planned[i]!.press - planned[i]!.go) / 1000));
  });
  const expected = mean(each);
  const found = throughput(pointingTrials(rows).trials).throughput;
  const value = found.ok ? found.value : Number.NaN;
  // times of presses differ by a millisecond or two of about 700, endpoints by nothing
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
  const { lag, gain, explained, samples } = found!;
  const known = lag.byCorrelation.ok ? 1000 * (lag.byCorrelation.value + lag.frameLag) : Number.NaN;
  // the hand aims between the frames' places, so that the half frame which the analysis takes off is its own; the way to the browser adds a millisecond or two
  check(
    `following: lag ${known.toFixed(1)} ms, of the hand ${delay} ms (${samples.duration.toFixed(1)} s)`,
    Math.abs(known - delay) < 10,
    known,
  );
  check(`following: gain ${gain.ok ? gain.value.toFixed(3) : gain.why}, of the hand 1`, gain.ok && Math.abs(gain.value - 1) < 0.03, gain);
  check(
    `following: the target explains ${explained.ok ? (100 * explained.value).toFixed(1) : explained.why} % of the motion`,
    explained.ok && explained.value > 0.98,
    explained,
  );
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
