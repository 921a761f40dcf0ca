import type { Estimate } from "../../math/estimate.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { medianEstimate } from "../../math/median-estimate.js";
import type { Acquisition, Budget } from "../types.js";

/** Where the time of one part went. */
export interface PartTime {
  /** Sum over all rows, seconds. */
  readonly total: number;
  /** Share of the wall time; negative latencies count as negative. */
  readonly share: number;
  /** Mean per acquisition, seconds, over the rows whose boundaries were found. */
  readonly mean: Estimate;
  readonly median: Estimate;
}

/** Each part of the budget, with its figures. */
export type PartTimes = { readonly [part in keyof Budget]: PartTime };

/** Wall time that no row covers. Two rows that cover the same instant are not of one sitting: then nobody waited for a known time. */
export function waitingTime(rows: readonly Acquisition[], wall: number): number | null {
  const byGo = [...rows].sort((a, b) => a.times.go - b.times.go);
  const apart = byGo.every((row, i) => i === 0 || row.times.go >= byGo[i - 1]!.times.end - 1e-9);
  return apart ? wall - byGo.reduce((sum, row) => sum + row.times.end - row.times.go, 0) : null;
}

/** Totals and shares over all rows, means and medians over the clean ones. */
export function partTimes(all: readonly Acquisition[], clean: readonly Acquisition[], wall: number, level: number): PartTimes {
  const part = (name: keyof Budget): PartTime => {
    const total = all.reduce((sum, row) => sum + row.budget[name], 0);
    const values = clean.map((row) => row.budget[name]);
    return {
      total,
      share: wall > 0 ? total / wall : 0,
      mean: meanEstimate(values, "s", level),
      median: medianEstimate(values, "s", level),
    };
  };
  return {
    latency: part("latency"),
    primary: part("primary"),
    correction: part("correction"),
    clutch: part("clutch"),
    verification: part("verification"),
    recovery: part("recovery"),
  };
}
