import { normalCdf } from "../../math/normal.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { ArSlope } from "../trend/ar-slope.js";
import type { ImprovementScale } from "./scale.js";
import { MOST_GAIN, MOST_LOSS } from "./trend-evidence.js";

/** Chance with which the needed sessions should tell. */
const POWER = 0.8;
/** No answer beyond this many sessions: some ten years of daily practice. */
const MOST = 4000;
/** Autocorrelations beyond are those of a wandering level, for which no number of sessions is enough. */
const LARGEST = 0.95;

/** Standard error of the slope per day that `n` evenly spaced sessions will have, were the scatter known to be as it looks now. */
function futureError(slope: ArSlope, n: number, spacing: number): number {
  const phi = Math.max(0, Math.min(LARGEST, slope.autocorrelation));
  const first = (n - 1) / 2;
  const whole = (n * (n * n - 1)) / 12;
  const cross = 2 * whole - (n - 1) - 2 * first * first;
  const inner = whole - 2 * first * first;
  // sum of squares of centred, evenly spaced days, as neighbours that resemble each other leave it
  const weight = whole - phi * (cross - phi * inner);
  return (slope.sd * Math.sqrt((1 - phi * phi) / weight)) / spacing;
}

/** Fewest evenly spaced sessions, at least `least`, with which a flat learner is told in four of five cases. */
export function sessionsForPlateau(slope: ArSlope, spacing: number, horizon: number, scale: ImprovementScale, least: number): number {
  const tells = (n: number): boolean => {
    const error = horizon * futureError(slope, n, spacing);
    const above = scale.gain / error + studentQuantile(MOST_GAIN, n - 2);
    const below = scale.loss / error + studentQuantile(MOST_LOSS, n - 2);
    return normalCdf(above) + normalCdf(below) - 1 >= POWER;
  };
  let n = least;
  while (n < MOST && !tells(n)) n++;
  return n;
}

/** Smallest improvement over the horizon that `n` sessions show in four of five cases, two-sided at 5 %. */
export function detectableGain(slope: ArSlope, n: number, spacing: number, horizon: number, scale: ImprovementScale): number {
  return scale.improvement((normalQuantile(POWER) - studentQuantile(0.025, n - 2)) * horizon * futureError(slope, n, spacing));
}
