// Tallies that merge: does the whole come out the same from any parts, how exact is it, how near are quantiles, and what do intervals over rows of several people hold?
import { all, create } from "mathjs";
import { quantile } from "../../src/math/quantile.js";
import { binnedQuantile, createBinning } from "../../src/math/quantile-bins.js";
import { createRandom, type Random } from "../../src/math/random.js";
import { analyze } from "../../src/movement/analyze.js";
import { segmentMovements } from "../../src/movement/segment-movements.js";
import type { Acquisition } from "../../src/movement/types.js";
import { simulateRecording } from "../../src/simulate/simulate-recording.js";
import { createReader, MEASURE_NAMES } from "../../src/tally/measures/measures.js";
import { mergeTallies } from "../../src/tally/merge-tallies.js";
import { readTally } from "../../src/tally/read-tally.js";
import { tally } from "../../src/tally/tally.js";
import type { MeasureReading, TallyOptions } from "../../src/tally/types.js";
import { choiceReachPeople, convertChoiceReach } from "../data/convert-choice-reach.js";
import { convertOfficeRemote, officeRemoteNames } from "../data/convert-office-remote.js";
import { agreeingDigits } from "../math/nist-problems.js";
import { rowOf } from "../movement/rows.js";
import { readReference } from "../shared.js";
import { asBinary, rowWith } from "../tally/values.js";
import type { Figure, Outcome } from "./figure.js";

/** Published figures; development used seeds below 1e6. */
const SEED = 47_000_000;
const SIMULATED = "simulated recordings, all rows at once";
const SHARES = [0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99];
const PRESS: TallyOptions = { measures: ["pressAfterStop"], covariances: [] };
const big = create(all, { number: "BigNumber", precision: 100 });

export async function figures(quick: boolean): Promise<readonly Outcome[]> {
  const random = createRandom(SEED, 0);
  const recordings = Array.from({ length: quick ? 10 : 100 }, (_, k) => simulateRecording({ seed: SEED + k, movements: 100 }).recording);
  const rows = recordings.flatMap((recording) => analyze(recording));
  return [
    orders(rows, random, quick ? 20 : 200),
    ...moments(rows, random),
    nistDigits(),
    quantiles("simulated rows", rows, SIMULATED),
    ...realQuantiles(),
    ...room(rows),
    ...intervals(random, quick ? 200 : 2000),
  ];
}

/** Rows shared out at random among up to 40 workers, merged in any order and in two stages. */
function orders(rows: readonly Acquisition[], random: Random, runs: number): Figure {
  const options: TallyOptions = { by: { block: (row) => row.block } };
  const seen = new Set([JSON.stringify(tally(rows, options))]);
  for (let run = 0; run < runs; run++) {
    const parts = shareOut(rows, 1 + Math.floor(40 * random.uniform()), random).map((part) => tally(part, options));
    const cut = Math.floor(parts.length * random.uniform());
    const halves = [parts.slice(cut), parts.slice(0, cut)].filter(({ length }) => length > 0);
    seen.add(JSON.stringify(mergeTallies(halves.map((half) => mergeTallies(half)))));
  }
  const source = `${rows.length} rows, ${runs} ways to share them out among 1 to 40 workers, beside the tally of all rows at once`;
  return {
    name: "scale/merge order: different tallies of the same rows, as bytes",
    value: seen.size,
    bar: "= 1",
    ok: seen.size === 1,
    source,
  };
}

/** Mean and SD of merged parts against 100 digits, also of clock times, and what pairwise updates of mean and squares would give. */
function moments(rows: readonly Acquisition[], random: Random): Figure[] {
  const sets: readonly [string, readonly number[]][] = [
    ["latencies", rows.map(({ budget }) => budget.latency)],
    ["clock times", rows.map(({ times }) => 1.7e9 + times.go)],
    ["endpoint errors", rows.flatMap(({ errors }) => errors.press?.along ?? [])],
  ];
  return sets.flatMap(([name, values]) => {
    const parts = shareOut(values, 100, random).filter(({ length }) => length > 0);
    const exact = values.map((value) => {
      const { whole, exponent } = asBinary(value);
      return big.multiply(big.bignumber(whole), big.pow(big.bignumber(2), exponent));
    });
    const mean = Number(big.mean(exact as never));
    const sd = Number(big.sqrt(big.variance(exact as never) as never));
    const reading = pressOf(
      parts.map((part) =>
        tally(
          part.map((value) => rowWith(value)),
          PRESS,
        ),
      ),
    );
    const ours = Math.max(apart(reading.mean, mean), apart(reading.sd, sd));
    const pairwise = parts.map(updated).reduce(combined);
    const theirs = Math.max(Math.abs(pairwise.mean / mean - 1), Math.abs(Math.sqrt(pairwise.squares / (pairwise.n - 1)) / sd - 1));
    const source = `mathjs 15.2.0 with 100 digits on ${values.length} values; 100 parts`;
    return [
      { name: `scale/merge-moments of ${name}, relative error`, value: ours, bar: "<= 1e-12", ok: ours <= 1e-12, source },
      { name: `scale/merge-moments of ${name}, the same by pairwise updates`, value: theirs, bar: "printed", ok: true, source },
    ];
  });
}

