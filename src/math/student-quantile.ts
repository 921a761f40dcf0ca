import { betaTails } from "./beta.js";
import { normalQuantile } from "./normal-quantile.js";
import { positiveQuantile, type TailsAt } from "./positive-quantile.js";

/**
 * The value that a Student variable with `df` degrees of freedom (above 0, not necessarily whole) stays below with probability `p`;
 * -Infinity at 0 and Infinity at 1. About 1e-13 relative where |value| is below 1e150.
 */
export function studentQuantile(p: number, df: number): number {
  if (p > 0.5) return 0 - studentQuantile(1 - p, df);
  if (p === 0.5) return 0;
  // |t| exceeds the value with probability 2p; t^2/(df + t^2) is a beta variable with shapes 1/2 and df/2
  return 0 - positiveQuantile((t) => tailsAt(t, df), 1 - 2 * p, 2 * p, nearNormal(0 - normalQuantile(p), df));
}

// the expansion about the normal deviate `z` (Cornish and Fisher, recalled), as a start: off by 1e-6 at 50 degrees of freedom
function nearNormal(z: number, df: number): number {
  const square = z * z;
  return z * (1 + (square + 1) / (4 * df) + ((5 * square + 16) * square + 3) / (96 * df * df));
}

function tailsAt(t: number, df: number): TailsAt {
  const ratio = (t * t) / df;
  const { lower, upper, kernel } = betaTails(0.5, df / 2, 1 / (1 + 1 / ratio), 1 / (1 + ratio));
  // by the logarithm of t instead of that of its square
  return { lower, upper, kernel: 2 * kernel };
}
