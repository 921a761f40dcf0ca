// Coverage of intervals that rest on normal scatter, simulated, 800 to 2000 sets each: SDs 6 and 4, correlation 0.3, bias (2, -1), about the target;
// `round` scatter has SD 5 on both axes and no bias. Other scatters, shares and targets lie near these, not on them.
import type { CoverageTable } from "../../math/interval-coverage.js";

/** Radius by the normal distribution: half of the endpoints, and nine in ten. */
const HALF: CoverageTable = [
  [10, 0.94, 0.769, 0.623],
  [20, 0.944, 0.696, 0.507],
  [50, 0.961, 0.549, 0.244],
];
const NINE_TENTHS: CoverageTable = [
  [10, 0.941, 0.824, 0.777],
  [20, 0.951, 0.814, 0.739],
  [50, 0.961, 0.787, 0.655],
];
/** Radius of round scatter. */
const ROUND_HALF: CoverageTable = [
  [10, 0.952, 0.807, 0.539],
  [20, 0.95, 0.76, 0.385],
  [50, 0.958, 0.678, 0.129],
];
const ROUND_NINE_TENTHS: CoverageTable = [
  [10, 0.951, 0.841, 0.709],
  [20, 0.95, 0.813, 0.632],
  [50, 0.959, 0.797, 0.567],
];
/** From the median distance to nine in ten by a robust normal shape; the median itself holds its level. */
const ROBUST_NINE_TENTHS: CoverageTable = [
  [10, 0.977, 0.952, 0.918],
  [20, 0.975, 0.956, 0.854],
  [50, 0.958, 0.863, 0.671],
];
/** Circle of radius 9. */
export const HIT_COVERAGE: CoverageTable = [
  [10, 0.936, 0.753, 0.757],
  [20, 0.947, 0.692, 0.709],
  [50, 0.963, 0.564, 0.618],
];
export const BIAS_GAIN_COVERAGE: CoverageTable = [
  [10, 0.95, 0.97, 0.961],
  [20, 0.951, 0.968, 0.948],
  [50, 0.948, 0.972, 0.895],
];
/** The true gain lies near the largest that any spread allows: the interval of normal scatter holds more than its level. */
export const SPREAD_GAIN_COVERAGE: CoverageTable = [
  [10, 0.95, 0.738, 0.831],
  [20, 0.972, 0.363, 0.608],
  [50, 0.986, 0.074, 0.36],
];

/** From here on a radius rests on the tails. */
const TAILS_FROM = 0.7;

/** Coverage of the radius that holds `share`, by estimator. */
export function radiusCoverage(estimator: "model" | "round" | "robust", share: number): CoverageTable | undefined {
  const tails = share >= TAILS_FROM;
  if (estimator === "model") return tails ? NINE_TENTHS : HALF;
  if (estimator === "round") return tails ? ROUND_NINE_TENTHS : ROUND_HALF;
  return tails ? ROBUST_NINE_TENTHS : undefined;
}
