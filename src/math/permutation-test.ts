import { meanAndSd } from "./mean-and-sd.js";
import { createRandom } from "./random.js";

/** Arrangements whose statistic differs from the observed one by rounding alone count as equal to it. */
const SAME = 1e-9;

/**
 * Two-sided p-value for a difference of two means by random exchange of the values between the two lists (each with at least two values): the
 * share of the arrangements, the observed one among them, whose Welch t is at least as far from 0. With the difference studentised the test
 * stays right when the lists differ in length and their values in spread (Janssen 1997, recalled).
 * `undefined` when all values are equal. Cost O(n + permutations * the shorter length).
 */
export function permutationTest(one: Float64Array, other: Float64Array, permutations: number, seed: number): number | undefined {
  const shorter = one.length <= other.length ? one : other;
  const longer = shorter === one ? other : one;
  const values = new Float64Array(shorter.length + longer.length);
  values.set(shorter);
  values.set(longer, shorter.length);
  const { mean, sd } = meanAndSd(values);
  if (sd === 0) return undefined;
  // about the common mean and in common SDs, so that sums of squares lose no digits
  let squares = 0;
  for (let i = 0; i < values.length; i++) {
    values[i] = (values[i]! - mean) / sd;
    squares += values[i]! * values[i]!;
  }
  const k = shorter.length;
  const observed = welchSquare(values, k, squares);
  const random = createRandom(seed);
  let extreme = 1;
  for (let round = 0; round < permutations; round++) {
    // the first k steps of a shuffle draw k of the values without replacement, whatever their order was
    for (let i = 0; i < k; i++) {
      const j = i + Math.floor(random.uniform() * (values.length - i));
      const kept = values[i]!;
      values[i] = values[j]!;
      values[j] = kept;
    }
    if (welchSquare(values, k, squares) >= observed * (1 - SAME)) extreme++;
  }
  return extreme / (permutations + 1);
}

/** Square of Welch's t between the first `k` values and the rest; the whole has sum 0 and sum of squares `squares`. */
function welchSquare(values: Float64Array, k: number, squares: number): number {
  const rest = values.length - k;
  let sum = 0;
  let own = 0;
  for (let i = 0; i < k; i++) {
    sum += values[i]!;
    own += values[i]! * values[i]!;
  }
  const variance = (own - (sum * sum) / k) / (k - 1) / k + (squares - own - (sum * sum) / rest) / (rest - 1) / rest;
  const difference = sum / k + sum / rest;
  // no spread within either part: nothing can be farther apart
  return variance > 0 ? (difference * difference) / variance : Number.POSITIVE_INFINITY;
}
