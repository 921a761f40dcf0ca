import { requireNumber, show } from "../math/require.js";

/** Throws unless `range` is a lowest value from `low` up (above it when `open`) and a highest not below it. */
export function requireRange(where: string, name: string, range: readonly [number, number], low: number, open = false): void {
  if (!Array.isArray(range) || range.length !== 2) {
    throw new TypeError(`${where}: ${name} must be an array of lowest and highest, got ${show(range)}`);
  }
  requireNumber(where, `${name}[0]`, range[0], low, undefined, open);
  requireNumber(where, `${name}[1]`, range[1], range[0]);
}
