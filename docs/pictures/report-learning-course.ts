import { chartOf, trainee } from "../report-data.js";

/** Response latency over simulated sessions, as the report draws it. */
export function spec(): object {
  return chartOf({ courses: trainee().review.courses.filter(({ measure }) => measure === "latency") });
}
