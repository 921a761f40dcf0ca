import { show } from "../../math/require.js";

/** Throws unless `value` lies above 0 and below 1. */
export function requireShare(where: string, name: string, value: number): void {
  if (typeof value !== "number") throw new TypeError(`${where}: ${name} must be a number, got ${show(value)}`);
  if (!(value > 0 && value < 1)) throw new RangeError(`${where}: ${name} must be above 0 and below 1, got ${value}`);
}
