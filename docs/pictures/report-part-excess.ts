import { chartOf, trainee } from "../report-data.js";

/** What each part costs a simulated trainee who corrects late, as the report draws it. */
export function spec(): object {
  return chartOf({ diagnosis: trainee().review.diagnosis });
}
