import type { Estimate, IntervalCoverage } from "./estimate.js";

/** Measured coverage of one kind of interval at sizes in ascending order: n, then normal, skewed and heavy-tailed scatter. */
export type CoverageTable = readonly (readonly [n: number, normal: number, skewed: number, heavyTailed: number])[];

/** Below this an interval named 95 % says so. */
const LOW = 0.9;

/** The estimate, with the coverage measured at the largest size up to `size` (else the smallest) where that falls below 90 % for one of the shapes. */
export function withCoverage(estimate: Estimate, table: CoverageTable, size: number = estimate.n): Estimate {
  // a level stands beside an interval only
  if (!estimate.ok || estimate.level !== 0.95) return estimate;
  const [n, normal, skewed, heavyTailed] = table.filter(([least]) => least <= size).at(-1) ?? table[0]!;
  if (Math.min(normal, skewed, heavyTailed) >= LOW) return estimate;
  const coverage: IntervalCoverage = { n, normal, skewed, heavyTailed };
  return { ...estimate, coverage };
}
