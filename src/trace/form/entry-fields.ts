import type { Equipment, Mark, Press, Target, Trial } from "../types.js";
import type { Raw } from "./problem.js";

/** The schema of the files that are read and written. */
export const SCHEMA = 1;

/** All fields of a type, in the order they are written; a field that is missing here does not compile. */
const fieldsOf = <T>(fields: { readonly [K in keyof Required<T>]: true }): readonly (keyof T & string)[] => Object.keys(fields) as never;

export const PRESS_FIELDS: readonly (keyof Press)[] = fieldsOf<Press>({
  t: true,
  tUp: true,
  by: true,
  code: true,
  x: true,
  y: true,
  credited: true,
});
export const TARGET_FIELDS: readonly (keyof Target)[] = fieldsOf<Target>({
  id: true,
  tShown: true,
  tGone: true,
  shape: true,
  at: true,
  role: true,
});
export const TRIAL_FIELDS: readonly (keyof Trial)[] = fieldsOf<Trial>({
  id: true,
  kind: true,
  tStart: true,
  tEnd: true,
  goals: true,
  block: true,
  condition: true,
});
export const MARK_FIELDS: readonly (keyof Mark)[] = fieldsOf<Mark>({ t: true, tEnd: true, kind: true });
export const EQUIPMENT_FIELDS: readonly (keyof Equipment)[] = fieldsOf<Equipment>({
  id: true,
  refreshHz: true,
  frameCapHz: true,
  latency: true,
  reportHz: true,
  countsPerInch: true,
  mmPerPx: true,
  viewDistanceMm: true,
  degPerCount: true,
  fieldOfViewDeg: true,
});

/** The named fields that are there, in this order. Only for entries that passed their check. */
export function pick<T>(raw: Raw, fields: readonly (keyof T & string)[]): T {
  const entry: Raw = {};
  for (const key of fields) if (raw[key] !== undefined) entry[key] = raw[key];
  return entry as unknown as T;
}
