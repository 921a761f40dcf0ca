import { meanAndSd } from "../../math/mean-and-sd.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { Jackknifed } from "./jackknife-cell.js";

/** A mean throughput freed of small-sample bias, with its interval. */
export interface FreedThroughput {
  readonly value: number;
  readonly interval: readonly [number, number];
}

/**
 * From the jackknifed cells of each person (`undefined` where a cell has no jackknife). Two people or more: Student over their means, for people like
 * them. One: the cells' sampling variances added up, with Satterthwaite's degrees of freedom (recalled), for that person alone.
 */
export function throughputInterval(people: readonly (readonly (Jackknifed | undefined)[])[], level: number): FreedThroughput | undefined {
  const all = people.flat();
  const cells = all.filter((cell) => cell !== undefined);
  if (cells.length === 0 || cells.length < all.length) return undefined;
  const { mean, sd } = meanAndSd(people.map((own) => meanAndSd(own.map((cell) => cell!.value)).mean));
  const spread = people.length > 1 ? { variance: (sd * sd) / people.length, df: people.length - 1 } : withinPerson(cells);
  const half = spread.variance === 0 ? 0 : -studentQuantile((1 - level) / 2, spread.df) * Math.sqrt(spread.variance);
  return Number.isFinite(half) ? { value: mean, interval: [Math.max(0, mean - half), mean + half] } : undefined;
}

function withinPerson(cells: readonly Jackknifed[]): { variance: number; df: number } {
  const sum = cells.reduce((total, cell) => total + cell.variance, 0);
  const parts = cells.reduce((total, cell) => total + (cell.variance * cell.variance) / cell.df, 0);
  return { variance: sum / (cells.length * cells.length), df: parts > 0 ? (sum * sum) / parts : 1 };
}