function nistDigits(): Outcome {
  const name = "scale/merge-moments of certified data, fewest digits of mean and SD from 17 parts";
  const cases = readReference("learning/nist-univariate.json")?.cases;
  if (cases === undefined) return { name, skipped: "the reference tables" };
  const digits = cases.map(({ name: set, input, expected }) => {
    const values = Array.from<string | number, number>(input.values ?? [...input.digits], Number);
    const parts = Array.from({ length: 17 }, (_, part) => values.filter((_, i) => i % 17 === part));
    const { mean, sd } = pressOf(
      parts.map((part) =>
        tally(
          part.map((value) => rowWith(value)),
          PRESS,
        ),
      ),
    );
    if (!mean.ok || !sd.ok) throw new Error(`${set} has a mean and an SD`);
    return { set, digits: agreeingDigits([mean.value, sd.value], [expected.mean, expected.sd]) };
  });
  const worst = digits.reduce((least, one) => (one.digits < least.digits ? one : least));
  // a double does not hold the values of NumAcc4 to more
  const source = `NIST StRD univariate, ${cases.length} data sets, worst ${worst.set}`;
  return { name, value: worst.digits, bar: ">= 8 digits", ok: worst.digits >= 8, source };
}

function realQuantiles(): Outcome[] {
  const people = choiceReachPeople();
  const office = officeRemoteNames();
  const reach = "choice-reach recordings (Kieslich and Henninger 2017)";
  const remote = "office-remote recordings (Fulop et al. 2016): durations, paths, distances to the right and peak speeds of movements";
  return [
    people.length === 0
      ? { name: "scale/quantiles of choice-reach", skipped: reach }
      : quantiles(
          "choice-reach",
          people.flatMap((person) => analyze(convertChoiceReach(person))),
          reach,
        ),
    office.length === 0 ? { name: "scale/quantiles of office-remote", skipped: remote } : officeQuantiles(office, remote),
  ];
}

/** Largest error of any quantile of any measure. */
function quantiles(name: string, rows: readonly Acquisition[], source: string): Figure {
  const whole = tally(rows, { measures: MEASURE_NAMES, covariances: [] });
  const { measures } = readTally(whole, { quantiles: SHARES }).groups[0]!;
  const read = createReader(MEASURE_NAMES);
  const values = rows.map(read);
  const errors = MEASURE_NAMES.flatMap((measure, i) => {
    const sorted = Float64Array.from(values.flatMap((row) => row[i] ?? [])).sort();
    return measures[measure]!.quantiles.flatMap(({ p, estimate }) => (estimate.ok ? [sketchError(estimate.value, sorted, p)] : []));
  });
  return quantileFigure(name, errors, source);
}

/** Recordings without targets hold no acquisitions: the sketch alone, on what their movements are like. */
function officeQuantiles(names: readonly string[], source: string): Figure {
  const movements = names.flatMap((name) => segmentMovements(convertOfficeRemote(name).trace).movements);
  const columns = [
    movements.map(({ onset, end }) => end - onset),
    movements.map(({ pathLength }) => pathLength),
    movements.map(({ from, to }) => to.x - from.x),
    movements.map(({ peakSpeed }) => peakSpeed),
  ];
  const errors = columns.flatMap((column) => {
    const sorted = Float64Array.from(column).sort();
    const binOf = createBinning();
    const counts = new Map<number, number>();
    for (const value of column) counts.set(binOf(value), (counts.get(binOf(value)) ?? 0) + 1);
    const bins = [...counts].sort(([a], [b]) => a - b);
    return SHARES.map((p) => sketchError(binnedQuantile(bins, [sorted[0]!, sorted.at(-1)!], p).value, sorted, p));
  });
  return quantileFigure("office-remote", errors, `${source}, n ${movements.length}`);
}

