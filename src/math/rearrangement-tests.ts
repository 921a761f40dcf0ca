// Tests by rearranging the data: every arrangement where there are few, seeded random ones where there are many.
import { meanAndSd } from "./mean-and-sd.js";
import { createRandom } from "./random.js";

/** Arrangements whose distance differs from the observed one by rounding alone count as equal to it. */
const SAME = 1e-9;

/** How far an arrangement is from no difference, from 0 up: its first `k` values against the rest. It must not change the values. */
export type Distance = (values: Float64Array, k: number) => number;

/** What to do when: up to `most` arrangements all are gone through, beyond that `draws` random ones with this seed. */
export interface Rearranging {
  readonly most: number;
  readonly draws: number;
  readonly seed: number;
}

/** Outcome of a test by rearrangement. */
export interface Rearranged {
  /** Share of the arrangements, the observed one among them, that are at least as far from no difference: two-sided. */
  readonly p: number;
  /** Whether every arrangement was counted. */
  readonly exact: boolean;
  /** Arrangements there are; Infinity when they are too many to count. */
  readonly arrangements: number;
  /** The smallest value that `p` can take. */
  readonly smallestP: number;
}

/**
 * Exchanges the values between two lists. They are given to `distance` about their common mean and in common standard deviations, so that sums of squares
 * lose no digits. `undefined` when all are equal. Cost O(arrangements * n), or O(draws * (shorter length + cost of `distance`)).
 */
export function exchangeTest(one: Float64Array, other: Float64Array, distance: Distance, how: Rearranging): Rearranged | undefined {
  const shorter = one.length <= other.length ? one : other;
  const longer = shorter === one ? other : one;
  const k = shorter.length;
  const values = new Float64Array(k + longer.length);
  values.set(shorter);
  values.set(longer, k);
  const { mean, sd } = meanAndSd(values);
  if (sd === 0) return undefined;
  for (let i = 0; i < values.length; i++) values[i] = (values[i]! - mean) / sd;
  const arrangements = choices(values.length, k);
  const observed = distance(values, k) * (1 - SAME);
  if (arrangements <= how.most) {
    const extreme = countChoices(values, k, (arranged) => distance(arranged, k) >= observed);
    // of two equally long lists, each division comes twice
    return { p: extreme / arrangements, exact: true, arrangements, smallestP: (k === longer.length ? 2 : 1) / arrangements };
  }
  const random = createRandom(how.seed);
  let extreme = 1;
  for (let round = 0; round < how.draws; round++) {
    // the first k steps of a shuffle draw k of the values without replacement, whatever their order was
    for (let i = 0; i < k; i++) swap(values, i, i + Math.floor(random.uniform() * (values.length - i)));
    if (distance(values, k) >= observed) extreme++;
  }
  return { p: extreme / (how.draws + 1), exact: false, arrangements, smallestP: 1 / (how.draws + 1) };
}

/**
 * Turns the signs of paired differences. `distance` gets all of them, with k their number. `undefined` when all are 0. Cost O(arrangements * n) or
 * O(draws * n).
 */
export function signFlipTest(differences: Float64Array, distance: Distance, how: Rearranging): Rearranged | undefined {
  const n = differences.length;
  const largest = differences.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  if (largest === 0) return undefined;
  const values = differences.map((value) => value / largest);
  const arrangements = 2 ** n;
  const observed = distance(values, n) * (1 - SAME);
  if (arrangements <= how.most) {
    // the mirror image of an arrangement is as far away: the sign of the last one stays
    let extreme = 0;
    for (let code = 0; code < arrangements / 2; code++) {
      if (distance(values, n) >= observed) extreme += 2;
      // the next arrangement by turning one sign: the place of the lowest 1 of a counter (Gray code)
      const turned = 31 - Math.clz32((code + 1) & -(code + 1));
      if (turned < n) values[turned] = -values[turned]!;
    }
    return { p: extreme / arrangements, exact: true, arrangements, smallestP: 2 / arrangements };
  }
  const random = createRandom(how.seed);
  let extreme = 1;
  for (let round = 0; round < how.draws; round++) {
    for (let i = 0; i < n; i++) if (random.uniform() < 0.5) values[i] = -values[i]!;
    if (distance(values, n) >= observed) extreme++;
  }
  return { p: extreme / (how.draws + 1), exact: false, arrangements, smallestP: 1 / (how.draws + 1) };
}

/** Ways to choose `k` of `n`, exact up to 2^53; Infinity beyond the largest double. */
function choices(n: number, k: number): number {
  let count = 1;
  for (let i = 1; i <= k && count < Number.POSITIVE_INFINITY; i++) count = (count * (n - k + i)) / i;
  return count < 2 ** 52 ? Math.round(count) : count;
}

/** How many of all choices of `k` values, laid before the others, pass. */
function countChoices(values: Float64Array, k: number, passes: (arranged: Float64Array) => boolean): number {
  const n = values.length;
  const arranged = new Float64Array(n);
  const chosen = Array.from({ length: k }, (_, i) => i);
  let count = 0;
  for (;;) {
    let next = 0;
    let rest = k;
    for (let i = 0; i < n; i++) {
      if (next < k && chosen[next] === i) arranged[next++] = values[i]!;
      else arranged[rest++] = values[i]!;
    }
    if (passes(arranged)) count++;
    // the last of the chosen that can move on does, and those after it follow it closely
    let last = k - 1;
    while (last >= 0 && chosen[last] === n - k + last) last--;
    if (last < 0) return count;
    chosen[last]!++;
    for (let i = last + 1; i < k; i++) chosen[i] = chosen[i - 1]! + 1;
  }
}

function swap(values: Float64Array, i: number, j: number): void {
  const kept = values[i]!;
  values[i] = values[j]!;
  values[j] = kept;
}
