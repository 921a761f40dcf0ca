import type { Estimate } from "../math/estimate.js";
import { type CoverageTable, withCoverage } from "../math/interval-coverage.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { requireLevel } from "../math/require.js";
import { describeCell } from "./cells/describe-cell.js";
import { groupTrials, type TrialCell } from "./cells/group-trials.js";
import { type Jackknifed, jackknifeCell } from "./cells/jackknife-cell.js";
import { requireTrials } from "./cells/require-trials.js";
import { throughputInterval } from "./cells/throughput-interval.js";
import type { PointingCell, PointingTrials } from "./types.js";

/** Options of `throughput`. */
export interface ThroughputOptions {
  /** Confidence level of the interval, above 0 and below 1, default 0.95. Higher makes it wider. */
  readonly level?: number;
}

/** Throughput with all that it was made from; `reviewThroughput` says what to beware of. */
export interface Throughput {
  /** Mean over people of their means over cells, bit/s; n counts people. The interval is freed of small-sample bias, so that with few trials per cell it lies lower than the value; with fewer than six in a cell there is none. */
  readonly throughput: Estimate;
  /** What varies in the interval: people, when there are two or more (for people like them), else the one person's trials (for that person). */
  readonly intervalFrom: "people" | "trials";
  /** How much of the value is due to few trials per cell, bit/s, by the jackknife; `null` where it cannot be told. */
  readonly smallSampleBias: number | null;
  /** Each person's mean over cells, bit/s, in the order of first trials; `null` without a cell that has a throughput. */
  readonly people: readonly { readonly person: string; readonly throughput: number | null }[];
  /** One cell per person, amplitude and width: what `fitMovementTime` takes. */
  readonly cells: readonly PointingCell[];
}

/** By trials in the smallest of 16 cells, and by people of 15 trials in each of 4 cells; endpoints of the three shapes, 4000 and 1700 simulated sets. */
const FROM_TRIALS: CoverageTable = [
  [10, 0.97, 0.93, 0.78],
  [20, 0.96, 0.93, 0.76],
  [50, 0.96, 0.94, 0.76],
];
const FROM_PEOPLE: CoverageTable = [
  [10, 0.95, 0.93, 0.88],
  [20, 0.95, 0.95, 0.82],
  [50, 0.96, 0.95, 0.62],
];

/**
 * Speed and accuracy of pointing in one number, as the standard for pointing devices computes it.
 *
 * Per person and condition: We = 4.133 SD of the signed deviations, Ae = mean distance covered, IDe = log2(Ae/We + 1), TP = IDe / mean movement time;
 * then the mean over each person's conditions, and the mean over people. Higher is better. Hits and misses count alike and nothing is
 * left out (see `excludeTrials`). Times with the response latency in them and times without give different numbers: say which. Cost O(n).
 *
 * @param trials - columns, see `PointingTrials`; amplitude and width are the condition's nominal ones, the same for all its trials
 * @param options - see `ThroughputOptions`
 * @returns the throughput with its parts; not ok without a cell of two trials (`tooFew`) that differ (`noSpread`)
 * @throws TypeError if a column is of another kind; RangeError if columns differ in length, an entry or an option is out of range
 * @see ISO 9241-411; Soukoreff and MacKenzie 2004 (both recalled); interval: Tukey's jackknife within a person, Student between people
 * @example
 * ```ts
 * const trials = {
 *   amplitude: Float64Array.of(300, 300, 300, 300, 600, 600, 600, 600),
 *   width: Float64Array.of(40, 40, 40, 40, 40, 40, 40, 40),
 *   movementTime: Float64Array.of(0.61, 0.6, 0.66, 0.59, 0.78, 0.81, 0.74, 0.8),
 *   along: Float64Array.of(4, -9, 12, -2, 10, -7, 3, -15),
 * };
 * throughput(trials).throughput; // => { ok: true, value: 5.042, unit: "bit/s", n: 1, … }
 * ```
 */
export function throughput(trials: PointingTrials, options: ThroughputOptions = {}): Throughput {
  const { level = 0.95 } = options;
  requireTrials("throughput", trials);
  requireLevel("throughput", level);
  const people = groupByPerson(groupTrials(trials));
  const cells = people.flatMap((person) => person.cells);
  const able = people.filter((person) => person.throughput !== null);
  const value = meanOf(able.map((person) => person.throughput!));
  const freed = throughputInterval(
    able.map((person) => person.jackknifed),
    level,
  );
  const n = able.length;
  const between = n > 1;
  const base = { unit: "bit/s", n };
  const estimate: Estimate =
    value === null
      ? { ok: false, why: cells.every((cell) => cell.n < 2) ? "tooFew" : "noSpread", ...base }
      : { ok: true, value, ...base, ...(freed && { interval: freed.interval, level }) };
  return {
    throughput: withCoverage(
      estimate,
      between ? FROM_PEOPLE : FROM_TRIALS,
      between ? n : cells.reduce((least, cell) => Math.min(least, cell.n), Number.POSITIVE_INFINITY),
    ),
    intervalFrom: between ? "people" : "trials",
    smallSampleBias: freed ? value! - freed.value : null,
    people: people.map((person) => ({ person: person.person, throughput: person.throughput })),
    cells,
  };
}

interface PersonCells {
  readonly person: string;
  readonly cells: readonly PointingCell[];
  /** Mean over the cells that have a throughput. */
  readonly throughput: number | null;
  readonly jackknifed: readonly (Jackknifed | undefined)[];
}

function groupByPerson(cells: readonly TrialCell[]): PersonCells[] {
  const byPerson = new Map<string, TrialCell[]>();
  for (const cell of cells) {
    const own = byPerson.get(cell.person) ?? [];
    own.push(cell);
    byPerson.set(cell.person, own);
  }
  return [...byPerson].map(([person, trials]) => {
    const own = trials.map(describeCell);
    return {
      person,
      cells: own,
      throughput: meanOf(own.flatMap((cell) => cell.throughput ?? [])),
      jackknifed: trials.filter((_, i) => own[i]!.throughput !== null).map(jackknifeCell),
    };
  });
}

function meanOf(values: readonly number[]): number | null {
  return values.length > 0 ? meanAndSd(values).mean : null;
}
