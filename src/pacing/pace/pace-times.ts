import { linearRegression } from "../../math/linear-regression.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import type { ReadTrials } from "../scatter/read-trials.js";

/** A logarithm that varies by less than this does not vary. */
const EVEN = 0.01;

/**
 * Movement time of each trial as its pace asked for it: the geometric mean of the pace, and within a pace the movement times that distance and width
 * make for. What single trials took more or less is left out, since within one instruction slow trials are often those that went wrong.
 */
export function paceTimes({ movementTime, amplitude, width }: ReadTrials, pace: readonly string[]): Float64Array {
  const log = movementTime.map(Math.log);
  const centred = centreWithin(log, pace);
  const columns = [amplitude.map(Math.log), width.map(Math.log)].map((column) => centreWithin(column, pace).rest);
  const varying = columns.filter((column) => meanAndSd(column).sd > EVEN);
  const fit = linearRegression(varying, centred.rest) ?? linearRegression(varying.slice(0, 1), centred.rest);
  const used = fit === undefined ? [] : varying.slice(0, fit.coefficients.length - 1);
  return Float64Array.from(log, (_, i) =>
    Math.exp(used.reduce((sum, column, j) => sum + fit!.coefficients[j + 1]! * column[i]!, centred.mean[i]!)),
  );
}

/** Mean of the group of each value, and what is left of the value. */
function centreWithin(values: Float64Array, groups: readonly string[]): { readonly mean: Float64Array; readonly rest: Float64Array } {
  const sums = new Map<string, { sum: number; n: number }>();
  for (const [i, group] of groups.entries()) {
    const one = sums.get(group) ?? { sum: 0, n: 0 };
    sums.set(group, { sum: one.sum + values[i]!, n: one.n + 1 });
  }
  const mean = Float64Array.from(groups, (group) => sums.get(group)!.sum / sums.get(group)!.n);
  return { mean, rest: values.map((value, i) => value - mean[i]!) };
}
