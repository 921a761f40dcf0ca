import { type LagOneAutocorrelation, lagOneAutocorrelation } from "../../math/lag-one-autocorrelation.js";
import { linearRegression } from "../../math/linear-regression.js";
import { type Uncertain, uncertainMean } from "../../math/welch.js";
import type { SessionStep } from "./structure.js";

/** A trend of session levels over nights. */
export interface LevelTrend {
  /** Mean change per night. */
  readonly night: Uncertain | undefined;
  /** Mean change per break. */
  readonly afterBreak: Uncertain | undefined;
  /** Standard deviation of the levels about the trend. */
  readonly sd: number;
  /** Of the residuals. */
  readonly autocorrelation: LagOneAutocorrelation | undefined;
}

/**
 * Levels = start + change per night + change per rest within a day + one step per break + error, by least squares. The mean of the differences
 * between neighbours would be the last level less the first, and their own spread would overstate its error: each session's error enters two of them
 * with opposite signs. `undefined` when nothing is left over to judge errors by.
 */
export function fitLevels(levels: ArrayLike<number>, kinds: readonly SessionStep["kind"][]): LevelTrend | undefined {
  const count = (counts: (kind: SessionStep["kind"], i: number) => boolean): number[] => {
    let sum = 0;
    return [0, ...kinds.map((kind, i) => (sum += counts(kind, i) ? 1 : 0))];
  };
  const breaks = kinds.flatMap((kind, i) => (kind === "break" ? [i] : []));
  const nights = kinds.includes("night");
  const columns = [
    ...(nights ? [count((kind) => kind === "night")] : []),
    ...(kinds.includes("rest") ? [count((kind) => kind === "rest")] : []),
    ...breaks.map((at) => count((_, i) => i === at)),
  ];
  const fit = columns.length > 0 ? linearRegression(columns, levels) : undefined;
  if (fit === undefined) return undefined;
  const { coefficients, covariance, residuals, residualSum, df } = fit;
  const variance = residualSum / df;
  const jumps = breaks.map((i) => levels[i + 1]! - levels[i]!);
  return {
    night: nights ? { value: coefficients[1]!, variance: covariance[1]![1]!, df } : undefined,
    // the levels beside a break, not the fitted step: what was lost may be won back within a few sessions
    afterBreak: jumps.length > 0 ? { ...uncertainMean(jumps), variance: (2 * variance) / jumps.length, df } : undefined,
    sd: Math.sqrt(variance),
    autocorrelation: lagOneAutocorrelation([residuals]),
  };
}
