import { requireNumber } from "../../math/require.js";
import type { Trace } from "../types.js";
import type { GridPlan } from "./even-grid.js";
import { findGaps } from "./gaps.js";
import { nominalRate } from "./nominal-rate.js";
import { positionQuantum } from "./position-quantum.js";

/** A grid finer than this holds no more of a pointing movement; devices that report faster are thinned to it. */
const HIGHEST_DEFAULT_RATE = 1000;
const HIGHEST_RATE = 20_000;
/** About a quarter of a fast movement, seconds. */
export const DEFAULT_MAX_GAP = 0.05;

/** The options that say where the grid lies and which silences are gaps. */
export interface GridOptions {
  readonly sampleRateHz?: number;
  readonly nominalRateHz?: number;
  readonly maxGap?: number;
  readonly quantum?: number;
  readonly start?: number;
}

/** Checks the options and settles what they leave open from the trace; `undefined` when too little moves to know the rate. */
export function planGrid(
  where: string,
  trace: Trace,
  options: GridOptions,
  method: "linear" | "monotone",
): (GridPlan & { readonly quantum: number }) | undefined {
  const { maxGap = DEFAULT_MAX_GAP, start = trace.t[0] ?? 0 } = options;
  if (options.sampleRateHz !== undefined) requireNumber(where, "options.sampleRateHz", options.sampleRateHz, 0, HIGHEST_RATE, true);
  if (options.nominalRateHz !== undefined) requireNumber(where, "options.nominalRateHz", options.nominalRateHz, 0, undefined, true);
  if (options.quantum !== undefined) requireNumber(where, "options.quantum", options.quantum, 0);
  requireNumber(where, "options.maxGap", maxGap, 0);
  requireNumber(where, "options.start", start);
  if (trace.t.length === 0) return undefined;
  const nominalHz = options.nominalRateHz ?? nominalRate(trace) ?? options.sampleRateHz;
  if (nominalHz === undefined) return undefined;
  const sampleRateHz = options.sampleRateHz ?? Math.min(nominalHz, HIGHEST_DEFAULT_RATE);
  const quantum = options.quantum ?? positionQuantum(trace) ?? 0;
  return { sampleRateHz, nominalHz, quantum, start, method, breaks: findGaps(trace, nominalHz, maxGap, quantum) };
}
