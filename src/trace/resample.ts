import { requireOneOf } from "../math/require.js";
import { evenSegments } from "./condition/even-grid.js";
import { toGaps } from "./condition/gaps.js";
import { planGrid } from "./condition/grid-plan.js";
import { requireTrace } from "./require-trace.js";
import type { Trace } from "./types.js";
import type { Gap, UniformSegment } from "./uniform.js";

/** Options of `resample`. */
export interface ResampleOptions {
  /** Rate of the grid, Hz, above 0 and at most 20000. Default: the nominal rate, at most 1000. Higher adds points, not information; lower loses fast detail. */
  readonly sampleRateHz?: number;
  /** How positions between samples are found. Default `"linear"`, which invents nothing; `"monotone"` is a smooth curve that keeps the shape, for differentiating. */
  readonly method?: "linear" | "monotone";
  /** Longest silence with a jump that is bridged, seconds. Default 0.05; never below 3 nominal intervals. Raised, lost samples are papered over by a line. */
  readonly maxGap?: number;
  /** Smallest change of position that the device can report, in the space's unit. Default: the smallest one in the trace. Raised, larger drifts count as rest. */
  readonly quantum?: number;
  /** A time on the grid, seconds; it fixes the phase, not the extent. Default: the first sample. */
  readonly start?: number;
  /** Rate of the recording, Hz, when known. Default: one over the median time step of the faster half of the motion. */
  readonly nominalRateHz?: number;
}

/** Positions on an even grid. */
export interface ResampledTrace {
  /** 0 when the rate was neither given nor could be told from the trace; `segments` is empty then. */
  readonly sampleRateHz: number;
  readonly segments: UniformSegment[];
  readonly gaps: Gap[];
}

/**
 * Puts a recording on an even time grid, without inventing movement where the device was silent.
 *
 * A silence is a gap when it lasts over 25 ms and over 3 nominal intervals. The pointer rested in it when its ends agree within one quantum in x
 * and in y, or when the jump is no more than a movement out of rest covers before its first report: the way of the next interval and one
 * quantum. The position is then kept until one nominal interval before the next sample. Otherwise, when the silence outlasts `maxGap`,
 * samples are missing: the grid is split and no value is given there. Shorter jumps are bridged. The grid has the points
 * start + k / rate that lie within the samples. Of samples with the same time the last counts. Cost O(samples + grid points).
 *
 * @param trace - times in seconds, not decreasing; positions in the space's unit
 * @param options - see `ResampleOptions`
 * @returns segments between missing stretches, and the gaps; no segments when fewer than two steps move and no rate is given
 * @throws TypeError or RangeError when the trace or an option is not as stated
 * @see linear: same results as NumPy's interp; monotone: as SciPy's PchipInterpolator (tested against both)
 * @example
 * ```ts
 * const trace = { t: Float64Array.of(0, 0.01, 0.02), x: Float64Array.of(0, 2, 6), y: Float64Array.of(0, 0, 0) };
 * resample(trace, { sampleRateHz: 200 }).segments[0]!.x; // => Float64Array [0.0, 1.0, 2.0, 4.0, 6.0]
 * ```
 */
export function resample(trace: Trace, options: ResampleOptions = {}): ResampledTrace {
  const { method = "linear" } = options;
  requireTrace("resample", "trace", trace);
  requireOneOf("resample", "options.method", method, ["linear", "monotone"]);
  const plan = planGrid("resample", trace, options, method);
  if (plan === undefined) return { sampleRateHz: options.sampleRateHz ?? 0, segments: [], gaps: [] };
  return { sampleRateHz: plan.sampleRateHz, segments: evenSegments("resample", trace, plan), gaps: toGaps(plan.breaks) };
}
