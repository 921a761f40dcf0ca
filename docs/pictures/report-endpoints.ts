import { chartOf, recorded } from "../report-data.js";

/** First presses about the target, as the report draws them. */
export function spec(): object {
  return chartOf({ endpoints: recorded({ seed: 9, movements: 200 }).rows });
}
