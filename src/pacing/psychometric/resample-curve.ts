import { createRandom } from "../../math/random.js";
import { devianceOf } from "./deviance.js";
import { type BinomialProblem, type FittedCurve, maximizeFrom, shareAt } from "./maximize.js";

/** One fit to data drawn from the fitted curve. */
export interface CurveDraw {
  readonly problem: BinomialProblem;
  readonly curve: FittedCurve;
  readonly deviance: number;
}

/** Parametric bootstrap: hits drawn anew at every level from the fitted curve, and the curve fitted again. Cost O(resamples (trials + levels)). */
export function resampleCurve(problem: BinomialProblem, fit: FittedCurve, resamples: number, seed: number): readonly CurveDraw[] {
  const random = createRandom(seed);
  const { at, trials } = problem.counts;
  const shares = at.map((u) => shareAt(problem, fit, u));
  // from the largest lapse the search ends below the best of all starts in at most one draw of 250
  const from = { ...fit, lapse: problem.lapses[1] };
  return Array.from({ length: resamples }, () => {
    const hits = trials.map((n, i) => {
      let count = 0;
      for (let k = 0; k < n; k++) if (random.uniform() < shares[i]!) count++;
      return count;
    });
    const drawn: BinomialProblem = { ...problem, counts: { ...problem.counts, hits } };
    const curve = maximizeFrom(drawn, from);
    return { problem: drawn, curve, deviance: devianceOf(drawn, curve) };
  });
}
