import { betaTails } from "./beta.js";
import { positiveQuantile, type TailsAt } from "./positive-quantile.js";

/**
 * The value that a Student variable with `df` degrees of freedom (above 0, not necessarily whole) stays below with probability `p`;
 * -Infinity at 0 and Infinity at 1. About 1e-13 relative where |value| is below 1e150.
 */
export function studentQuantile(p: number, df: number): number {
  if (p > 0.5) return 0 - studentQuantile(1 - p, df);
  // a start: about the square of the normal deviate (Pólya 1945, recalled), and the first term of the expansion about it (Cornish and Fisher, recalled)
  const square = (-Math.PI / 2) * Math.log(4 * p * (1 - p));
  const start = Math.sqrt(square) * (1 + (square + 1) / (4 * df));
  // |t| exceeds the value with probability 2p; t^2/(df + t^2) is a beta variable with shapes 1/2 and df/2
  return 0 - positiveQuantile((t) => tailsAt(t, df), 1 - 2 * p, 2 * p, start);
}

function tailsAt(t: number, df: number): TailsAt {
  const ratio = (t * t) / df;
  const { lower, upper, kernel } = betaTails(0.5, df / 2, 1 / (1 + 1 / ratio), 1 / (1 + ratio));
  // by the logarithm of t instead of that of its square
  return { lower, upper, kernel: 2 * kernel };
}