/** Percent of the larger neighbour in size, which is what the sketch vouches for; errors about 0 within its smallest size are none. */
function sketchError(value: number, sorted: Float64Array, p: number): number {
  const at = (sorted.length - 1) * p;
  const size = Math.max(Math.abs(sorted[Math.floor(at)]!), Math.abs(sorted[Math.ceil(at)]!));
  const error = Math.abs(value - quantile(sorted, p));
  return error <= 2 ** -30 ? 0 : (100 * error) / size;
}

function quantileFigure(name: string, errors: readonly number[], source: string): Figure {
  const value = Math.max(...errors);
  // 1/128, the width of a bin
  return {
    name: `scale/quantiles of ${name}, largest error`,
    value,
    bar: "<= 0.79 %",
    ok: value <= 0.79,
    source: `${source}; ${errors.length} quantiles`,
  };
}

/** Bytes of a tally as JSON, measures and covariances as they come. */
function room(rows: readonly Acquisition[]): Figure[] {
  const bytes = (n: number): number => JSON.stringify(tally(rows.slice(0, n))).length;
  return [100, 1000, 10_000].flatMap((n) =>
    n > rows.length ? [] : [{ name: `scale/bytes of a tally of ${n} rows`, value: bytes(n), bar: "printed", ok: true, source: SIMULATED }],
  );
}

/** Twelve people whose levels differ by 20 ms (SD), 50 latencies each that differ by 40 ms: how often intervals named 95 % hold the mean of all people. */
function intervals(random: Random, runs: number): Figure[] {
  let rowsHold = 0;
  let peopleHold = 0;
  for (let run = 0; run < runs; run++) {
    const parts = Array.from({ length: 12 }, (_, person) => {
      const level = random.normal(0.25, 0.02);
      const rows = Array.from({ length: 50 }, () => rowOf(1, { latency: random.normal(level, 0.04), primary: 0.3 }));
      return tally(rows, { measures: ["latency"], covariances: [], by: { person: `${person}` } });
    });
    const whole = mergeTallies(parts);
    const latency = (across: string): MeasureReading => readTally(whole, { across, by: [], quantiles: [] }).groups[0]!.measures.latency!;
    rowsHold += Number(holds(latency("row").mean));
    peopleHold += Number(holds(latency("person").acrossUnits!.mean));
  }
  const source = `${runs} sets of 12 simulated people, 50 rows each, levels 20 ms and rows 40 ms apart (SD)`;
  const [rows, people] = [rowsHold, peopleHold].map((count) => (100 * count) / runs) as [number, number];
  const band = 257.6 * Math.sqrt((0.95 * 0.05) / runs);
  const ok = Math.abs(people - 95) <= band;
  return [
    { name: "scale/intervals over pooled rows hold", value: rows, bar: "printed, %", ok: true, source },
    { name: "scale/intervals over people hold", value: people, bar: `95 +- ${band.toFixed(1)} %`, ok, source },
  ];
}

function holds(estimate: MeasureReading["mean"]): boolean {
  return estimate.ok && estimate.interval![0] <= 0.25 && 0.25 <= estimate.interval![1];
}

function shareOut<T>(list: readonly T[], parts: number, random: Random): T[][] {
  const shares = Array.from({ length: parts }, (): T[] => []);
  for (const entry of list) shares[Math.floor(parts * random.uniform())]!.push(entry);
  return shares;
}

function pressOf(parts: Parameters<typeof mergeTallies>[0]): MeasureReading {
  return readTally(mergeTallies(parts)).groups[0]!.measures.pressAfterStop!;
}

function apart(estimate: MeasureReading["mean"], truth: number): number {
  if (!estimate.ok) throw new Error(`no value: ${estimate.why}`);
  return Math.abs(estimate.value / truth - 1);
}

interface Moments {
  readonly n: number;
  readonly mean: number;
  readonly squares: number;
}

/** Welford 1962, recalled. */
function updated(values: readonly number[]): Moments {
  let mean = 0;
  let squares = 0;
  values.forEach((value, i) => {
    const step = value - mean;
    mean += step / (i + 1);
    squares += step * (value - mean);
  });
  return { n: values.length, mean, squares };
}

/** Chan, Golub and LeVeque 1979, recalled. */
function combined(a: Moments, b: Moments): Moments {
  const n = a.n + b.n;
  const step = b.mean - a.mean;
  return { n, mean: a.mean + (step * b.n) / n, squares: a.squares + b.squares + (step * step * a.n * b.n) / n };
}
