import { firstAfter } from "../../math/first-after.js";
import type { Trace } from "../../trace/types.js";

/** Samples kept for acquisitions that are not final yet: appended at one end, forgotten at the other, no allocation per sample. */
export interface SampleBuffer {
  /** Columns of which the samples `start`..`end` (exclusive) are held. */
  t: Float64Array;
  x: Float64Array;
  y: Float64Array;
  start: number;
  end: number;
  /** Whether the columns are somebody else's: they are read and never written to. */
  isBorrowed: boolean;
}

/** The columns begin with this many entries. */
const LEAST = 1024;
/** Columns that would be filled by less than one entry in so many have become too long. */
const MUCH_TOO_LONG = 64;

/** An empty buffer. */
export function createSampleBuffer(): SampleBuffer {
  const [t, x, y] = [new Float64Array(LEAST), new Float64Array(LEAST), new Float64Array(LEAST)];
  return { t, x, y, start: 0, end: 0, isBorrowed: false };
}

/** How many samples are held. */
export function heldSamples({ start, end }: SampleBuffer): number {
  return end - start;
}

/** Time of the newest sample, `-Infinity` before the first. */
export function newestTime({ t, start, end }: SampleBuffer): number {
  return end > start ? t[end - 1]! : Number.NEGATIVE_INFINITY;
}

/** Appends the samples of a trace. */
export function appendSamples(buffer: SampleBuffer, { t, x, y }: Trace): void {
  if (buffer.isBorrowed || buffer.end + t.length > buffer.t.length) makeRoom(buffer, t.length);
  buffer.t.set(t, buffer.end);
  buffer.x.set(x, buffer.end);
  buffer.y.set(y, buffer.end);
  buffer.end += t.length;
}

/** The same; an empty buffer reads them where they are until `keepSamples`, so that most of a long trace is never copied. */
export function borrowSamples(buffer: SampleBuffer, trace: Trace): void {
  if (buffer.end > buffer.start || trace.t.length <= buffer.t.length) {
    appendSamples(buffer, trace);
    return;
  }
  const { t, x, y } = trace;
  Object.assign(buffer, { t, x, y, start: 0, end: t.length, isBorrowed: true });
}

/** Copies what is left of borrowed samples. */
export function keepSamples(buffer: SampleBuffer): void {
  if (buffer.isBorrowed) makeRoom(buffer, 0);
}

/** Forgets samples before the last one up to `time`, which tells where the pointer rested. */
export function forgetSamples(buffer: SampleBuffer, time: number): void {
  buffer.start = Math.max(buffer.start, indexAfter(buffer, time) - 1);
}

/**
 * The samples in `[from, to]` with the one before, to be read before the next call that changes the buffer; with `held` the last one is
 * repeated at `to`, where the pointer still was.
 */
export function samplesBetween(buffer: SampleBuffer, from: number, to: number, held = false): Trace {
  const { t, x, y } = buffer;
  const first = Math.max(buffer.start, indexAfter(buffer, from) - 1);
  const last = indexAfter(buffer, to);
  const given = { t: t.subarray(first, last), x: x.subarray(first, last), y: y.subarray(first, last) };
  return held && last > first && t[last - 1]! < to ? longer(given, to) : given;
}

/** A copy that ends with the last position once more. */
function longer({ t, x, y }: Trace, time: number): Trace {
  const n = t.length;
  // one piece of memory: a piece costs more than filling it
  const memory = new Float64Array(3 * (n + 1));
  memory.set(t);
  memory[n] = time;
  memory.set(x, n + 1);
  memory[2 * n + 1] = x[n - 1]!;
  memory.set(y, 2 * n + 2);
  memory[3 * n + 2] = y[n - 1]!;
  return { t: memory.subarray(0, n + 1), x: memory.subarray(n + 1, 2 * n + 2), y: memory.subarray(2 * n + 2) };
}

function indexAfter({ t, start, end }: SampleBuffer, time: number): number {
  return start + firstAfter(t.subarray(start, end), time);
}

function makeRoom(buffer: SampleBuffer, count: number): void {
  const { isBorrowed } = buffer;
  const held = heldSamples(buffer);
  const size = lengthFor(held + count, isBorrowed ? LEAST : buffer.t.length);
  buffer.t = moved(buffer.t, buffer, size);
  buffer.x = moved(buffer.x, buffer, size);
  buffer.y = moved(buffer.y, buffer, size);
  buffer.start = 0;
  buffer.end = held;
  buffer.isBorrowed = false;
}

/** The held samples of a column at the front of one of this size, which is the column itself where that may be. */
function moved(column: Float64Array, { start, end, isBorrowed }: SampleBuffer, size: number): Float64Array {
  if (size === column.length && !isBorrowed) return column.copyWithin(0, start, end);
  const other = new Float64Array(size);
  other.set(column.subarray(start, end));
  return other;
}

/**
 * How long the columns should be for `count` samples. Moving them to the front suffices unless they fill more than half: then the columns
 * double, or fit what is more than that: a whole recording at once is held once. After an acquisition of many minutes they shrink, or every long wait would cost its memory for good.
 */
function lengthFor(count: number, now: number): number {
  if (2 * count > now) return Math.max(2 * now, count);
  return MUCH_TOO_LONG * count < now ? Math.max(LEAST, 2 * count) : now;
}
