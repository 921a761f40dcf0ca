import { studentQuantile } from "../../math/student-quantile.js";
import type { SpeedAccuracyFit } from "../fit-speed-accuracy.js";
import type { PaceTarget, SpeedAccuracyLaw } from "../types.js";
import type { AxisErrors } from "./landing.js";

/** The chosen law of a fit as a target of one shape sees it: a strip does not ask for the second axis. */
export interface FittedLaw {
  readonly law: SpeedAccuracyLaw;
  /** Of the axes that count, in their order. */
  readonly errors: readonly AxisErrors[];
  /** Student's quantile at the level of the fit: half an interval is so many standard errors. */
  readonly limit: number;
}

/** `undefined` where no law could be fitted. */
export function fittedLaw(fit: SpeedAccuracyFit, shape: PaceTarget): FittedLaw | undefined {
  const { law, chosen, level } = fit;
  if (law === null || chosen === null) return undefined;
  const { along, across } = fit.laws[chosen];
  if (along === undefined) return undefined;
  const both = shape !== "strip" && across !== undefined;
  return {
    law: both ? law : { along: law.along, ...(law.times && { times: law.times }) },
    errors: both ? [along, across] : [along],
    limit: -studentQuantile((1 - level) / 2, fit.n - fit.timeouts - along.parameters),
  };
}
