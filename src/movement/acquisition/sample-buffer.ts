import type { Trace } from "../../trace/types.js";
import { firstAfter } from "./target-position.js";

/** Samples kept for acquisitions that are not final yet: appended at one end, forgotten at the other, no allocation per sample. */
export interface SampleBuffer {
  /** Appends the samples of a trace. */
  readonly append: (trace: Trace) => void;
  /** Forgets samples before `t`, except the last of them, which tells where the pointer rested. */
  readonly forget: (t: number) => void;
  /** The samples in `[from, to]` with the one before, as columns of their own; with `held` the last one is repeated at `to`, where the pointer still was. */
  readonly between: (from: number, to: number, held?: boolean) => Trace;
  /** Time of the newest sample, `-Infinity` before the first. */
  readonly newest: () => number;
  /** How many samples are held. */
  readonly size: () => number;
}

/** An empty buffer. */
export function createSampleBuffer(): SampleBuffer {
  let t = new Float64Array(1024);
  let x = new Float64Array(1024);
  let y = new Float64Array(1024);
  let start = 0;
  let end = 0;

  const makeRoom = (count: number): void => {
    if (end + count <= t.length) return;
    const held = end - start;
    // moving the held samples to the front suffices unless they fill more than half: then the columns double
    const size = 2 * (held + count) > t.length ? 2 * (t.length + count) : t.length;
    const move = (column: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> => {
      const moved = size === column.length ? column : new Float64Array(size);
      if (moved === column) column.copyWithin(0, start, end);
      else moved.set(column.subarray(start, end));
      return moved;
    };
    t = move(t);
    x = move(x);
    y = move(y);
    start = 0;
    end = held;
  };
  const indexAfter = (time: number): number => start + firstAfter(t.subarray(start, end), time);

  return {
    append: (trace) => {
      makeRoom(trace.t.length);
      t.set(trace.t, end);
      x.set(trace.x, end);
      y.set(trace.y, end);
      end += trace.t.length;
    },
    forget: (time) => {
      while (start + 1 < end && t[start + 1]! < time) start++;
    },
    between: (from, to, held = false) => {
      const first = Math.max(start, indexAfter(from) - 1);
      const last = indexAfter(to);
      const extra = held && last > first && t[last - 1]! < to ? 1 : 0;
      const copy = (column: Float64Array, end: number): Float64Array => {
        const piece = new Float64Array(last - first + extra);
        piece.set(column.subarray(first, last));
        if (extra === 1) piece[last - first] = end;
        return piece;
      };
      return { t: copy(t, to), x: copy(x, x[last - 1]!), y: copy(y, y[last - 1]!) };
    },
    newest: () => (end > start ? t[end - 1]! : Number.NEGATIVE_INFINITY),
    size: () => end - start,
  };
}
