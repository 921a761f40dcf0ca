import type { Estimate } from "../../math/estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";

/** Fewer repeats in all than this say nothing of a habit. */
const FEWEST = 5;

/** One sequence of a layout that comes again. */
export interface Repeat {
  readonly layout: string;
  /** The order taken, and the target taken first, by names that the repeats of a layout share. */
  readonly order: string;
  readonly first: string;
}

/** How alike the repeats of a layout are taken. Unit of analysis: the sequence. */
export interface OrderConsistency {
  /** Layouts that came twice or more. */
  readonly layouts: number;
  /** Share of their sequences taken in the layout's most frequent order: 1 always the same. Two repeats cannot fall below 0.5. */
  readonly modalShare: Estimate;
  /** Entropy of the first target within a layout, bits: 0 always the same. Corrected for few repeats (Miller and Madow, recalled). */
  readonly firstChoiceEntropy: Estimate;
}

/** Consistency over all layouts, weighted by their repeats; intervals by leaving out one sequence each (jackknife). */
export function orderConsistency(repeats: readonly Repeat[], level: number): OrderConsistency {
  const groups = new Map<string, Repeat[]>();
  for (const repeat of repeats) {
    const group = groups.get(repeat.layout);
    if (group === undefined) groups.set(repeat.layout, [repeat]);
    else group.push(repeat);
  }
  const again = [...groups.values()].filter((group) => group.length > 1);
  return {
    layouts: again.length,
    modalShare: pooled(
      again.map((group) => countsOf(group.map(({ order }) => order))),
      modalShare,
      "1",
      1,
      level,
    ),
    firstChoiceEntropy: pooled(
      again.map((group) => countsOf(group.map(({ first }) => first))),
      entropy,
      "bit",
      Number.POSITIVE_INFINITY,
      level,
    ),
  };
}

function countsOf(names: readonly string[]): number[] {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return [...counts.values()];
}

/** Mean of `figure` over the layouts, each counting by its repeats. */
function pooled(
  layouts: readonly (readonly number[])[],
  figure: (counts: readonly number[]) => number,
  unit: string,
  most: number,
  level: number,
): Estimate {
  const sizes = layouts.map(total);
  const n = total(sizes);
  if (n < FEWEST) return { ok: false, why: "tooFew", unit, n };
  const parts = layouts.map((counts, i) => sizes[i]! * figure(counts));
  const sum = total(parts);
  const value = sum / n;
  let squares = 0;
  layouts.forEach((counts, i) => {
    counts.forEach((count, k) => {
      const rest = counts.map((other, j) => (j === k ? other - 1 : other)).filter((other) => other > 0);
      const without = (sum - parts[i]! + (sizes[i]! - 1) * figure(rest)) / (n - 1);
      squares += count * (without - value) ** 2;
    });
  });
  const half = -studentQuantile((1 - level) / 2, n - 1) * Math.sqrt((squares * (n - 1)) / n);
  return { ok: true, value, unit, n, interval: [Math.max(0, value - half), Math.min(most, value + half)], level };
}

function modalShare(counts: readonly number[]): number {
  return counts.reduce((most, count) => Math.max(most, count), 0) / total(counts);
}

function entropy(counts: readonly number[]): number {
  const n = total(counts);
  const plain = counts.reduce((sum, count) => sum - (count / n) * Math.log2(count / n), 0);
  return plain + (counts.length - 1) / (2 * n * Math.LN2);
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
