import { requireOneOf } from "../../math/require.js";
import { curveColumns } from "../curve/columns.js";
import { LAWS, needsPositive } from "../curve/curve-laws.js";
import type { CurveErrors } from "../curve/error-law.js";
import { requireLaw } from "../curve/require-law.js";
import { requireValues } from "../curve/require-values.js";
import type { LearningLaw, LearningLawName, PracticeSeries } from "../types.js";

const NAMES = Object.keys(LAWS) as LearningLawName[];

export interface LawChoice {
  readonly laws: readonly (LearningLawName | LearningLaw)[];
  /** Whether power laws were left out. */
  readonly noPowers: boolean;
}

/** The laws to compare; throws unless they and the series are as described. Power laws that were asked for need practice above 0. */
export function requireChoice(
  where: string,
  series: PracticeSeries,
  asked: readonly (LearningLawName | LearningLaw)[] | undefined,
  errors: CurveErrors,
  predict: readonly number[],
): LawChoice {
  if (asked !== undefined) requireLaws(where, asked);
  const powers = asked?.some((law) => typeof law === "string" && needsPositive(law)) ?? false;
  const { practice, value } = curveColumns(where, series, powers ? 0 : Number.NEGATIVE_INFINITY);
  if (powers) {
    predict.forEach((amount, i) => {
      if (!(amount > 0)) throw new RangeError(`${where}: options.predict[${i}] must be above 0 for power laws, got ${amount}`);
    });
  }
  requireValues(where, value, errors, series.trials !== undefined);
  if (asked !== undefined) return { laws: asked, noPowers: false };
  const noPowers = practice.some((amount) => amount <= 0) || predict.some((amount) => amount <= 0);
  return { laws: noPowers ? NAMES.filter((name) => !needsPositive(name)) : NAMES, noPowers };
}

function requireLaws(where: string, laws: readonly (LearningLawName | LearningLaw)[]): void {
  if (laws.length === 0) throw new RangeError(`${where}: options.laws must name at least one law, got an array of 0`);
  laws.forEach((law, i) => {
    if (typeof law === "string") requireOneOf(where, `options.laws[${i}]`, law, NAMES);
    else requireLaw(`${where}: options.laws[${i}]`, law);
    if (laws.indexOf(law) < i)
      throw new RangeError(`${where}: options.laws[${i}] must not repeat an earlier law, got ${JSON.stringify(law)}`);
  });
}
