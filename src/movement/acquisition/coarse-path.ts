import type { UniformSegment } from "../../trace/uniform.js";
import { pointAt } from "./motion.js";

/** Path length grows with the sampling rate, because noise does; at this one paths of all devices can be compared, seconds. */
const STEP = 0.01;

/** A path as a polygon with the time of each vertex; `at[k]` is the index of the vertex at instant k. */
export interface CoarsePath {
  readonly t: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly at: readonly number[];
}

/** The path through ascending instants at 100 Hz, without the steps that stay within `quantum` of the last one that counted. */
export function coarsePath(segment: UniformSegment, instants: readonly number[], quantum: number): CoarsePath {
  const path: Polygon = { t: [], x: [], y: [] };
  const at: number[] = [];
  const first = instants[0]!;
  let k = 1;
  for (let i = 0; i < instants.length; i++) {
    const instant = instants[i]!;
    extend(path, segment, instant, Number.NEGATIVE_INFINITY);
    at.push(path.t.length - 1);
    const next = instants[i + 1] ?? instant;
    for (; first + k * STEP < next; k++) if (first + k * STEP > instant) extend(path, segment, first + k * STEP, quantum);
  }
  return { t: Float64Array.from(path.t), x: Float64Array.from(path.x), y: Float64Array.from(path.y), at };
}

interface Polygon {
  readonly t: number[];
  readonly x: number[];
  readonly y: number[];
}

/** Adds the position at `t` if it lies further than `beyond` from the last vertex; below 0 it is added wherever it lies. */
function extend({ t: times, x, y }: Polygon, segment: UniformSegment, t: number, beyond: number): void {
  const p = pointAt(segment, t);
  const dx = p.x - x[x.length - 1]!;
  const dy = p.y - y[y.length - 1]!;
  if (beyond >= 0 && dx * dx + dy * dy <= beyond * beyond) return;
  times.push(t);
  x.push(p.x);
  y.push(p.y);
}
