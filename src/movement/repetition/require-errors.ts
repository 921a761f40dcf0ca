import { show } from "../../math/require.js";

/** Errors as columns; 0 in both where the error is not known. Throws unless `list` holds finite numbers and `null` only. */
export function requireErrors(
  where: string,
  name: string,
  list: ArrayLike<number | null>,
): { readonly values: Float64Array; readonly known: Uint8Array } {
  if (!Array.isArray(list) && !(ArrayBuffer.isView(list) && !(list instanceof DataView))) {
    throw new TypeError(`${where}: ${name} must be a list of numbers (null where one is not known), got ${show(list)}`);
  }
  const values = new Float64Array(list.length);
  const known = new Uint8Array(list.length);
  for (let i = 0; i < list.length; i++) {
    const value: unknown = list[i];
    if (value === null) continue;
    if (typeof value !== "number") throw new TypeError(`${where}: ${name}[${i}] must be a number or null, got ${show(value)}`);
    if (!Number.isFinite(value)) throw new RangeError(`${where}: ${name}[${i}] must be finite (null where it is not known), got ${value}`);
    values[i] = value;
    known[i] = 1;
  }
  return { values, known };
}
