import { chartOf, trainee } from "../report-data.js";

/** Time budget of simulated sessions, as the report draws it. */
export function spec(): object {
  const { sessions } = trainee();
  return chartOf({ timeBudget: sessions.slice(-6).map(({ startedAt, rows }) => ({ label: startedAt.slice(0, 10), rows })) });
}
