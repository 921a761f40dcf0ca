import { chartOf, recorded } from "../report-data.js";

/** Speed during one simulated acquisition, as the report draws it. */
export function spec(): object {
  const { recording, rows } = recorded({ seed: 8, movements: 12 });
  const row = rows.find(({ corrections, outcome }) => corrections.length === 2 && outcome === "hit") ?? rows[0]!;
  return chartOf({ profile: { recording, row } });
}
