import type { Estimate } from "../../math/estimate.js";
import { uncertainMean, welch } from "../../math/welch.js";
import type { Endpoints } from "../types.js";
import { meanShift } from "./mean-shift.js";
import type { Moments } from "./moments.js";

/** Whether the mean endpoint moved from one set to another. */
export interface BiasChange {
  /** Mean after minus mean before, length unit. */
  readonly shift: readonly [number, number];
  /** The shift per axis with its own Welch interval. */
  readonly x: Estimate;
  readonly y: Estimate;
  /** Both axes at once: Hotelling's test for unlike covariances. */
  readonly t2: number;
  readonly f: number;
  /** Degrees of freedom of `f`; the second one, by Krishnamoorthy and Yu, is not whole. */
  readonly df: readonly [number, number];
  readonly p: number;
  /** By `p`; `notShown` is no proof of an equal bias. */
  readonly verdict: "moved" | "notShown";
}

/** `null` when both sets together lie on one line. */
export function biasChange(
  before: Endpoints,
  after: Endpoints,
  moments: readonly [Moments, Moments],
  unit: string,
  level: number,
): BiasChange | null {
  const test = meanShift(moments[0], moments[1]);
  if (test === undefined) return null;
  const { shift, t2, f, df, p } = test;
  return {
    shift: [shift[0], shift[1]],
    x: meanDifference(before.x, after.x, unit, level),
    y: meanDifference(before.y, after.y, unit, level),
    t2,
    f,
    df: [df[0], df[1]],
    p,
    verdict: p < 1 - level ? "moved" : "notShown",
  };
}

function meanDifference(before: Float64Array, after: Float64Array, unit: string, level: number): Estimate {
  const n = before.length + after.length;
  const test = welch(uncertainMean(before), uncertainMean(after), level);
  if (test === undefined) return { ok: false, why: "noSpread", unit, n };
  return { ok: true, value: test.difference, unit, n, interval: test.interval, level };
}
