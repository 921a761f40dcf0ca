import { requireNumber, requireObject, show } from "../../math/require.js";
import type { Acquisition, Budget } from "../../movement/types.js";

const BUDGET: readonly (keyof Budget)[] = ["latency", "primary", "correction", "clutch", "verification", "recovery"];

/** Throws unless `rows` are acquisitions with finite numbers where charts look. */
export function requireChartRows(where: string, name: string, rows: unknown): void {
  requireArray(where, name, rows);
  for (const [i, row] of (rows as readonly Acquisition[]).entries()) requireChartRow(where, `${name}[${i}]`, row);
}

/** Throws unless `row` is an acquisition with finite numbers where charts look. */
export function requireChartRow(where: string, name: string, row: Acquisition): void {
  requireObject(where, name, row);
  requireObject(where, `${name}.times`, row.times);
  requireObject(where, `${name}.budget`, row.budget);
  requireObject(where, `${name}.errors`, row.errors);
  requireArray(where, `${name}.flags`, row.flags);
  requireArray(where, `${name}.submovements`, row.submovements);
  requireNumber(where, `${name}.times.go`, row.times.go);
  requireNumber(where, `${name}.times.end`, row.times.end);
  requireNumber(where, `${name}.width`, row.width, 0, Number.POSITIVE_INFINITY, true);
  for (const part of BUDGET) requireNumber(where, `${name}.budget.${part}`, row.budget[part]);
  requireFinite(where, `${name}.times`, row.times);
  requireFinite(where, `${name}.errors`, row.errors);
  requireFinite(where, `${name}.submovements`, row.submovements);
}

/** Throws unless `piece` is an object with these fields, arrays or objects, and holds finite numbers only. */
export function requireResult(
  where: string,
  name: string,
  piece: unknown,
  fields: { readonly arrays: readonly string[]; readonly objects?: readonly string[] },
): void {
  requireObject(where, name, piece);
  const given = piece as Readonly<Record<string, unknown>>;
  for (const field of fields.arrays) requireArray(where, `${name}.${field}`, given[field]);
  for (const field of fields.objects ?? []) requireObject(where, `${name}.${field}`, given[field]);
  requireFinite(where, name, piece);
}

/** Throws unless `list` is an array. */
export function requireArray(where: string, name: string, list: unknown): void {
  if (!Array.isArray(list)) throw new TypeError(`${where}: ${name} must be an array, got ${show(list)}`);
}

/** Throws unless `text` is a text. */
export function requireText(where: string, name: string, text: unknown): void {
  if (typeof text !== "string") throw new TypeError(`${where}: ${name} must be a text, got ${show(text)}`);
}

/** Throws at the first number within `value` that is not finite, however deep. */
function requireFinite(where: string, name: string, value: unknown): void {
  if (typeof value === "number") requireNumber(where, name, value);
  if (value === null || typeof value !== "object") return;
  if (Array.isArray(value)) {
    for (let i = 0; i < value.length; i++) requireFinite(where, `${name}[${i}]`, value[i]);
  } else {
    for (const [key, inner] of Object.entries(value)) requireFinite(where, `${name}.${key}`, inner);
  }
}
