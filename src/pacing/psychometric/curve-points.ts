import { quantile } from "../../math/quantile.js";
import { type BinomialProblem, type Curve, shareAt } from "./maximize.js";
import type { CurveDraw } from "./resample-curve.js";
import { type Axis, offAxis } from "./scale.js";
import type { PsychometricPoint } from "./types.js";

const POINTS = 41;

/** The curve over the levels that were tried, with the percentiles of the drawn curves at every point. */
export function curvePoints(
  problem: BinomialProblem,
  curve: Curve,
  draws: readonly CurveDraw[],
  axis: Axis,
  level: number,
): readonly PsychometricPoint[] {
  const { at } = problem.counts;
  const [from, to] = [at[0]!, at.at(-1)!];
  return Array.from({ length: POINTS }, (_, i) => {
    const u = from + ((to - from) * i) / (POINTS - 1);
    const shares = Float64Array.from(draws, (draw) => shareAt(draw.problem, draw.curve, u)).sort();
    const end = (p: number): number | null => (draws.length === 0 ? null : quantile(shares, p));
    return { level: offAxis(axis, u)!, share: shareAt(problem, curve, u), low: end((1 - level) / 2), high: end((1 + level) / 2) };
  });
}
