import { chartOf, trainee } from "../report-data.js";

/** Changes between two periods of a simulated trainee, as the report draws them. */
export function spec(): object {
  return chartOf({ comparison: trainee().review.comparison! });
}
