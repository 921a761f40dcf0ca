// Rows with everything in them, and their summary: growth with the number of acquisitions.
import { analyze, summarize } from "aimed-movement/movement";
import { simulateRecording } from "aimed-movement/simulate";
import type { Figure } from "../tests/validation/figure.js";
import { growthOf, timed } from "./timing.js";

const recording = (movements: number) => simulateRecording({ seed: 78, movements }).recording;

export async function run(): Promise<Figure[]> {
  const sample = recording(1000);
  const { seconds, value } = timed(() => analyze(sample));
  const summary = timed(() => summarize(value));
  const source = "1000 simulated acquisitions at 250 Hz, median of 7";
  return [
    { name: "corrections/row with all its parts, us", value: 1000 * seconds, bar: "printed", ok: true, source },
    {
      name: "corrections/summary over analysis of the same rows, share of the time",
      value: summary.seconds / seconds,
      bar: "printed",
      ok: true,
      source,
    },
    growthOf("stopping/growth of analyze with the acquisitions", [30, 300, 3000], 1.1, recording, analyze),
    growthOf("stopping/growth of summarize with the rows", [100, 1000, 10000], 1.2, (n) => repeated(value, n), summarize),
  ];
}

/** As many rows as asked for, one after another in time. */
function repeated<T extends { readonly times: { readonly go: number; readonly end: number } }>(rows: readonly T[], n: number): T[] {
  const length = rows.at(-1)!.times.end + 1;
  return Array.from({ length: n }, (_, i) => {
    const row = rows[i % rows.length]!;
    const by = length * Math.floor(i / rows.length);
    return { ...row, times: { ...row.times, go: row.times.go + by, end: row.times.end + by } };
  });
}
