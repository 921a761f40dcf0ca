import { requireNumber, requireObject, show } from "../../math/require.js";
import type { Equipment } from "../../trace/types.js";
import type { EquipmentField } from "../types.js";

/** Fields of a record, beside its name. */
export const FIELDS: readonly EquipmentField[] = [
  "refreshHz",
  "frameCapHz",
  "latency",
  "reportHz",
  "countsPerInch",
  "mmPerPx",
  "viewDistanceMm",
  "degPerCount",
  "fieldOfViewDeg",
];

/** Throws unless a record has a name and every number it gives is above 0 (a latency: at least 0). */
export function requireEquipment(where: string, name: string, equipment: Equipment): void {
  requireObject(where, name, equipment);
  if (typeof equipment.id !== "string") throw new TypeError(`${where}: ${name}.id must be a text, got ${show(equipment.id)}`);
  for (const field of FIELDS) {
    const value = equipment[field];
    if (value !== undefined) requireNumber(where, `${name}.${field}`, value, 0, undefined, field !== "latency");
  }
}
