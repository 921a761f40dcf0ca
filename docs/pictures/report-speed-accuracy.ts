import { chartOf, paced } from "../report-data.js";

/** Hits against movement time at three deliberate paces, as the report draws them. */
export function spec(): object {
  return chartOf({ speedAccuracy: paced() });
}
