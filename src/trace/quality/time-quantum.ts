/** Intervals looked at, spread evenly: enough for a share of 99 % and a bound on the work. */
const MOST = 4000;
/** Shares of the sorted intervals at which a multiple of the quantum is sought. */
const STARTS: readonly number[] = [0.02, 0.25, 0.5, 0.75];
/** Largest whole number of quanta tried in such an interval. */
const LARGEST_MULTIPLE = 2000;
const TOLERANCE = 0.02;
const SHARE = 0.99;

/**
 * The largest step of which at least 99 % of the intervals are whole multiples, each within 2 % of the step; `undefined` when there is
 * none, or when it would be finer than the rounding of time stamps as large as `latest`. `sorted` holds the intervals in increasing
 * order. The step must divide nearly every interval, so it is sought among the fractions of a few of them.
 */
export function timeQuantum(sorted: Float64Array, latest: number): number | undefined {
  const intervals = someOf(sorted);
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

/** Up to `MOST` of the positive intervals, evenly spread over the sorted ones. */
function someOf(sorted: Float64Array): Float64Array {
  let first = 0;
  while (first < sorted.length && sorted[first]! <= 0) first++;
  const n = sorted.length - first;
  if (n <= MOST) return sorted.subarray(first);
  const some = new Float64Array(MOST);
  for (let i = 0; i < MOST; i++) some[i] = sorted[first + Math.floor((i * n) / MOST)]!;
  return some;
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
