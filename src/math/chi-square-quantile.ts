import { gammaTails } from "./gamma.js";
import { normalQuantile } from "./normal-quantile.js";
import { positiveQuantile } from "./positive-quantile.js";

/**
 * The value that a chi-squared variable with `df` degrees of freedom (above 0, not necessarily whole) stays below with probability `p`;
 * 0 at 0 and Infinity at 1. About 1e-13 relative.
 */
export function chiSquareQuantile(p: number, df: number): number {
  const a = df / 2;
  // the cube root of a chi-squared variable is nearly normal (Wilson and Hilferty 1931, recalled): a start only
  const cubeRoot = 1 - 2 / (9 * df) + normalQuantile(p) * Math.sqrt(2 / (9 * df));
  const start = cubeRoot > 0.1 ? a * cubeRoot ** 3 : a * 0.001;
  return 2 * positiveQuantile((x) => gammaTails(a, x), p, 1 - p, start);
}
