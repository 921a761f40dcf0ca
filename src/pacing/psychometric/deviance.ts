import { type BinomialProblem, type Curve, logLikelihood } from "./maximize.js";

/** Twice how far the likelihood of a curve lies below that of the shares as they are: 2 sum k ln(k/(n p)) + (n - k) ln((n - k)/(n (1 - p))). */
export function devianceOf(problem: BinomialProblem, curve: Curve): number {
  const { trials, hits } = problem.counts;
  let whole = 0;
  for (let i = 0; i < trials.length; i++) {
    const [n, k] = [trials[i]!, hits[i]!];
    if (k > 0) whole += k * Math.log(k / n);
    if (k < n) whole += (n - k) * Math.log1p(-k / n);
  }
  return Math.max(0, 2 * (whole - logLikelihood(problem, curve)));
}
