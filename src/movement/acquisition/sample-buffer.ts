import { firstAfter } from "../../math/first-after.js";
import type { Trace } from "../../trace/types.js";

/** Samples kept for acquisitions that are not final yet: appended at one end, forgotten at the other, no allocation per sample. */
export interface SampleBuffer {
  /** Appends the samples of a trace. */
  readonly append: (trace: Trace) => void;
  /** The same; an empty buffer reads them where they are until `keep`, so that most of a long trace is never copied. */
  readonly borrow: (trace: Trace) => void;
  /** Copies what is left of borrowed samples. */
  readonly keep: () => void;
  /** Forgets samples before the last one up to `t`, which tells where the pointer rested. */
  readonly forget: (t: number) => void;
  /** The samples in `[from, to]` with the one before, to be read before the next call that changes the buffer; with `held` the last one is repeated at `to`, where the pointer still was. */
  readonly between: (from: number, to: number, held?: boolean) => Trace;
  /** Time of the newest sample, `-Infinity` before the first. */
  readonly newest: () => number;
  /** How many samples are held. */
  readonly size: () => number;
}

/** The columns begin with this many entries. */
const LEAST = 1024;
/** Columns that would be filled by less than one entry in so many have become too long. */
const MUCH_TOO_LONG = 64;

/** An empty buffer. */
export function createSampleBuffer(): SampleBuffer {
  let t: Float64Array = new Float64Array(LEAST);
  let x: Float64Array = new Float64Array(LEAST);
  let y: Float64Array = new Float64Array(LEAST);
  let start = 0;
  let end = 0;
  let isBorrowed = false;

  const makeRoom = (count: number): void => {
    const held = end - start;
    const size = lengthFor(held + count, isBorrowed ? LEAST : t.length);
    const move = (column: Float64Array): Float64Array => {
      const moved = size === column.length && !isBorrowed ? column : new Float64Array(size);
      if (moved === column) column.copyWithin(0, start, end);
      else moved.set(column.subarray(start, end));
      return moved;
    };
    t = move(t);
    x = move(x);
    y = move(y);
    start = 0;
    end = held;
    isBorrowed = false;
  };
  const indexAfter = (time: number): number => start + firstAfter(t.subarray(start, end), time);

  const append = (trace: Trace): void => {
    if (isBorrowed || end + trace.t.length > t.length) makeRoom(trace.t.length);
    t.set(trace.t, end);
    x.set(trace.x, end);
    y.set(trace.y, end);
    end += trace.t.length;
  };

  return {
    append,
    borrow: (trace) => {
      if (end > start || trace.t.length <= t.length) {
        append(trace);
        return;
      }
      ({ t, x, y } = trace);
      start = 0;
      end = t.length;
      isBorrowed = true;
    },
    keep: () => {
      if (isBorrowed) makeRoom(0);
    },
    forget: (time) => {
      start = Math.max(start, indexAfter(time) - 1);
    },
    between: (from, to, held = false) => {
      const first = Math.max(start, indexAfter(from) - 1);
      const last = indexAfter(to);
      const extra = held && last > first && t[last - 1]! < to ? 1 : 0;
      const n = last - first;
      // one piece of memory: a piece costs more than filling it
      const memory = extra === 0 ? undefined : new Float64Array(3 * (n + 1));
      const piece = (column: Float64Array, place: number, heldValue: number): Float64Array => {
        const given = column.subarray(first, last);
        if (memory === undefined) return given;
        const longer = memory.subarray(place * (n + 1), (place + 1) * (n + 1));
        longer.set(given);
        longer[n] = heldValue;
        return longer;
      };
      return { t: piece(t, 0, to), x: piece(x, 1, x[last - 1]!), y: piece(y, 2, y[last - 1]!) };
    },
    newest: () => (end > start ? t[end - 1]! : Number.NEGATIVE_INFINITY),
    size: () => end - start,
  };
}

/**
 * How long the columns should be for `count` samples. Moving them to the front suffices unless they fill more than half: then the columns
 * double, or fit what is more than that: a whole recording at once is held once. After an acquisition of many minutes they shrink, or every long wait would cost its memory for good.
 */
function lengthFor(count: number, now: number): number {
  if (2 * count > now) return Math.max(2 * now, count);
  return MUCH_TOO_LONG * count < now ? Math.max(LEAST, 2 * count) : now;
}
