import { addExactly, addProductExactly, canonicalParts } from "../../math/exact-sum.js";
import { firstAfter } from "../../math/first-after.js";
import { createBinning } from "../../math/quantile-bins.js";
import type { MeasureTally } from "../types.js";

/** One measure of one group while it is counted. */
export interface MeasureCell {
  /** Counts one value, or that there was none. */
  add(value: number | undefined): void;
  /** Counts all that a tally counted. */
  merge(part: MeasureTally): void;
  /** What was counted, in the form that depends on the values alone. */
  close(): MeasureTally;
}

/** An empty cell; `edges` ascend, and are absent where no histogram is asked for. */
export function createMeasureCell(edges: readonly number[] | undefined): MeasureCell {
  const binOf = createBinning();
  const bins = new Map<number, number>();
  const histogram = edges && new Array<number>(edges.length + 1).fill(0);
  const sum: number[] = [];
  const sumOfSquares: number[] = [];
  let n = 0;
  let missing = 0;
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  const count = (bin: number, by: number): void => void bins.set(bin, (bins.get(bin) ?? 0) + by);
  return {
    add(value) {
      if (value === undefined) {
        missing++;
        return;
      }
      n++;
      if (value < min) min = value;
      if (value > max) max = value;
      addExactly(sum, value);
      addProductExactly(sumOfSquares, value, value);
      count(binOf(value), 1);
      if (edges && histogram) histogram[firstAfter(edges, value)]!++;
    },
    merge(part) {
      n += part.n;
      missing += part.missing;
      min = Math.min(min, part.min ?? min);
      max = Math.max(max, part.max ?? max);
      for (const piece of part.sum) addExactly(sum, piece);
      for (const piece of part.sumOfSquares) addExactly(sumOfSquares, piece);
      for (const [bin, values] of part.bins) count(bin, values);
      part.histogram?.forEach((values, i) => {
        histogram![i]! += values;
      });
    },
    close: () => ({
      n,
      missing,
      // a negative zero would not survive JSON
      min: n === 0 ? null : min + 0,
      max: n === 0 ? null : max + 0,
      sum: canonicalParts(sum),
      sumOfSquares: canonicalParts(sumOfSquares),
      bins: [...bins].sort(([a], [b]) => a - b),
      ...(histogram && { histogram: [...histogram] }),
    }),
  };
}
