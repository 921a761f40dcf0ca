import type { UniformSegment } from "../../trace/uniform.js";
import { coarsePath } from "../acquisition/coarse-path.js";
import { valueAt } from "../bell/find-submovements.js";
import { pathLength } from "../path/path-length.js";
import type { Span } from "../tremor/hold-spans.js";

/** A step over the dead band that took longer began with a rest: it counts as this much, seconds. */
const LONGEST_STEP = 0.05;

/** How far the pointer went within a stretch of one segment, and for how long it moved. */
export function idlePath(
  { x, y, t0, sampleRateHz }: UniformSegment,
  { from, to }: Span,
  deadBand: number,
): { readonly pathLength: number; readonly movingTime: number } {
  const last = x.length - 1;
  const at = (t: number): { x: number; y: number } => {
    const index = Math.min(Math.max((t - t0) * sampleRateHz, 0), last);
    return { x: valueAt(x, index), y: valueAt(y, index) };
  };
  const path = coarsePath({ at }, [from, to], deadBand);
  let n = path.x.length;
  // the way to the end of the stretch is put in whatever its length
  if (pathLength(path.x, path.y, n - 2, n) <= deadBand) n--;
  let movingTime = 0;
  for (let i = 1; i < n; i++) movingTime += Math.min(path.t[i]! - path.t[i - 1]!, LONGEST_STEP);
  return { pathLength: pathLength(path.x, path.y, 0, n), movingTime };
}
