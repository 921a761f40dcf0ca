import { betaTails } from "../../math/beta.js";
import { medianEstimate } from "../../math/median-estimate.js";
import type { Effect } from "./effect.js";
import { stretchBy } from "./stretch-by.js";

/**
 * Median of paired differences, by their order: the interval lies between two of the differences, and the chances are binomial. Nothing is assumed of their
 * distribution; resampling a single short list calls too many changes (11 % with 7 sessions, simulated). No interval at 0.95 below six sessions.
 * Autocorrelation stretches the distances from the value. `undefined` when all differences are equal.
 */
export function pairedMedianEffect(differences: Float64Array, r: number): Effect | undefined {
  const n = differences.length;
  const found = medianEstimate(differences, "");
  if (!found.ok || differences.every((value) => value === differences[0])) return undefined;
  const { value } = found;
  const stretch = stretchBy([n], r);
  return {
    value,
    interval: (level) => {
      const at = medianEstimate(differences, "", level);
      if (!at.ok || at.interval === undefined) return undefined;
      return [value + stretch * (at.interval[0] - value), value + stretch * (at.interval[1] - value)];
    },
    below: (mark) => {
      const plain = value + (mark - value) / stretch;
      let [under, equal] = [0, 0];
      for (const difference of differences) {
        if (difference < plain) under++;
        else if (difference === plain) equal++;
      }
      return (fewer(n, under) + fewer(n, under + equal + 1)) / 2;
    },
  };
}

/** Probability that fewer than `count` of `n` tosses fall one way. */
function fewer(n: number, count: number): number {
  if (count <= 0) return 0;
  return count > n ? 1 : betaTails(count, n - count + 1, 0.5, 0.5).upper;
}
