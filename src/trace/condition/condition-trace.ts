import { requireNumber } from "../../math/require.js";
import { requireTrace } from "../require-trace.js";
import type { Trace } from "../types.js";
import type { Gap, UniformSegment } from "../uniform.js";
import { butterworthSections, DEFAULT_CUTOFF, MEMORY_PERIODS, type Section, warpedCutoff } from "./butterworth.js";
import { evenSegments } from "./even-grid.js";
import { toGaps } from "./gaps.js";
import { type GridOptions, planGrid } from "./grid-plan.js";

/** The filter needs room below half the sampling rate. */
const LEAST_RATE_PER_CUTOFF = 2.5;

/** A recording on an even grid, each segment as its caller finished it. */
export interface Conditioned<Segment> {
  readonly status: "ok" | "belowResolution" | "tooFew";
  readonly sampleRateHz: number;
  readonly nominalRateHz: number;
  readonly cutoffHz: number;
  readonly quantum: number;
  readonly segments: Segment[];
  readonly gaps: Gap[];
}

/**
 * The way from samples to an even grid ready for the filter; `finish` filters a segment in place with the section and padding it is given and
 * makes of it what the caller needs.
 */
export function conditionTrace<Segment>(
  where: string,
  trace: Trace,
  options: GridOptions & { readonly cutoffHz?: number },
  finish: (even: UniformSegment, section: Section, padding: number) => Segment,
): Conditioned<Segment> {
  const { cutoffHz = DEFAULT_CUTOFF } = options;
  requireTrace(where, "trace", trace);
  requireNumber(where, "options.cutoffHz", cutoffHz, 0, undefined, true);
  const plan = planGrid(where, trace, options, "linear");
  if (plan === undefined) {
    const rates = { sampleRateHz: options.sampleRateHz ?? 0, nominalRateHz: options.nominalRateHz ?? 0 };
    return { status: "tooFew", ...rates, cutoffHz, quantum: options.quantum ?? 0, segments: [], gaps: [] };
  }
  const { sampleRateHz, nominalHz, quantum } = plan;
  const gaps = toGaps(plan.breaks);
  const rates = { sampleRateHz, nominalRateHz: nominalHz };
  if (Math.min(sampleRateHz, nominalHz) < LEAST_RATE_PER_CUTOFF * cutoffHz) {
    return { status: "belowResolution", ...rates, cutoffHz, quantum, segments: [], gaps };
  }
  const section = butterworthSections(2, warpedCutoff(cutoffHz, sampleRateHz, 2, 2))[0]!;
  const padding = Math.ceil((MEMORY_PERIODS * sampleRateHz) / cutoffHz);
  const segments: Segment[] = [];
  for (const even of evenSegments(where, trace, plan)) {
    const n = even.x.length;
    if (n < 2) continue;
    segments.push(finish(even, section, Math.min(padding, n - 1)));
  }
  const status = segments.length === 0 ? "tooFew" : "ok";
  return { status, ...rates, cutoffHz, quantum, segments, gaps };
}
