import { meanAndSd } from "../../math/mean-and-sd.js";

/** One line of an analysis of variance; the mean square is the sum of squares over the degrees of freedom. */
export interface VarianceLine {
  readonly sumOfSquares: number;
  readonly df: number;
  readonly meanSquare: number;
}

/** People by sessions, without repeats. Within people, the differences between sessions common to all are split from the rest. */
export interface VarianceTable {
  readonly between: VarianceLine;
  /** `sessions` and `error` together. */
  readonly within: VarianceLine;
  readonly sessions: VarianceLine;
  readonly error: VarianceLine;
  /** F of the sessions against the error, and how often sessions without a common difference show as much; `null` where the error is 0. */
  readonly sessionTest: { readonly f: number; readonly p: number } | null;
}

/** Scores with what is common to people and to sessions taken out. */
export interface ScoreTable {
  readonly people: number;
  readonly sessions: number;
  readonly mean: number;
  /** Mean of each person and of each session. */
  readonly rowMeans: Float64Array;
  readonly columnMeans: Float64Array;
  /** Score less person's mean less session's mean plus the mean of all, person after person. */
  readonly residuals: Float64Array;
  /** Standard deviation of all scores (n - 1). */
  readonly sd: number;
}

export function scoreTable(scores: readonly ArrayLike<number>[]): ScoreTable {
  const people = scores.length;
  const sessions = scores[0]?.length ?? 0;
  const all = new Float64Array(people * sessions);
  for (const [i, row] of scores.entries()) all.set(Float64Array.from(row), i * sessions);
  const { mean, sd } = meanAndSd(all);
  const rowMeans = Float64Array.from(scores, (row) => meanAndSd(row).mean);
  const columnMeans = Float64Array.from({ length: sessions }, (_, j) => meanAndSd(Float64Array.from(scores, (row) => row[j]!)).mean);
  const residuals = all.map((score, at) => score - rowMeans[Math.floor(at / sessions)]! - (columnMeans[at % sessions]! - mean));
  return { people, sessions, mean, rowMeans, columnMeans, residuals, sd };
}
