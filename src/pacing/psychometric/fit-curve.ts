import type { LevelCounts } from "./level-counts.js";
import { type BinomialProblem, type Curve, type FittedCurve, maximize } from "./maximize.js";
import type { StandardShape } from "./shapes.js";

/** A slope that crosses the transition within this share of the narrowest gap between levels is a step: steeper ones give the same shares. */
const STEP_SHARE = 1 / 200;
/** A level whose share F lies nearer than this to 0 or 1 tells nothing of the slope. */
const SATURATED = 1e-5;
/** Shares of hits that the first look takes no nearer to 0 or 1 than this. */
const START_EDGE = 0.02;

/** What is asked of the fit: shape, guess rate, the lapses and the spreads allowed. */
export interface CurveModel {
  readonly shape: StandardShape;
  readonly guess: number;
  readonly lapses: readonly [number, number];
  /** Absent: any spread. */
  readonly spreads?: readonly [number, number];
}

/** The problem of these counts, the centre at the mean level. */
export function problemOf(counts: LevelCounts, { shape, guess, lapses, spreads }: CurveModel): BinomialProblem {
  const { at, trials } = counts;
  let [sum, n, gap] = [0, 0, Number.POSITIVE_INFINITY];
  for (let i = 0; i < at.length; i++) {
    sum += trials[i]! * (at[i]! - at[0]!);
    n += trials[i]!;
    if (i > 0) gap = Math.min(gap, at[i]! - at[i - 1]!);
  }
  const slopes = spreads === undefined ? ([0, 1 / (STEP_SHARE * gap)] as const) : ([1 / spreads[1], 1 / spreads[0]] as const);
  return { counts, shape, guess, lapses, centre: at[0]! + sum / n, slopes };
}

/** The most likely curve: searched from a straight line through the transformed shares, as it is and steeper, with the least and the largest lapse. */
export function fitCurve(problem: BinomialProblem): FittedCurve {
  const [least, largest] = problem.lapses;
  const lapses = least === largest ? [least] : [least, largest];
  return maximize(
    problem,
    lapses.flatMap((lapse) => {
      const line = lineStart(problem, lapse);
      return [line, { ...line, height: 4 * line.height, slope: 4 * line.slope }];
    }),
  );
}

/** Whether hits do not grow with the level: the slope lies at 0. */
export function isFlat({ slopes, counts, centre }: BinomialProblem, { slope }: Curve): boolean {
  if (slopes[0] > 0) return false;
  const { at } = counts;
  // a slope that changes z by less than this over all levels is none
  return slope * Math.max(at.at(-1)! - centre, centre - at[0]!) < 1e-6;
}

/** Whether at most one level lies in the transition, so that a steeper curve would be as likely. */
export function isSeparated({ counts, centre, shape }: BinomialProblem, { height, slope }: Curve): boolean {
  let inside = 0;
  for (const u of counts.at) {
    const z = height + slope * (u - centre);
    if (shape.below(z) > SATURATED && shape.above(z) > SATURATED) inside++;
  }
  return inside <= 1;
}

function lineStart({ counts, shape, guess, centre, slopes }: BinomialProblem, lapse: number): Curve {
  const { at, trials, hits } = counts;
  let [n, z, along, square] = [0, 0, 0, 0];
  for (let i = 0; i < at.length; i++) {
    const share = ((hits[i]! + 0.5) / (trials[i]! + 1) - guess) / (1 - guess - lapse);
    const value = shape.quantile(Math.min(Math.max(share, START_EDGE), 1 - START_EDGE));
    const distance = at[i]! - centre;
    n += trials[i]!;
    z += trials[i]! * value;
    along += trials[i]! * value * distance;
    square += trials[i]! * distance * distance;
  }
  // the centre is the mean, so that height and slope of the line come apart; a falling line starts as a weak rise
  const scale = Math.sqrt(square / n);
  const slope = Math.min(Math.max(along / square, 0.2 / scale, slopes[0]), slopes[1]);
  return { height: z / n, slope, lapse };
}
