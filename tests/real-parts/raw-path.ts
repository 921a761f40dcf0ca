// The library's path kernels on the samples as recorded, about the axis that the reference takes: from the first sample to the last.
import { deviations } from "../../src/movement/path/deviations.js";
import { pathLength } from "../../src/movement/path/path-length.js";
import type { Recording, Trial } from "../../src/trace/types.js";

/** A trial's path by the definitions of the reference. */
export interface RawPath {
  readonly pathLength: number;
  readonly efficiency: number;
  readonly largestDeviation: number;
}

/** The path of one trial. */
export function rawPath({ trace }: Recording, { tStart, tEnd }: Trial): RawPath {
  const start = trace.t.findIndex((t) => t >= tStart);
  const after = trace.t.findIndex((t) => t > tEnd!);
  const end = after < 0 ? trace.t.length : after;
  const x = trace.x.slice(start, end).map((value) => value - trace.x[start]!);
  const y = trace.y.slice(start, end).map((value) => value - trace.y[start]!);
  const straight = Math.hypot(x[x.length - 1]!, y[y.length - 1]!);
  const length = pathLength(x, y, 0, x.length);
  const axis = { ux: x[x.length - 1]! / straight, uy: y[y.length - 1]! / straight };
  return { pathLength: length, efficiency: straight / length, largestDeviation: deviations(x, y, axis).largestDeviation };
}
