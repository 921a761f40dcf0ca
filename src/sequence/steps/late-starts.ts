import { linearRegression } from "../../math/linear-regression.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import { medianDeviation, medianInPlace } from "../../math/median.js";
import { SD_PER_MAD } from "../../math/sd-per-mad.js";

/** A start is late from so many robust standard deviations on (a choice of this library). */
const LATE = 3;
/** Fewer latencies than this show no usual one. */
const FEWEST = 20;
/** Fits without those set aside until none more is. */
const MOST_ROUNDS = 10;

/** One latency with what lawfully changes it. */
export interface Start {
  /** Seconds, above 0. */
  readonly latency: number;
  readonly amplitude: number;
  readonly width: number;
  /** Degrees, sign left out. */
  readonly turn: number;
}

/**
 * Which of the latencies are too long for their distance, width and turn: the logarithm is fitted by least squares, those more than three
 * robust standard deviations off either way are set aside, and the fit is repeated, so that what it looks for does not bend it.
 */
export function lateStarts(starts: readonly Start[]): boolean[] {
  const n = starts.length;
  if (n < FEWEST) return starts.map(() => false);
  const logs = starts.map(({ latency }) => Math.log(latency));
  const columns = (["amplitude", "width", "turn"] as const)
    .map((name) => starts.map((start) => start[name]))
    .filter((column) => meanAndSd(column).sd > 0);
  let kept = starts.map(() => true);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const residuals = residualsOf(columns, logs, kept);
    const inside = Float64Array.from(residuals.filter((_, i) => kept[i]));
    const centre = medianInPlace(inside.slice());
    const spread = SD_PER_MAD * medianDeviation(inside, centre);
    if (!(spread > 0)) return starts.map(() => false);
    const next = residuals.map((residual) => Math.abs(residual - centre) <= LATE * spread);
    const settled = next.every((keep, i) => keep === kept[i]);
    kept = next;
    if (settled || round === MOST_ROUNDS - 1) return residuals.map((residual) => residual - centre > LATE * spread);
  }
  return starts.map(() => false);
}

/** What a line fitted to the values kept leaves of all of them; their mean stands in where no line can be fitted. */
function residualsOf(columns: readonly (readonly number[])[], values: readonly number[], kept: readonly boolean[]): number[] {
  const some = (list: readonly number[]): number[] => list.filter((_, i) => kept[i]);
  const fit = columns.length === 0 ? undefined : linearRegression(columns.map(some), some(values));
  const [intercept, ...slopes] = fit?.coefficients ?? [meanAndSd(some(values)).mean];
  return values.map((value, i) => slopes.reduce((rest, slope, j) => rest - slope * columns[j]![i]!, value - intercept!));
}
