import { fTail } from "../../math/f-distribution.js";
import type { ScoreTable, VarianceLine, VarianceTable } from "./score-table.js";

/** A sum of squares this small beside the squares of all scores is rounding. */
const ROUNDING = 1e-24;

/** Two-way analysis of variance of at least two people in at least two sessions. */
export function varianceTable({ people, sessions, mean, sd, rowMeans, columnMeans, residuals }: ScoreTable): VarianceTable {
  // what rounding of the scores themselves can leave
  const floor = ROUNDING * (people * sessions * (mean * mean + sd * sd));
  const line = (sum: number, df: number): VarianceLine => {
    const sumOfSquares = sum > floor ? sum : 0;
    return { sumOfSquares, df, meanSquare: sumOfSquares / df };
  };
  const between = line(sessions * squaresAbout(rowMeans, mean), people - 1);
  const common = line(people * squaresAbout(columnMeans, mean), sessions - 1);
  const error = line(squaresAbout(residuals, 0), (people - 1) * (sessions - 1));
  const within = line(common.sumOfSquares + error.sumOfSquares, people * (sessions - 1));
  const f = common.meanSquare / error.meanSquare;
  return { between, within, sessions: common, error, sessionTest: error.meanSquare > 0 ? { f, p: fTail(f, common.df, error.df) } : null };
}

function squaresAbout(values: Float64Array, centre: number): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += (values[i]! - centre) ** 2;
  return sum;
}
