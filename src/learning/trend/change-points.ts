import { centreColumn } from "../../math/centre-column.js";
import { stepNoise } from "./step-noise.js";

/**
 * Penalty of a change per logarithm of the number of values, in variances of the noise: 2 is the information criterion's, 3 spares some
 * false steps.
 */
const VARIANCES_PER_LOG = 3;

/** Where the level of a series changes. */
export interface ChangePoints {
  /** First value of each stretch after the first, ascending. */
  readonly at: number[];
  /** Squared deviations from the mean of the own stretch, summed. */
  readonly cost: number;
}

/**
 * The division into stretches of at least `shortest` values with the least sum of squared deviations from the means of the stretches, plus
 * `penalty` (above 0, in squares of the unit) for every change; by default 3 log n variances of the noise, enlarged for autocorrelation. No
 * change where no noise can be seen either: all values equal, or fewer than four without a penalty. Exact. A start of the last stretch is
 * kept only while some level makes it the best so far: one more value adds the same square to every start, so that a start which lost all
 * levels has lost for good (functional pruning: Rigaill 2015; Maidstone, Hocking, Rigaill and Fearnhead 2017, both recalled). Few are left,
 * with changes or without: cost about O(n log n), at worst O(n^2).
 */
export function changePoints(values: Float64Array, shortest: number, penalty: number = changePenalty(values)): ChangePoints {
  const n = values.length;
  const sums = runningSums(values);
  if (sums.least === sums.most) return { at: [], cost: 0 };
  if (!(penalty > 0)) return { at: [], cost: costOf(sums, 0, n) };
  const best = new Float64Array(n + 1).fill(Number.POSITIVE_INFINITY);
  best[0] = -penalty;
  const startOf = new Int32Array(n + 1);
  let pieces: Piece[] = [{ low: sums.least - 1, high: sums.most + 1, start: 0 }];
  for (let end = shortest; end <= n; end++) {
    const start = end - shortest;
    if (start > 0 && best[start]! < Number.POSITIVE_INFINITY) pieces = addStart(pieces, start, best, sums);
    for (const piece of pieces) {
      const total = best[piece.start]! + costOf(sums, piece.start, end) + penalty;
      if (total < best[end]!) {
        best[end] = total;
        startOf[end] = piece.start;
      }
    }
  }
  const at: number[] = [];
  for (let start = startOf[n]!; start > 0; start = startOf[start]!) at.push(start);
  at.reverse();
  return { at, cost: [0, ...at].reduce((sum, start, i) => sum + costOf(sums, start, at[i] ?? n), 0) };
}

/** 3 log n times the noise's variance, enlarged for the autocorrelation of neighbours. */
function changePenalty(values: Float64Array): number {
  return VARIANCES_PER_LOG * Math.log(values.length) * stepNoise(values).longRunVariance;
}

/** Levels at which the stretch from `start` on has cost least so far. */
interface Piece {
  readonly low: number;
  readonly high: number;
  readonly start: number;
}

/** Running sums of the values less their mean, and of their squares. */
interface Sums {
  readonly values: Float64Array;
  readonly squares: Float64Array;
  readonly least: number;
  readonly most: number;
}

function runningSums(column: Float64Array): Sums {
  const n = column.length;
  const centred = new Float64Array(n);
  if (n > 0) centreColumn(column, centred);
  const values = new Float64Array(n + 1);
  const squares = new Float64Array(n + 1);
  let least = 0;
  let most = 0;
  for (let i = 0; i < n; i++) {
    const value = centred[i]!;
    values[i + 1] = values[i]! + value;
    squares[i + 1] = squares[i]! + value * value;
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  return { values, squares, least, most };
}

/** Squared deviations from the mean of the values from `start` up to `end`. */
function costOf({ values, squares }: Sums, start: number, end: number): number {
  const sum = values[end]! - values[start]!;
  return Math.max(0, squares[end]! - squares[start]! - (sum * sum) / (end - start));
}

/**
 * Cuts from every piece the levels at which the new start costs less: all but a stretch about the mean of the values between the two
 * starts.
 */
function addStart(pieces: readonly Piece[], start: number, best: Float64Array, sums: Sums): Piece[] {
  const next: Piece[] = [];
  const put = (low: number, high: number, owner: number): void => {
    const last = next[next.length - 1];
    if (last?.start === owner) next[next.length - 1] = { low: last.low, high, start: owner };
    else if (low < high) next.push({ low, high, start: owner });
  };
  for (const { low, high, start: old } of pieces) {
    const mean = (sums.values[start]! - sums.values[old]!) / (start - old);
    // the old start is ahead by this at the mean, and loses one square of the distance from it per value
    const ahead = best[start]! - best[old]! - costOf(sums, old, start);
    const half = ahead > 0 ? Math.sqrt(ahead / (start - old)) : 0;
    const from = Math.min(high, Math.max(low, mean - half));
    const to = Math.max(from, Math.min(high, mean + half));
    put(low, from, start);
    put(from, to, old);
    put(to, high, start);
  }
  return next;
}
