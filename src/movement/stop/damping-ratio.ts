import { swings } from "./swings.js";

/**
 * Damping ratio of a position that swings about `final`, as that of the second-order step whose swings shrink alike: d / sqrt(pi^2 + d^2), d the logarithm of the
 * ratio of successive swings on opposite sides, taken from the first to the last of them. 1 would be no swing at all, 0 swings for ever. `undefined` with fewer than
 * two swings of more than `least` among the samples `[start, end)`, or when they do not shrink.
 */
export function dampingRatio(position: Float64Array, start: number, end: number, final: number, least: number): number | undefined {
  const found = swings(position, start, end, final, least);
  if (found.length < 2) return undefined;
  const decrement = Math.log(Math.abs(found[0]!.height / found.at(-1)!.height)) / (found.length - 1);
  return decrement > 0 ? decrement / Math.sqrt(Math.PI * Math.PI + decrement * decrement) : undefined;
}
