import { normalCdf } from "./normal.js";

// The support-bounded lognormal movement in its own time s = (t - onset)/duration and unit amplitude: ln(s/(1-s)) runs through a normal
// distribution with mean mu and standard deviation sigma (Rohrer and Hogan 2003, recalled). It starts and ends at rest like the
// minimum-jerk bell, but mu < 0 puts the peak early, mu > 0 late, and a smaller sigma makes it narrower.

/** sqrt(2 pi), as a number: a bundler keeps what calls Math even where nothing needs it. */
const ROOT_TWO_PI = 2.5066282746310002;

/** The sigma whose symmetric bell (mu 0) has the peak speed of the minimum-jerk bell: 4/(1.875 sqrt(2 pi)). */
export const SIGMA_OF_MINIMUM_JERK: number = 4 / (1.875 * ROOT_TWO_PI);

/** Share of the amplitude covered at `s`. */
export function lognormalPosition(s: number, mu: number, sigma: number): number {
  if (s <= 0) return 0;
  return s >= 1 ? 1 : normalCdf((Math.log(s / (1 - s)) - mu) / sigma);
}

/** Speed at `s`, in amplitudes per duration. */
export function lognormalSpeed(s: number, mu: number, sigma: number): number {
  if (s <= 0 || s >= 1) return 0;
  const z = (Math.log(s / (1 - s)) - mu) / sigma;
  return Math.exp(-0.5 * z * z) / (ROOT_TWO_PI * sigma * s * (1 - s));
}

/** Where the speed peaks, in durations after the onset: the root of ln(s/(1-s)) = mu + sigma^2 (2s - 1). For sigma up to sqrt(2). */
export function lognormalPeakTime(mu: number, sigma: number): number {
  // up to sigma = sqrt(2) the difference of the two sides grows throughout, so that halving the bracket cannot miss the root
  let low = 0;
  let high = 1;
  for (let i = 0; i < 60; i++) {
    const s = (low + high) / 2;
    if (Math.log(s / (1 - s)) - mu - sigma * sigma * (2 * s - 1) < 0) low = s;
    else high = s;
  }
  return (low + high) / 2;
}
