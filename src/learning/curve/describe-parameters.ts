import type { CurveParameter } from "./curve-types.js";
import type { FittedCurve } from "./fitted-curve.js";
import { hasRunAway, type ProfileEnds, profileEnds } from "./profile-ends.js";
import type { Solver } from "./solver.js";

/** First step of a profile whose parameter has no standard error, as a share of its size. */
const BLIND_STEP = 0.1;
const NO_ENDS: ProfileEnds = [null, null];

/** Parameters by letter, with profile intervals from `solver`, or Wald intervals without it. */
export function describeParameters(
  curve: FittedCurve,
  unitOf: (letter: string) => string,
  solver: Solver | undefined,
): Record<string, CurveParameter> {
  const { model, columns, solution, moving, bound, free, covariance, lower, upper, runaways, reach, level, exact } = curve;
  const { n } = columns;
  const parameters: Record<string, CurveParameter> = {};
  model.letters.forEach((letter, j) => {
    if (!model.real[j]) return;
    const unit = unitOf(letter);
    const value = solution.parameters[j]! + 0;
    if (!moving.includes(j)) {
      parameters[letter] = { ok: true, value, unit, n, standardError: null };
      return;
    }
    const k = free.indexOf(j);
    const standardError = k < 0 || covariance === undefined ? null : Math.sqrt(covariance[k]![k]!);
    const away = hasRunAway(runaways, solution.parameters, j);
    let ends = away ? NO_ENDS : waldEnds(value, standardError, reach, lower[j]!, upper[j]!);
    // what has run away along a long valley has no end worth the walk
    if (solver !== undefined && !exact && !(away && model.builtIn?.lag === undefined)) {
      const step =
        standardError === null ? BLIND_STEP * (Math.abs(value) || Math.abs(solution.parameters[1] ?? 1) || 1) : reach * standardError;
      const rise = reach * reach * curve.variance;
      ends = profileEnds({ solver, best: solution, lower, upper, rise, runaways }, j, step);
    }
    const [low, high] = ends;
    const lost = bound.includes(j) || standardError === null || low === null || high === null || away;
    parameters[letter] = lost
      ? { ok: false, why: "notIdentified", unit, n, standardError: null, ends: [finiteOrNull(low), finiteOrNull(high)] }
      : { ok: true, value, unit, n, interval: [low + 0, high + 0], level, standardError };
  });
  return parameters;
}

function waldEnds(value: number, standardError: number | null, reach: number, lower: number, upper: number): ProfileEnds {
  if (standardError === null) return NO_ENDS;
  const low = value - reach * standardError;
  const high = value + reach * standardError;
  return [low > lower || lower === Number.NEGATIVE_INFINITY ? low : null, high < upper || upper === Number.POSITIVE_INFINITY ? high : null];
}

const finiteOrNull = (end: number | null): number | null => (end !== null && Number.isFinite(end) ? end + 0 : null);
