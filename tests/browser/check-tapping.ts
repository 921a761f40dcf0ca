// A recording of tapping against the movements that the hand had planned.
import { analyze } from "../../src/movement/index.js";
import type { Recording } from "../../src/trace/types.js";
import { checkThroughput } from "./check-throughput.js";
import { check } from "./checks.js";
import type { Planned } from "./live-hand.js";
import { median, nineInTen } from "./statistics.js";

/** Seconds before a press in which the hand rests by plan, less a little. */
const VERIFICATION = 0.085;

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
