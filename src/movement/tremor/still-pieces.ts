import { lowpass } from "../../trace/lowpass.js";
import type { UniformSegment } from "../../trace/uniform.js";
import type { Span } from "./hold-spans.js";

/** A slow path is what is left below this: half the lowest frequency that counts as tremor and less, Hz. */
const SLOW_HZ = 3;

/** Positions of one hold on an even grid. */
export interface StillPiece {
  readonly from: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Pieces of the segments within the spans, at least `shortest` seconds long, in which the slow path moves no faster than `limit`. */
export function stillPieces(segments: readonly UniformSegment[], spans: readonly Span[], shortest: number, limit: number): StillPiece[] {
  return segments.flatMap((segment) => {
    const { x, y, t0, sampleRateHz } = segment;
    const least = Math.ceil(shortest * sampleRateHz);
    const slow = Number.isFinite(limit) && x.length > 2 ? slowSpeed(segment) : undefined;
    const pieces: StillPiece[] = [];
    for (const { from, to } of spans) {
      const end = Math.min(x.length, Math.floor((to - t0) * sampleRateHz) + 1);
      let start = Math.max(0, Math.ceil((from - t0) * sampleRateHz));
      for (let i = start; i <= end; i++) {
        if (i < end && !(slow !== undefined && slow[i]! > limit)) continue;
        if (i - start >= least) pieces.push({ from: t0 + start / sampleRateHz, x: x.subarray(start, i), y: y.subarray(start, i) });
        start = i + 1;
      }
    }
    return pieces;
  });
}

function slowSpeed({ x, y, sampleRateHz }: UniformSegment): Float64Array {
  const options = { sampleRateHz, cutoffHz: SLOW_HZ };
  const sx = lowpass(x, options);
  const sy = lowpass(y, options);
  const last = x.length - 1;
  return x.map((_, i) => {
    const a = Math.max(0, i - 1);
    const b = Math.min(last, i + 1);
    const dx = sx[b]! - sx[a]!;
    const dy = sy[b]! - sy[a]!;
    return (Math.sqrt(dx * dx + dy * dy) * sampleRateHz) / (b - a);
  });
}
