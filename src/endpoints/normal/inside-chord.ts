import { normalCdf, normalDensity } from "../../math/normal.js";
import type { TailsAt } from "../../math/positive-quantile.js";

/** A scatter narrower than this share of its length, or of the target, has no width that its digits could show. */
export const LINE = 1e-13;

/** What a target leaves of a line: positions of both ends, and how fast they move when the logarithm of the target's size grows. */
export interface Chord {
  readonly low: number;
  readonly high: number;
  readonly lowSpeed: number;
  readonly highSpeed: number;
}

/** Probability that a normal endpoint on a line lies on a chord of it, its complement, and its growth. Without spread the mean decides, edge included. */
export function insideChord(mean: number, sd: number, chord: Chord | undefined): TailsAt {
  if (chord === undefined || chord.low > chord.high) return { lower: 0, upper: 1, kernel: 0 };
  const { low, high, lowSpeed, highSpeed } = chord;
  if (sd === 0) return low <= mean && mean <= high ? { lower: 1, upper: 0, kernel: 0 } : { lower: 0, upper: 1, kernel: 0 };
  const a = (low - mean) / sd;
  const b = (high - mean) / sd;
  const flow = highSpeed * normalDensity(b) - lowSpeed * normalDensity(a);
  // seen from the side on which less of the chord lies, so that a small probability keeps its digits
  const lower = a + b > 0 ? normalCdf(-a) - normalCdf(-b) : normalCdf(b) - normalCdf(a);
  return { lower, upper: normalCdf(a) + normalCdf(-b), kernel: Number.isFinite(flow) ? flow / sd : 0 };
}
