import type { UniformSegment } from "../../trace/uniform.js";
import { coarsePath } from "../acquisition/coarse-path.js";
import { pathLength } from "../path/path-length.js";
import type { Span } from "../tremor/hold-spans.js";

/** A step over the dead band that took longer began with a rest: it counts as this much, seconds. */
const LONGEST_STEP = 0.05;

/** How far the pointer went within a stretch of one segment, and for how long it moved. */
export function idlePath(
  segment: UniformSegment,
  { from, to }: Span,
  deadBand: number,
): { readonly pathLength: number; readonly movingTime: number } {
  const path = coarsePath(segment, [from, to], deadBand);
  let n = path.x.length;
  // the way to the end of the stretch is put in whatever its length
  if (pathLength(path.x, path.y, n - 2, n) <= deadBand) n--;
  let movingTime = 0;
  for (let i = 1; i < n; i++) movingTime += Math.min(path.t[i]! - path.t[i - 1]!, LONGEST_STEP);
  return { pathLength: pathLength(path.x, path.y, 0, n), movingTime };
}
