import type { Acquisition, Flag } from "../types.js";

/** Rows of each outcome. */
export type OutcomeCounts = Readonly<Record<Acquisition["outcome"], number>>;

/** Rows that carry each flag; flags nobody carries are absent. */
export type FlagCounts = Readonly<Partial<Record<Flag, number>>>;

/** Counts rows by outcome. */
export function countOutcomes(rows: readonly Acquisition[]): OutcomeCounts {
  const count = (outcome: Acquisition["outcome"]): number => rows.filter((row) => row.outcome === outcome).length;
  return {
    hit: count("hit"),
    miss: count("miss"),
    recovered: count("recovered"),
    timeout: count("timeout"),
    abandoned: count("abandoned"),
  };
}

/** Counts the rows that carry each flag. */
export function countFlags(rows: readonly Acquisition[]): FlagCounts {
  const counts: Partial<Record<Flag, number>> = {};
  for (const flag of rows.flatMap((row) => row.flags)) counts[flag] = (counts[flag] ?? 0) + 1;
  return counts;
}
