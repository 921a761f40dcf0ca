import { chartOf, followed } from "../report-data.js";

/** Following a moving target, frequency by frequency, as the report draws it. */
export function spec(): object {
  return chartOf({ pursuit: followed() });
}
