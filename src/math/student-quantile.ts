import { betaKernel, betaTails } from "./beta.js";
import { positiveQuantile } from "./positive-quantile.js";

/**
 * The value that a Student variable with `df` degrees of freedom (above 0, not necessarily whole) stays below with probability `p`;
 * -Infinity at 0 and Infinity at 1. About 1e-13 relative where |value| is below 1e150.
 */
export function studentQuantile(p: number, df: number): number {
  if (p > 0.5) return 0 - studentQuantile(1 - p, df);
  if (p === 0.5) return 0;
  // |t| exceeds the value with probability 2p; t^2/(df + t^2) is a beta variable with shapes 1/2 and df/2
  // a start only: the tail of a normal variable beyond z is at most exp(-z^2/2)/2
  const start = Math.max(1e-3, Math.sqrt(-2 * Math.log(2 * p)));
  return 0 - positiveQuantile((t) => tailsAt(t, df), 1 - 2 * p, 2 * p, start);
}

function tailsAt(t: number, df: number) {
  const ratio = (t * t) / df;
  const x = 1 / (1 + 1 / ratio);
  const y = 1 / (1 + ratio);
  const { lower, upper } = betaTails(0.5, df / 2, x, y);
  return { lower, upper, kernel: 2 * betaKernel(0.5, df / 2, x, y) };
}
