import type { Space } from "../../trace/types.js";

/** A space in a message; two are alike when their names are. */
export function spaceName({ kind, unit }: Space): string {
  return `${kind} in ${unit}`;
}
