import { linearRegression } from "../../math/linear-regression.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { Acquisition } from "../../movement/types.js";

/** Fewer acquisitions than this say too little of how time grows. */
const FEWEST = 20;

/** Movement time as intercept + slope log2(A/W + 1): seconds, and seconds per bit. */
export interface TimeLaw {
  readonly intercept: number;
  readonly slope: number;
  /** `"given"` by the caller, or fitted to the `"rows"`, from go to first press. */
  readonly source: "given" | "rows";
}

/** Difficulty of a step, bits (Shannon's form). */
export function bitsOf(amplitude: number, width: number): number {
  return Math.log2(amplitude / width + 1);
}

/** The law of the rows; `null` from fewer than 20, or when their slope is not above 0 beyond chance (95 %, one-sided). */
export function timeLawOf(rows: readonly Acquisition[]): TimeLaw | null {
  const usable = rows.filter(({ times, amplitude, width }) => times.press !== undefined && amplitude !== undefined && width > 0);
  if (usable.length < FEWEST) return null;
  const bits = usable.map(({ amplitude, width }) => bitsOf(amplitude!, width));
  const fit = linearRegression(
    [bits],
    usable.map(({ times }) => times.press! - times.go),
  );
  if (fit === undefined) return null;
  const [intercept, slope] = fit.coefficients as [number, number];
  if (!(slope > studentQuantile(0.95, fit.df) * fit.standardErrors[1]!)) return null;
  return { intercept, slope, source: "rows" };
}
