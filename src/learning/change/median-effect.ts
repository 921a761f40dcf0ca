import { bcaInterval, bootstrap, shareBelow } from "../../math/bootstrap.js";
import { medianInPlace } from "../../math/median.js";
import { createRandom } from "../../math/random.js";
import type { Effect } from "./effect.js";
import { stretchBy } from "./stretch-by.js";

const RESAMPLES = 2000;
/** Stream of the resamples: the permutation test has the first. */
const STREAM = 1;

/**
 * Change of the median, by resampling whole sessions within each period. Autocorrelation stretches the distances from the value.
 * `undefined` without any spread.
 */
export function medianEffect(before: Float64Array, after: Float64Array, r: number, seed: number): Effect | undefined {
  const random = createRandom(seed, STREAM);
  const found = bootstrap([before, after], changeOfMedian, RESAMPLES, (n) => Math.floor(random.uniform() * n));
  const { value, draws } = found;
  if (draws[0] === draws.at(-1)) return undefined;
  const stretch = stretchBy([before.length, after.length], r);
  return {
    value,
    interval: (level) => {
      const ends = bcaInterval(found, level);
      return ends && [value + stretch * (ends[0] - value), value + stretch * (ends[1] - value)];
    },
    below: (mark) => shareBelow(draws, value + (mark - value) / stretch),
  };
}

function changeOfMedian([before, after]: readonly Float64Array[]): number {
  return medianInPlace(after!) - medianInPlace(before!);
}
