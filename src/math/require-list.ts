import { show } from "./require.js";

/** Throws unless `list` is an array or typed array of finite numbers. */
export function requireList(where: string, name: string, list: ArrayLike<number>): void {
  if (!Array.isArray(list) && !(ArrayBuffer.isView(list) && !(list instanceof DataView))) {
    throw new TypeError(`${where}: ${name} must be a list of numbers, got ${show(list)}`);
  }
  for (let i = 0; i < list.length; i++) {
    const value: unknown = list[i];
    if (typeof value !== "number") throw new TypeError(`${where}: ${name}[${i}] must be a number, got ${show(value)}`);
    if (!Number.isFinite(value)) throw new RangeError(`${where}: ${name}[${i}] must be finite, got ${value}`);
  }
}
