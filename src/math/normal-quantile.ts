import { erf, normalCdf, normalDensity } from "./normal.js";

/** Each step squares the error, so that after one of this share nothing but rounding is left. */
const SMALL_STEP = 1e-10;

/**
 * The value that a standard normal variable stays below with probability `p`; -Infinity at 0 and Infinity at 1.
 * About 1e-14 relative for `p` from 1e-310 up; toward the smallest double, 5e-324, the answer goes off in the third digit.
 * NaN outside 0..1.
 */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return Number.NaN;
  if (p === 0) return Number.NEGATIVE_INFINITY;
  if (p > 0.5) return 0 - normalQuantile(1 - p);
  return p > 0.25 ? central(2 * p - 1) : tail(p);
}

// near the centre: erf(z/sqrt 2) = 2p - 1, which keeps its digits where p itself does not
function central(share: number): number {
  let z = share * Math.sqrt(Math.PI / 2);
  for (let i = 0; i < 20; i++) {
    const step = (share - erf(z * Math.SQRT1_2)) / (2 * normalDensity(z));
    z += step;
    if (Math.abs(step) <= SMALL_STEP * Math.abs(z)) break;
  }
  return z;
}

// In the tail: Newton steps on log cdf. The curve bends down only and the start lies below the root (the tail beyond z is at most
// exp(-z^2/2)/2), so the steps climb to the root without passing it.
function tail(p: number): number {
  let z = 0 - Math.sqrt(-2 * Math.log(2 * p));
  for (let i = 0; i < 50; i++) {
    const below = normalCdf(z);
    const step = (Math.log(p / below) * below) / normalDensity(z);
    if (!Number.isFinite(step)) break; // past the smallest double: the start is the best there is
    z += step;
    if (Math.abs(step) <= SMALL_STEP * Math.abs(z)) break;
  }
  return z;
}
