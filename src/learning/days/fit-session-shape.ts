import { type SeparableResult, separableLeastSquares } from "../../math/separable-least-squares.js";
import type { TrialRange } from "./group-trials.js";

/** A warm-up counts as over when this share of it is left. */
const LEFT = 1 / 20;
/** The shortest warm-up that is told from one bad first trial, in trials. */
const SHORTEST = 2;
/** The longest as a share of the longest session: beyond it a warm-up and a slope after it look alike. */
const LONGEST = 2 / 3;
/** A rate this near to an end of its range, as a share of its logarithmic width, has run into it. */
const AT_END = 1e-3;

/** Trials until a twentieth of the warm-up is left: ln(20)/rate. */
export function warmUpLength(rate: number): number {
  return -Math.log(LEFT) / rate;
}

/** What all sessions have in common: y of trial k (from 0) = level of the session + size exp(-rate k) + slope k. */
export interface SessionShape {
  readonly size: number;
  readonly slope: number;
  readonly rate: number;
  /** Whether the rate lies inside its range: a warm-up of two trials up to two thirds of the longest session. */
  readonly rateInside: boolean;
  /** Level of each session at its first trial, without the warm-up. */
  readonly levels: Float64Array;
  /** What is left of each trial. */
  readonly residuals: Float64Array;
}

/**
 * Least squares for the shape shared by the sessions, each with its own level. Levels drop out by centring within sessions, size and
 * slope are solved for, and the search runs over the rate alone, from three starts.
 */
export function fitSessionShape(y: Float64Array, sessions: readonly TrialRange[]): SessionShape {
  const n = y.length;
  const longest = sessions.reduce((most, { from, to }) => Math.max(most, to - from), 0);
  const low = -Math.log(LEFT) / (LONGEST * longest);
  const high = -Math.log(LEFT) / SHORTEST;
  const data = centred(y.slice(), sessions);
  const searchFrom = (rate: number): SeparableResult =>
    separableLeastSquares({
      start: [Math.log(rate)],
      lower: [Math.log(low)],
      upper: [Math.log(high)],
      data: [data],
      columns: 2,
      columnOf: [0],
      fill: ([logRate], [decay, count]) => {
        const rate = Math.exp(logRate!);
        fillTrials(sessions, decay!, (k) => Math.exp(-rate * k));
        fillTrials(sessions, count!, (k) => k);
      },
      differentiate: ([logRate], [derivative]) => {
        const rate = Math.exp(logRate!);
        fillTrials(sessions, derivative!, (k) => -rate * k * Math.exp(-rate * k));
      },
    });
  const width = Math.log(high / low);
  const found = [1 / 6, 1 / 2, 5 / 6].map((share) => searchFrom(low * Math.exp(share * width)));
  const best = found.reduce((a, b) => (b.residualSum < a.residualSum ? b : a));
  const rate = Math.exp(best.parameters[0]!);
  const size = best.coefficients[0]![0]!;
  const slope = best.coefficients[0]![1]!;
  const residuals = new Float64Array(n);
  const levels = Float64Array.from(sessions, ({ from, to }) => {
    let sum = 0;
    for (let i = from; i < to; i++) {
      residuals[i] = y[i]! - size * Math.exp(-rate * (i - from)) - slope * (i - from);
      sum += residuals[i]!;
    }
    const level = sum / (to - from);
    for (let i = from; i < to; i++) residuals[i]! -= level;
    return level;
  });
  const position = Math.log(rate / low) / width;
  return { size, slope, rate, rateInside: position > AT_END && position < 1 - AT_END, levels, residuals };
}

/** Fills a column with a function of the trial's place in its session, from 0, less the session's mean. */
export function fillTrials(sessions: readonly TrialRange[], column: Float64Array, at: (k: number) => number): void {
  for (const { from, to } of sessions) for (let i = from; i < to; i++) column[i] = at(i - from);
  centred(column, sessions);
}

function centred(column: Float64Array, sessions: readonly TrialRange[]): Float64Array {
  for (const { from, to } of sessions) {
    const first = column[from]!;
    let sum = 0;
    for (let i = from; i < to; i++) sum += column[i]! - first;
    const mean = first + sum / (to - from);
    for (let i = from; i < to; i++) column[i]! -= mean;
  }
  return column;
}
