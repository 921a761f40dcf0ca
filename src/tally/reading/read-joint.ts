import type { Estimate } from "../../math/estimate.js";
import { sumOfDeviations } from "../../math/sum-of-deviations.js";
import type { TallyMeasure } from "../measures/measures.js";
import type { JointReading, JointTally } from "../types.js";

/** Covariances and correlations of the rows that have all measures. */
export function readJoint({ n, sums, sumsOfProducts }: JointTally, measures: readonly TallyMeasure[]): JointReading {
  const deviations = measures.map((_, i) =>
    measures.map((_, j) => sumOfDeviations(n, sums[i]!, sums[j]!, sumsOfProducts[place(Math.max(i, j), Math.min(i, j))]!)),
  );
  return {
    measures,
    n,
    covariance: deviations.map((row) => row.map((value) => (n < 2 ? null : value / (n - 1) + 0))),
    correlation: deviations.map((row, i) => row.map((value, j) => correlation(n, value, deviations[i]![i]!, deviations[j]![j]!))),
  };
}

/** Where the lower triangle, row by row, holds the product of measure `i` with `j`, j <= i. */
function place(i: number, j: number): number {
  return (i * (i + 1)) / 2 + j;
}

function correlation(n: number, products: number, squaresX: number, squaresY: number): Estimate {
  // two rows always lie on a line
  if (n < 3) return { ok: false, why: "tooFew", unit: "1", n };
  if (squaresX === 0 || squaresY === 0) return { ok: false, why: "noSpread", unit: "1", n };
  // of a measure with itself, where two roots would leave a digit
  if (products === squaresX && products === squaresY) return { ok: true, value: 1, unit: "1", n };
  const value = products / Math.sqrt(squaresX) / Math.sqrt(squaresY) + 0;
  return { ok: true, value: Math.min(1, Math.max(-1, value)), unit: "1", n };
}
