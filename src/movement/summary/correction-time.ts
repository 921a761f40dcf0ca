import { coefficientEstimate } from "../../math/coefficient-estimate.js";
import type { Estimate } from "../../math/estimate.js";
import { linearRegression } from "../../math/linear-regression.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { sdEstimate } from "../../math/sd-estimate.js";
import type { Acquisition } from "../types.js";

/** Fewer rows than this do not tell a slope. */
const LEAST_ROWS = 10;

/** Correction time as intercept + slope log2(error / width + 1): seconds, and seconds per bit. */
export interface CorrectionTimeLaw {
  /** Seconds. */
  readonly intercept: number;
  /** Seconds per bit. */
  readonly slope: number;
}

/** Correction time against what there was to correct, over the acquisitions whose primary ended off the target. */
export interface CorrectionTime {
  /** Mean seconds from the primary's end to the stop. */
  readonly mean: Estimate;
  /** Mean of log2(error / width + 1), bits: how much the primary left to do. */
  readonly difficulty: Estimate;
  /** Least squares on that difficulty: together the skill of correcting, freed of how much there was to correct. */
  readonly intercept: Estimate;
  readonly slope: Estimate;
  /** Standard deviation about that line, seconds. */
  readonly residualSd: Estimate;
  /** Mean time beyond `options.correctionTimeLaw`, seconds; absent when no law was given. */
  readonly excess?: Estimate;
}

/** Fits correction time on the size of the primary's error, and sets it against a law from elsewhere (an earlier period, a group). */
export function correctionTime(moved: readonly Acquisition[], level: number, law: CorrectionTimeLaw | undefined): CorrectionTime {
  const rows = moved.flatMap((row) => {
    const { primary } = row.errors;
    if (primary === undefined || primary.inside || row.width === 0) return [];
    return [{ time: row.budget.correction, bits: Math.log2(primary.radial / row.width + 1) }];
  });
  const times = rows.map((row) => row.time);
  const bits = rows.map((row) => row.bits);
  const n = rows.length;
  const fit = n < LEAST_ROWS ? undefined : linearRegression([bits], times);
  const missing = (unit: string): Estimate => ({ ok: false, why: n < LEAST_ROWS ? "tooFew" : "noSpread", unit, n });
  const coefficient = (j: 0 | 1, unit: string): Estimate =>
    fit === undefined ? missing(unit) : coefficientEstimate(fit, j, n, unit, level);
  return {
    mean: meanEstimate(times, "s", level),
    difficulty: meanEstimate(bits, "bit", level),
    intercept: coefficient(0, "s"),
    slope: coefficient(1, "s/bit"),
    residualSd: fit === undefined ? missing("s") : sdEstimate(fit.residuals, "s", level),
    ...(law !== undefined && {
      excess: meanEstimate(
        rows.map((row) => row.time - law.intercept - law.slope * row.bits),
        "s",
        level,
      ),
    }),
  };
}
