import type { Trace } from "../types.js";

/** A change below this share of the mean change is rounding dust of the arithmetic, not a step of the device. */
const DUST = 1e-6;

/** The smallest change of `x` or `y` between neighbouring samples, in the space's unit; `undefined` when nothing moves. */
export function positionQuantum(trace: Trace): number | undefined {
  const { x, y } = trace;
  let total = 0;
  let count = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < x.length; i++) {
    const dx = Math.abs(x[i]! - x[i - 1]!);
    const dy = Math.abs(y[i]! - y[i - 1]!);
    total += dx + dy;
    if (dx > 0) {
      count++;
      if (dx < least) least = dx;
    }
    if (dy > 0) {
      count++;
      if (dy < least) least = dy;
    }
  }
  if (count === 0) return undefined;
  const floor = (DUST * total) / count;
  return least >= floor ? least : leastAbove(x, y, floor);
}

function leastAbove(x: Float64Array, y: Float64Array, floor: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < x.length; i++) {
    const dx = Math.abs(x[i]! - x[i - 1]!);
    const dy = Math.abs(y[i]! - y[i - 1]!);
    if (dx >= floor && dx < least) least = dx;
    if (dy >= floor && dy < least) least = dy;
  }
  return least;
}
