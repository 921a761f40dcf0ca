import { meanAndSd } from "../../math/mean-and-sd.js";

/** Errors that a comparison needs on either side. */
const LEAST = 20;
/** Two-sided 95 % quantile of the standard normal distribution. */
const Z = 1.959963984540054;

/** How the total primary error moved against earlier blocks. */
export interface Rise {
  readonly verdict: "risen" | "notRisen";
  readonly said: string;
}

interface WithErrors {
  readonly primaryError?: Float64Array;
}

/**
 * Whether the root mean square of the primary errors has risen beyond the smallest detectable change: the one given, in the unit of the errors, else
 * 1.96 standard errors of the difference of the logarithms, from the scatter of the squares. `undefined` with fewer than 20 errors on either side.
 */
export function errorRise(last: WithErrors, before: readonly WithErrors[], minimalDetectable: number | undefined): Rise | undefined {
  const now = total(Array.from(last.primaryError ?? []));
  const earlier = total(before.flatMap(({ primaryError }) => Array.from(primaryError ?? [])));
  if (now === undefined || earlier === undefined) return undefined;
  const rise = now.rms - earlier.rms;
  const least = minimalDetectable ?? earlier.rms * Math.expm1(Z * Math.sqrt(now.variance + earlier.variance));
  const said = `the total primary error rose from ${earlier.rms.toPrecision(3)} to ${now.rms.toPrecision(3)}, beyond the ${least.toPrecision(2)} that chance makes`;
  return { verdict: rise > least ? "risen" : "notRisen", said };
}

/** Root mean square, and variance of its logarithm. */
function total(errors: readonly number[]): { readonly rms: number; readonly variance: number } | undefined {
  if (errors.length < LEAST) return undefined;
  const { mean, sd } = meanAndSd(errors.map((error) => error * error));
  if (!(mean > 0)) return undefined;
  return { rms: Math.sqrt(mean), variance: (sd / mean) ** 2 / (4 * errors.length) };
}
