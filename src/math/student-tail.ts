import { fTail } from "./f-distribution.js";

/** Probability that a Student variable with `df` degrees of freedom lies farther from 0 than `t` on either side: the two-sided p-value of a t test. */
export function studentTail(t: number, df: number): number {
  // the square of a Student variable is an F variable with 1 and df degrees of freedom
  return fTail(t * t, 1, df);
}
