import { BLOCK } from "./block.js";
import { type Section, settledState } from "./butterworth.js";

type FourColumns = [Float64Array, Float64Array, Float64Array, Float64Array];

/** What a section remembers of two columns: two numbers of each. */
export type PairState = Float64Array;

/**
 * Runs one section forward and back over two columns at once, in place, as if both were extended by `padding` samples of odd reflection at each
 * end. Two columns in one loop let the processor work on one while it waits for the other, and only the extensions take memory of their own.
 */
export function filterPair(x: Float64Array, y: Float64Array, section: Section, padding: number): void {
  const state = filterForth(x, y, section, padding);
  for (let to = x.length; to > 0; to -= BLOCK) runPair(x, y, to - 1, Math.max(0, to - BLOCK) - 1, -1, section, state);
}

/** The way forth alone; returns the state in which the way back begins with the last sample. */
export function filterForth(x: Float64Array, y: Float64Array, section: Section, padding: number): PairState {
  const n = x.length;
  // the far ends are read before the columns are overwritten; one piece of memory, since a piece costs more than what is computed in it
  const memory = new Float64Array(4 * padding);
  const [beforeX, beforeY, afterX, afterY] = [0, 1, 2, 3].map((k) => memory.subarray(k * padding, (k + 1) * padding)) as FourColumns;
  reflect(x, 0, beforeX);
  reflect(y, 0, beforeY);
  reflect(x, n - 1, afterX);
  reflect(y, n - 1, afterY);
  const state = new Float64Array(4);
  settle(state, section, beforeX[padding - 1] ?? x[0]!, beforeY[padding - 1] ?? y[0]!);
  runPair(beforeX, beforeY, padding - 1, -1, -1, section, state);
  for (let from = 0; from < n; from += BLOCK) runPair(x, y, from, Math.min(n, from + BLOCK), 1, section, state);
  runPair(afterX, afterY, 0, padding, 1, section, state);
  settle(state, section, afterX[padding - 1] ?? x[n - 1]!, afterY[padding - 1] ?? y[n - 1]!);
  runPair(afterX, afterY, padding - 1, -1, -1, section, state);
  return state;
}

/** Fills `extension` with the neighbours of the first or the last sample turned about it, the nearest first. */
function reflect(series: Float64Array, end: number, extension: Float64Array): void {
  const inward = end === 0 ? 1 : -1;
  for (let i = 0; i < extension.length; i++) extension[i] = 2 * series[end]! - series[end + inward * (i + 1)]!;
}

/** The state of both columns after an endless run of one value each. */
function settle(state: PairState, section: Section, x: number, y: number): void {
  const [first, second] = settledState(section);
  state[0] = first * x;
  state[1] = second * x;
  state[2] = first * y;
  state[3] = second * y;
}

/** Runs the section from sample `from` in steps of 1 or -1 to the one before `to`. */
export function runPair(
  x: Float64Array,
  y: Float64Array,
  from: number,
  to: number,
  step: 1 | -1,
  section: Section,
  state: PairState,
): void {
  const { b0, b1, b2, a1, a2 } = section;
  // the output put into the state update: a shorter way from one state to the next
  const c1 = b1 - a1 * b0;
  const c2 = b2 - a2 * b0;
  let p1 = state[0]!;
  let p2 = state[1]!;
  let q1 = state[2]!;
  let q2 = state[3]!;
  for (let i = from; i !== to; i += step) {
    const u = x[i]!;
    const v = y[i]!;
    x[i] = b0 * u + p1;
    y[i] = b0 * v + q1;
    const p = c1 * u + p2 - a1 * p1;
    const q = c1 * v + q2 - a1 * q1;
    p2 = c2 * u - a2 * p1;
    q2 = c2 * v - a2 * q1;
    p1 = p;
    q1 = q;
  }
  state[0] = p1;
  state[1] = p2;
  state[2] = q1;
  state[3] = q2;
}
