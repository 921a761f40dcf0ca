import type { Estimate } from "./estimate.js";
import { type CoverageTable, withCoverage } from "./interval-coverage.js";
import { meanAndSd } from "./mean-and-sd.js";
import { normalQuantile } from "./normal-quantile.js";
import { sdEstimate } from "./sd-estimate.js";

/** Simulated, 4000 sets each; normal values with a coefficient of 0.2, heavy-tailed ones about a mean of ten. */
const COVERAGE: CoverageTable = [
  [5, 0.948, 0.974, 0.866],
  [10, 0.964, 0.986, 0.865],
  [20, 0.944, 0.978, 0.798],
  [50, 0.94, 0.958, 0.777],
];
/** The variance of the logarithm is taken as no less than this share of that of the SD alone, however the skew would lower it. */
const LEAST_SHARE = 0.1;

/**
 * Coefficient of variation, SD (n - 1) over mean, of independent values of one sign, unit "1". Its interval is that of the SD (`sdEstimate`) on the
 * logarithm, with the variance of the mean and its covariance with the SD added: var ln CV = var ln SD + (CV^2 - CV skew)/n (delta method).
 * For normal values it then holds what it names; the jackknife of ln CV is 1.2 times as wide at n = 10 and holds no more.
 * Fewer than two values: `tooFew`; all equal: `noSpread`; a mean that is not above 0 by two standard errors: `notIdentified`.
 */
export function cvEstimate(values: ArrayLike<number>, level = 0.95): Estimate {
  const n = values.length;
  const sd = sdEstimate(values, "1", level);
  if (!sd.ok) return sd;
  const { mean } = meanAndSd(values);
  if (mean <= (2 * sd.value) / Math.sqrt(n)) return { ok: false, why: "notIdentified", unit: "1", n };
  const value = sd.value / mean;
  if (sd.interval === undefined) return { ok: true, value, unit: "1", n };
  const [low, high] = sd.interval;
  let cubes = 0;
  for (let i = 0; i < n; i++) cubes += ((values[i]! - mean) / sd.value) ** 3;
  const z = normalQuantile(0.5 + level / 2);
  const ofSd = (Math.log(high / low) / (2 * z)) ** 2;
  const variance = Math.max(ofSd + (value * value - (value * cubes) / n) / n, LEAST_SHARE * ofSd);
  const centre = Math.sqrt(low * high) / mean;
  const factor = Math.exp(z * Math.sqrt(variance));
  if (!Number.isFinite(centre * factor)) return { ok: true, value, unit: "1", n };
  return withCoverage({ ok: true, value, unit: "1", n, interval: [centre / factor, centre * factor], level }, COVERAGE);
}
