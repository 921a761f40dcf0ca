// Tallies of 1e5 rows beside the same figures by a general-purpose library that holds all values, merging, and growth with the number of rows.
import { analyze } from "aimed-movement/movement";
import { simulateRecording } from "aimed-movement/simulate";
import { mergeTallies, readTally, tally } from "aimed-movement/tally";
import { mean, quantile, sampleStandardDeviation } from "simple-statistics";
import type { Figure } from "../tests/validation/figure.js";
import { growthOf, timed } from "./timing.js";

const MANY = 100_000;
const PARTS = 200;
const SHARES = [0.05, 0.25, 0.5, 0.75, 0.95];
const MOST_EXPONENT = 1.2;

type Rows = ReturnType<typeof analyze>;

export async function run(): Promise<Figure[]> {
  const some = Array.from({ length: 20 }, (_, k) => analyze(simulateRecording({ seed: 700 + k, movements: 100 }).recording)).flat();
  const draw = (n: number): Rows => Array.from({ length: n }, (_, i) => some[i % some.length]!);
  const rows = draw(MANY);
  const options = { covariances: [] };
  const ours = timed(() => readTally(tally(rows, options)));
  const withCovariances = timed(() => tally(rows));
  const theirs = timed(() => figuresOf(rows));
  requireAlike(ours.value.groups[0]!.measures.latency!.mean, theirs.value);
  const parts = Array.from({ length: PARTS }, (_, k) => tally(rows.slice(500 * k, 500 * (k + 1))));
  const merged = timed(() => mergeTallies(parts));
  const printed = (name: string, value: number, source: string): Figure => ({ name, value, bar: "printed", ok: true, source });
  return [
    printed(
      "scale/rows per second into a tally of eight measures",
      MANY / ours.seconds,
      `${MANY} rows; with covariances of five measures ${Math.round(MANY / withCovariances.seconds)}`,
    ),
    printed(
      "scale/tally of eight measures and its reading, times simple-statistics' time",
      ours.seconds / theirs.seconds,
      `simple-statistics 7.12.1 mean, SD and five quantiles of the same values, all held; ${(1000 * ours.seconds).toFixed(0)} against ${(1000 * theirs.seconds).toFixed(0)} ms`,
    ),
    printed("scale/merging, ms per tally of 500 rows", (1000 * merged.seconds) / PARTS, `${PARTS} tallies, checked as they are read`),
    growthOf("scale/growth of the time of tally", [1e3, 1e4, 1e5], MOST_EXPONENT, draw, (list) => tally(list)),
  ];
}

function figuresOf(rows: Rows): number {
  const columns = [
    rows.map((row) => row.times.end - row.times.go),
    rows.map((row) => (row.outcome === "hit" ? 1 : 0)),
    rows.map((row) => row.budget.primary),
    rows.map((row) => (row.errors.primary?.radial ?? 0) / row.width),
    rows.map((row) => row.budget.correction),
    rows.map((row) => row.budget.verification),
    rows.map((row) => row.pressing?.afterStop ?? 0),
    rows.map((row) => row.budget.latency),
  ];
  return columns.map((column) => {
    sampleStandardDeviation(column);
    quantile(column, SHARES);
    return mean(column);
  })[7]!;
}

function requireAlike(estimate: { readonly ok: boolean; readonly value?: number }, latency: number): void {
  if (!estimate.ok || Math.abs(estimate.value! / latency - 1) > 1e-9)
    throw new Error(`the two sides differ: ${estimate.value} and ${latency}`);
}
