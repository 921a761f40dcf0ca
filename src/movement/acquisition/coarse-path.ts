import type { Motion } from "./motion.js";

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
export function coarsePath(motion: Pick<Motion, "at">, instants: readonly number[], quantum: number): CoarsePath {
  const times: number[] = [];
  const x: number[] = [];
  const y: number[] = [];
  const at: number[] = [];
  const put = (t: number, always: boolean): void => {
    const p = motion.at(t);
    const dx = p.x - x[x.length - 1]!;
    const dy = p.y - y[y.length - 1]!;
    if (!always && dx * dx + dy * dy <= quantum * quantum) return;
    times.push(t);
    x.push(p.x);
    y.push(p.y);
  };
  const first = instants[0]!;
  let k = 1;
  instants.forEach((instant, i) => {
    put(instant, true);
    at.push(x.length - 1);
    const next = instants[i + 1] ?? instant;
    for (; first + k * STEP < next; k++) if (first + k * STEP > instant) put(first + k * STEP, false);
  });
  return { t: Float64Array.from(times), x: Float64Array.from(x), y: Float64Array.from(y), at };
}
