import type { Estimate } from "../../math/estimate.js";
import { fieller, type RatioTerm } from "../../math/fieller.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { Uncertain } from "../../math/welch.js";

/** Label, count and confidence level of an estimate. */
export interface Label {
  readonly unit: string;
  readonly n: number;
  readonly level: number;
}

/** Independent estimates with their factors: what is added up. */
export type Sum = readonly { readonly estimate: Uncertain; readonly factor: number }[];

/** A sum with Student's interval, on the degrees of freedom of Welch and Satterthwaite. */
export function describeSum(sum: Sum, { unit, n, level }: Label): Estimate {
  const { value, variance } = totalOf(sum);
  let inverse = 0;
  for (const { estimate, factor } of sum) {
    const share = variance > 0 ? (factor * factor * estimate.variance) / variance : 0;
    inverse += (share * share) / estimate.df;
  }
  const half = -studentQuantile((1 - level) / 2, Math.min(1 / inverse, 1e9)) * Math.sqrt(variance);
  return { ok: true, value: value + 0, unit, n, interval: [value - half, value + half], level };
}

/**
 * Ratio of two sums times `times`, with Fieller's interval; an estimate may stand in both. `notIdentified` when the interval has no bounds, or the
 * denominator does not exceed its standard error.
 */
export function describeRatio(numerator: Sum, denominator: Sum, times: number, { unit, n, level }: Label): Estimate {
  const terms = new Map<Uncertain, { numerator: number; denominator: number }>();
  for (const { estimate } of [...numerator, ...denominator]) terms.set(estimate, { numerator: 0, denominator: 0 });
  for (const { estimate, factor } of numerator) terms.get(estimate)!.numerator += factor;
  for (const { estimate, factor } of denominator) terms.get(estimate)!.denominator += factor;
  const ratio = fieller(
    Array.from(terms, ([estimate, factors]): RatioTerm => ({ estimate, ...factors })),
    level,
  );
  const below = totalOf(denominator);
  const clear = Math.abs(below.value) > Math.sqrt(below.variance);
  if (ratio?.interval === undefined || !clear) return { ok: false, why: "notIdentified", unit, n };
  const [a, b] = ratio.interval.map((end) => times * end) as [number, number];
  return { ok: true, value: times * ratio.value + 0, unit, n, interval: [Math.min(a, b), Math.max(a, b)], level };
}

/** `tooFew` under two values, the estimate otherwise. */
export function unlessFew(label: Label, describe: (label: Label) => Estimate): Estimate {
  return label.n < 2 ? { ok: false, why: "tooFew", unit: label.unit, n: label.n } : describe(label);
}

function totalOf(sum: Sum): { value: number; variance: number } {
  let value = 0;
  let variance = 0;
  for (const { estimate, factor } of sum) {
    value += factor * estimate.value;
    variance += factor * factor * estimate.variance;
  }
  return { value, variance };
}
