import { medianDeviation, medianInPlace } from "./median.js";
import { SD_PER_MAD } from "./sd-per-mad.js";

/** Median absolute deviation from the median, scaled to the SD of normal values; a few outliers do not move it. NaN when empty. */
export function robustSd(values: ArrayLike<number>): number {
  const column = Float64Array.from(values);
  const centre = medianInPlace(column);
  return SD_PER_MAD * medianDeviation(column, centre);
}
