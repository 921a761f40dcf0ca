import { normalCdf } from "../../math/normal.js";
import { INTERCEPT_RANGE, LEAST_RANGE, LEAST_TRIALS, rangeOf } from "../design-limits.js";
import type { ExcludedTrials } from "../exclude-trials.js";
import { indexOfDifficulty } from "../index-of-difficulty.js";
import type { PointingCell } from "../types.js";
import type { TradeOff } from "./trade-off.js";

/** What a reader of a throughput must know before using it. */
export type ThroughputWarning =
  /** A cell has fewer than 10 trials: its spread comes out too small and its throughput too high. */
  | "fewTrials"
  /** Someone has fewer than 4 cells. */
  | "fewCells"
  /** The nominal indices of difficulty span less than 2 bit. */
  | "narrowRange"
  /** A cell has no spread, a single trial, or movements away from the target: it has no throughput and is left out of the means. */
  | "cellsLeftOut"
  /** Throughput below 1 or above 9 bit/s: look for mixed units, or times without the movement in them. */
  | "implausible"
  /** The intercept of MT on effective difficulty lies outside -0.2..0.4 s: the times hold something besides the movement, or lack some of it. */
  | "intercept"
  /** Fewer than 80 % of the trials hit: spread from so many misses is not that of the task. */
  | "lowHitShare"
  /** Nobody missed where scatter of this size would have missed five times or more: were the misses left out? */
  | "hitsOnly"
  /** No deviation is negative: distances without a sign make the spread too small by a factor of 0.603. */
  | "unsigned"
  /** There are trials faster than 0.1 s. */
  | "doublePresses"
  /** There are trials that another rule of `excludeTrials` tells. */
  | "outliers"
  /** People differ by more than a factor of 2 in effective over nominal width: they kept different paces, and a mean over them hides it. */
  | "differentStrategies"
  /** Throughput would move by more than 5 % if the spread changed by a factor of 1.5 along the fitted line: compare only at a like pace. */
  | "dependsOnPace";

/** Throughput beyond which it is doubted, bit/s (common practice, from memory). */
const THROUGHPUT_RANGE = [1, 9] as const;

/** What the warnings are made from. */
export interface Evidence {
  /** The cells of each person. */
  readonly people: readonly (readonly PointingCell[])[];
  readonly throughput: number | null;
  readonly tradeOff: TradeOff | null;
  /** What every exclusion rule tells of the trials. */
  readonly excluded: ExcludedTrials["excluded"];
  /** Whether no deviation is negative. */
  readonly unsigned: boolean;
}

export function throughputWarnings({ people, throughput, tradeOff: line, excluded, unsigned }: Evidence): ThroughputWarning[] {
  const cells = people.flat();
  if (cells.length === 0) return [];
  const trials = cells.reduce((sum, cell) => sum + cell.n, 0);
  const hits = Math.round(cells.reduce((sum, cell) => sum + cell.hitShare * cell.n, 0));
  const outside = (value: number, [low, high]: readonly [number, number]): boolean => value < low || value > high;
  const raised: readonly (readonly [ThroughputWarning, boolean])[] = [
    ["fewTrials", cells.some((cell) => cell.n < LEAST_TRIALS)],
    ["fewCells", people.some((own) => own.length < 4)],
    ["narrowRange", difficultyRange(cells) < LEAST_RANGE],
    ["cellsLeftOut", cells.some((cell) => cell.throughput === null)],
    ["implausible", throughput !== null && outside(throughput, THROUGHPUT_RANGE)],
    ["intercept", line !== null && outside(line.intercept, INTERCEPT_RANGE)],
    ["lowHitShare", hits < 0.8 * trials],
    ["hitsOnly", hits === trials && expectedMisses(cells) >= 5],
    ["unsigned", unsigned && trials >= 10],
    ["doublePresses", excluded.doublePress.length > 0],
    ["outliers", excluded.travelledTooLittle.length + excluded.travelledTooFar.length + excluded.beyondThreeSd.length > 0],
    ["differentStrategies", strategySpan(people) > 2],
    ["dependsOnPace", line !== null && (Math.abs(line.narrower - 1) > 0.05 || Math.abs(line.wider - 1) > 0.05)],
  ];
  return raised.flatMap(([word, holds]) => (holds ? [word] : []));
}

function difficultyRange(cells: readonly PointingCell[]): number {
  return rangeOf(cells.map((cell) => indexOfDifficulty(cell.amplitude, cell.width)));
}

/** Misses that normal scatter of each cell's bias and spread would make along the axis. */
function expectedMisses(cells: readonly PointingCell[]): number {
  return cells.reduce((sum, { n, width, bias, sd }) => {
    if (sd === null || sd === 0) return sum;
    return sum + n * (normalCdf((-width / 2 - bias) / sd) + normalCdf((bias - width / 2) / sd));
  }, 0);
}

/** Largest over smallest of the people's mean ratios of effective to nominal width. */
function strategySpan(people: readonly (readonly PointingCell[])[]): number {
  const ratios = people.flatMap((own) => {
    const logs = own.flatMap((cell) => (cell.effectiveWidth === null ? [] : [Math.log(cell.effectiveWidth / cell.width)]));
    return logs.length === 0 ? [] : [logs.reduce((sum, log) => sum + log, 0) / logs.length];
  });
  return Math.exp(rangeOf(ratios));
}
