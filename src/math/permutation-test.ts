import { exchangeTest } from "./rearrangement-tests.js";

/** Below this the variance of standardised values is rounding. */
const FLAT = 1e-13;

/**
 * Two-sided p-value for a difference of two means by random exchange of the values between the two lists (each with at least two values): the
 * share of the arrangements, the observed one among them, whose Welch t is at least as far from 0. With the difference studentised the test
 * stays right when the lists differ in length and their values in spread (Janssen 1997, recalled).
 * `undefined` when all values are equal. Cost O(n + permutations * the shorter length).
 */
export function permutationTest(one: Float64Array, other: Float64Array, permutations: number, seed: number): number | undefined {
  return exchangeTest(one, other, welchSquare, { most: 0, draws: permutations, seed })?.p;
}

/** Square of Welch's t between the first `k` values and the rest, each at least two; together they have mean 0 and standard deviation 1. */
export function welchSquare(values: Float64Array, k: number): number {
  const rest = values.length - k;
  const squares = values.length - 1;
  let sum = 0;
  let own = 0;
  for (let i = 0; i < k; i++) {
    sum += values[i]!;
    own += values[i]! * values[i]!;
  }
  const variance = (own - (sum * sum) / k) / (k - 1) / k + (squares - own - (sum * sum) / rest) / (rest - 1) / rest;
  const difference = sum / k + sum / rest;
  // no spread within either part: nothing can be farther apart
  return variance > FLAT ? (difference * difference) / variance : Number.POSITIVE_INFINITY;
}
