import { chartOf, trainee } from "../report-data.js";

/** One day of practice for a simulated trainee, as the report draws it. */
export function spec(): object {
  return chartOf({ plan: trainee().review.plan });
}
