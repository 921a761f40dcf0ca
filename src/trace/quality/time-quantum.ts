import { createRandom } from "../../math/random.js";
import { sortPositive } from "../../math/sort-positive.js";
import { LONGEST_STEP } from "../condition/nominal-rate.js";

/** Intervals looked at, spread over the recording: enough for a share of 99 % and a bound on the work. */
const MOST = 4000;
const SEED = 1;
/** Shares of the sorted intervals at which a multiple of the quantum is sought. */
const STARTS: readonly number[] = [0.02, 0.25, 0.5, 0.75];
/** Largest whole number of quanta tried in such an interval. */
const LARGEST_MULTIPLE = 2000;
const TOLERANCE = 0.02;
const SHARE = 0.99;

/**
 * The largest step of which at least 99 % of the intervals of less than 1 s are whole multiples, each within 2 % of the step; `undefined` when
 * there is none, or when it would be finer than the rounding of time stamps as large as `latest`. The step must divide nearly every interval, so
 * it is sought among the fractions of a few of them.
 */
export function timeQuantum(dt: Float64Array, latest: number): number | undefined {
  const intervals = sortPositive(someOf(dt));
  // differences of two stamps carry the rounding of both
  const finest = (2 * Number.EPSILON * Math.abs(latest)) / TOLERANCE;
  let best: number | undefined;
  for (const share of STARTS) {
    const interval = intervals[Math.floor(share * (intervals.length - 1))];
    if (interval === undefined) continue;
    for (let k = 1; k <= LARGEST_MULTIPLE; k++) {
      const step = interval / k;
      if (step <= finest || (best !== undefined && step <= best * (1 + TOLERANCE))) break;
      if (!plausible(intervals, step)) continue;
      const exact = refined(intervals, step);
      if (divides(intervals, exact)) {
        best = exact;
        break;
      }
    }
  }
  return best;
}

/**
 * Up to `MOST` of the intervals above 0 and below 1 s, one of each stretch of the recording: at a random place, for a device that alternates
 * between intervals could keep step with even places.
 */
function someOf(dt: Float64Array): Float64Array<ArrayBuffer> {
  let n = 0;
  for (let i = 0; i < dt.length; i++) if (counts(dt[i]!)) n++;
  const some = new Float64Array(Math.min(n, MOST));
  const random = createRandom(SEED);
  const place = (k: number): number => (n <= MOST ? k : Math.floor(((k + random.uniform()) * n) / MOST));
  let next = place(0);
  for (let i = 0, seen = 0, k = 0; k < some.length; i++) {
    if (!counts(dt[i]!) || seen++ < next) continue;
    some[k++] = dt[i]!;
    next = place(k);
  }
  return some;
}

function counts(interval: number): boolean {
  return interval > 0 && interval < LONGEST_STEP;
}

/** A first look at some of the shorter intervals, which rules out nearly every wrong step at little cost. */
function plausible(intervals: Float64Array, step: number): boolean {
  const stride = Math.max(1, Math.floor(intervals.length / 64));
  let misses = 0;
  for (let i = 0; 2 * i < intervals.length; i += stride) {
    const multiples = intervals[i]! / step;
    if (Math.abs(multiples - Math.round(multiples)) > 2 * TOLERANCE && ++misses > 2) return false;
  }
  return true;
}

/** The step fitted to the shorter intervals, so that its error does not grow to a wrong multiple in the longer ones. */
function refined(intervals: Float64Array, step: number): number {
  let products = 0;
  let squares = 0;
  const n = Math.ceil(intervals.length / 2);
  for (let i = 0; i < n; i++) {
    const multiple = Math.round(intervals[i]! / step);
    if (Math.abs(intervals[i]! / step - multiple) > TOLERANCE) continue;
    products += multiple * intervals[i]!;
    squares += multiple * multiple;
  }
  return squares === 0 ? step : products / squares;
}

function divides(intervals: Float64Array, step: number): boolean {
  let misses = (1 - SHARE) * intervals.length;
  for (let i = 0; i < intervals.length; i++) {
    const multiples = intervals[i]! / step;
    if (Math.abs(multiples - Math.round(multiples)) > TOLERANCE && --misses < 0) return false;
  }
  return true;
}
