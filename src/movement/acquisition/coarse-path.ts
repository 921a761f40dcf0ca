import type { UniformSegment } from "../../trace/uniform.js";
import type { Point } from "./local-frame.js";
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
    addVertex(path, instant, pointAt(segment, instant));
    at.push(path.t.length - 1);
    const next = instants[i + 1] ?? instant;
    for (; first + k * STEP < next; k++) {
      const t = first + k * STEP;
      if (t <= instant) continue;
      const point = pointAt(segment, t);
      if (leaves(path, point, quantum)) addVertex(path, t, point);
    }
  }
  return { t: Float64Array.from(path.t), x: Float64Array.from(path.x), y: Float64Array.from(path.y), at };
}

interface Polygon {
  readonly t: number[];
  readonly x: number[];
  readonly y: number[];
}

function addVertex(path: Polygon, t: number, { x, y }: Point): void {
  path.t.push(t);
  path.x.push(x);
  path.y.push(y);
}

/** Whether a point lies further than `band` from the last vertex. */
function leaves({ x, y }: Polygon, point: Point, band: number): boolean {
  const dx = point.x - x[x.length - 1]!;
  const dy = point.y - y[y.length - 1]!;
  return dx * dx + dy * dy > band * band;
}
