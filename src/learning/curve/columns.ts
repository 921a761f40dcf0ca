import { show } from "../../math/require.js";
import { requireList } from "../../math/require-list.js";
import type { PracticeSeries } from "../types.js";

/** A checked series, copied into columns. */
export interface CurveColumns {
  readonly n: number;
  readonly practice: Float64Array;
  readonly value: Float64Array;
  /** Weights; ones where the series has no trials. */
  readonly weight: Float64Array;
  readonly weighted: boolean;
  readonly weightSum: number;
  /** Amounts of practice that differ. */
  readonly distinct: number;
  /** Smallest step between amounts that differ; 0 when none do. */
  readonly step: number;
  readonly low: number;
  readonly high: number;
}

/** Throws unless the series is as its type says; `above` is a bound that practice must exceed. */
export function curveColumns(where: string, series: PracticeSeries, above: number = Number.NEGATIVE_INFINITY): CurveColumns {
  if (series === null || typeof series !== "object")
    throw new TypeError(`${where}: series must be an object of columns, got ${show(series)}`);
  requireList(where, "series.practice", series.practice);
  requireList(where, "series.value", series.value);
  const n = series.practice.length;
  if (series.value.length !== n)
    throw new RangeError(`${where}: series.value must have ${n} entries like practice, got ${series.value.length}`);
  // one piece of memory for all columns: pieces cost more than their size
  const memory = new Float64Array(3 * n);
  const practice = memory.subarray(0, n);
  const value = memory.subarray(n, 2 * n);
  const weight = memory.subarray(2 * n);
  practice.set(series.practice);
  value.set(series.value);
  if (series.trials === undefined) weight.fill(1);
  else takeWeights(where, series.trials, weight);
  let weightSum = 0;
  let distinct = n > 0 ? 1 : 0;
  let step = Number.POSITIVE_INFINITY;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    const at = practice[i]!;
    if (at <= above) throw new RangeError(`${where}: series.practice[${i}] must be above ${above} for this law, got ${at}`);
    weightSum += weight[i]!;
    if (value[i]! < low) low = value[i]!;
    if (value[i]! > high) high = value[i]!;
    if (i === 0) continue;
    const gap = at - practice[i - 1]!;
    if (gap < 0) throw new RangeError(`${where}: series.practice[${i}] must be at least the entry before, ${practice[i - 1]}, got ${at}`);
    if (gap === 0) continue;
    distinct++;
    if (gap < step) step = gap;
  }
  return {
    n,
    practice,
    value,
    weight,
    weighted: series.trials !== undefined,
    weightSum,
    distinct,
    step: distinct > 1 ? step : 0,
    low,
    high,
  };
}

function takeWeights(where: string, trials: ArrayLike<number>, weight: Float64Array): void {
  const n = weight.length;
  requireList(where, "series.trials", trials);
  if (trials.length !== n) throw new RangeError(`${where}: series.trials must have ${n} entries like practice, got ${trials.length}`);
  for (let i = 0; i < n; i++) {
    if (!(trials[i]! > 0)) throw new RangeError(`${where}: series.trials[${i}] must be above 0, got ${trials[i]}`);
    weight[i] = trials[i]!;
  }
}
