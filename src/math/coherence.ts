import type { CrossDensity } from "./cross-density.js";
import { type SpectralWindow, spectralWindow } from "./spectral-window.js";

/** Share of the second signal's power at each bin that is a linear response to the first, 0 to 1; 0 where either has none. With one segment it is 1 whatever the data. */
export function coherence({ first, second, re, im }: CrossDensity): Float64Array {
  return first.map((power, j) => {
    const both = power * second[j]!;
    return both > 0 ? Math.min(1, (re[j]! * re[j]! + im[j]! * im[j]!) / both) : 0;
  });
}

/**
 * Number of independent segments that `count` segments begun every `step` samples are worth: count / (1 + 2 sum of c_j^2 (1 - j/count)), c_j the share
 * that the window has in common with itself j steps later (recalled; 1/6 for half-overlapping Hann windows, about 0.95 of the count).
 */
export function independentSegments(count: number, window: SpectralWindow, segment: number, step: number): number {
  const weights = spectralWindow(window, segment);
  const overlapAt = (lag: number): number => {
    let sum = 0;
    for (let k = lag; k < segment; k++) sum += weights[k]! * weights[k - lag]!;
    return sum;
  };
  const whole = overlapAt(0);
  let inflation = 1;
  for (let j = 1; j < count && j * step < segment; j++) inflation += 2 * (overlapAt(j * step) / whole) ** 2 * (1 - j / count);
  return count / inflation;
}

/** What the coherence of unrelated signals stays below in a share `level` of cases, over a number of independent segments above 1 (closed form). */
export function chanceCoherence(segments: number, level: number): number {
  return 1 - (1 - level) ** (1 / (segments - 1));
}

/** Relative standard error of a gain, and standard error of its phase in radians, from the coherence over independent segments (textbook, recalled). */
export function relativeGainError(coherence: number, segments: number): number {
  return Math.sqrt((1 - coherence) / (2 * segments * coherence));
}
