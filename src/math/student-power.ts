import { betaKernel, betaTails } from "./beta.js";
import { gammaTails, logGamma } from "./gamma.js";
import { NODES, WEIGHTS } from "./gauss-legendre.js";
import { normalCdf, normalDensity } from "./normal.js";
import { normalQuantile } from "./normal-quantile.js";
import { studentQuantile } from "./student-quantile.js";

/** Terms of a probability smaller than this are left out. */
const NEGLIGIBLE = 1e-16;
/** With larger shifts exp(-shift^2/2) is no number any more. */
const LARGEST_FOR_SERIES = 37;
/** A standard normal variable lies beyond this with a probability that a double cannot add to 1. */
const FAR = 8.5;
/** Pieces of that range, each short enough for the quadrature. */
const PIECES = 6;
const STEPS = 60;

/**
 * Probability that a two-sided t test with `df` degrees of freedom rejects at the error rate `alpha` when the true difference is `shift` standard
 * errors: both tails of the noncentral Student distribution. About 1e-12 absolute.
 */
export function studentPower(shift: number, df: number, alpha: number): number {
  const critical = -studentQuantile(alpha / 2, df);
  if (Math.abs(shift) > LARGEST_FOR_SERIES) return above(critical, Math.abs(shift), df);
  return 1 - below(critical, shift, df) + 1 - below(critical, -shift, df);
}

/** The true difference, in standard errors, that such a test finds with probability `power` (above `alpha` and below 1 - 1e-12). */
export function shiftForPower(power: number, df: number, alpha: number): number {
  const goal = normalQuantile(power);
  // the normal quantile of the power is nearly a straight line in the shift: chords meet the goal in a few steps, kept within a bracket
  const missAt = (shift: number): number => normalQuantile(studentPower(shift, df, alpha)) - goal;
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  let shift = goal - studentQuantile(alpha / 2, df);
  let miss = missAt(shift);
  let slope = 1;
  for (let i = 0; i < STEPS; i++) {
    if (miss < 0) low = shift;
    else high = shift;
    const guess = shift - miss / slope;
    const inside = guess > low && guess < high;
    const next = inside ? guess : high === Number.POSITIVE_INFINITY ? 2 * low : (low + high) / 2;
    if (Math.abs(next - shift) <= 1e-12 * shift) return next;
    const there = missAt(next);
    if (there !== miss) slope = (there - miss) / (next - shift);
    shift = next;
    miss = there;
  }
  return shift;
}

// P(T > t) for a shift so large that the other tail is empty: over the normal part, the chance that the chi-squared part is small enough
function above(t: number, shift: number, df: number): number {
  const half = FAR / PIECES;
  let sum = 0;
  for (let piece = 0; piece < PIECES; piece++) {
    const middle = half * (2 * piece + 1) - FAR;
    for (const [i, node] of NODES.entries()) {
      for (const z of [middle - half * node, middle + half * node]) {
        const small = gammaTails(df / 2, (df / 2) * ((z + shift) / t) ** 2).lower;
        sum += half * WEIGHTS[i]! * normalDensity(z) * small;
      }
    }
  }
  return sum;
}

// P(T <= t) for t >= 0 (Lenth 1989, recalled): beta probabilities weighed by the chances of a Poisson variable with mean shift^2/2
function below(t: number, shift: number, df: number): number {
  const ratio = (t * t) / df;
  const x = 1 / (1 + 1 / ratio);
  const y = 1 / (1 + ratio);
  const mean = (shift * shift) / 2;
  let even = Math.exp(-mean);
  let odd = (shift * Math.SQRT1_2 * even) / Math.exp(logGamma(1.5));
  let left = 1 - even;
  let betaEven = betaTails(0.5, df / 2, x, y).lower;
  let betaOdd = betaTails(1, df / 2, x, y).lower;
  let stepEven = betaKernel(0.5, df / 2, x, y) / 0.5;
  let stepOdd = betaKernel(1, df / 2, x, y);
  let sum = even * betaEven + odd * betaOdd;
  for (let j = 1; left > NEGLIGIBLE && j < 5000; j++) {
    // the next shape: I(a + 1, b) = I(a, b) - x^a y^b/(a B(a, b)), and that step grows by x (a + b)/(a + 1)
    betaEven -= stepEven;
    betaOdd -= stepOdd;
    stepEven *= (x * (j - 0.5 + df / 2)) / (j + 0.5);
    stepOdd *= (x * (j + df / 2)) / (j + 1);
    even *= mean / j;
    odd *= mean / (j + 0.5);
    left -= even;
    sum += even * Math.max(0, betaEven) + odd * Math.max(0, betaOdd);
    if (j > mean && even < NEGLIGIBLE) break;
  }
  return normalCdf(-shift) + sum / 2;
}
