import type { Reason } from "../../math/estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";
import { type Uncertain, welch } from "../../math/welch.js";
import { fitLevels, type LevelTrend } from "./fit-levels.js";
import { fitSessionShape, type SessionShape } from "./fit-session-shape.js";
import type { TrialRange } from "./group-trials.js";
import { shapeCovariance } from "./shape-covariance.js";
import type { SessionStep, SessionStructure } from "./structure.js";

/** Sessions of this many trials count toward the least number of sessions; one of them must have this many. */
const LEAST_TRIALS = 6;
const LEAST_SESSIONS = 3;
const LEAST_LONGEST = 10;

/** Shape of the sessions and trend of their levels, on the scale of the fit. */
export interface SessionFit {
  readonly shape: SessionShape;
  readonly covariance: readonly (readonly number[])[];
  readonly size: Uncertain;
  readonly slope: Uncertain;
  /** Whether the interval of the warm-up excludes 0. */
  readonly warmUpShown: boolean;
  readonly slopeTakenAs: "fatigue" | "gain";
  /** Start of the next session less end of this one: with the slope in the end level, and with it taken out when it is fatigue. */
  readonly warmUpRemoved: LevelTrend | undefined;
  readonly corrected: LevelTrend | undefined;
}

/** Fits shape and levels, or says why it cannot. */
export function fitSessions(
  y: Float64Array,
  sessions: readonly TrialRange[],
  kinds: readonly SessionStep["kind"][],
  options: { readonly slope: "judge" | "fatigue" | "gain"; readonly better: SessionStructure["better"]; readonly level: number },
): SessionFit | Reason {
  const lengths = sessions.map(({ from, to }) => to - from);
  const enough = lengths.filter((length) => length >= LEAST_TRIALS).length >= LEAST_SESSIONS;
  if (!enough || !lengths.some((length) => length >= LEAST_LONGEST)) return "tooFew";
  if (sessions.every(({ from, to }) => y.subarray(from, to).every((v) => v === y[from]))) return "noSpread";
  const shape = fitSessionShape(y, sessions);
  const covariance = shapeCovariance(sessions, shape.residuals, shape.rate);
  const df = sessions.length - 1;
  const size = { value: shape.size, variance: covariance[0]![0]!, df };
  const slope = { value: shape.slope, variance: covariance[1]![1]!, df };
  const t = -studentQuantile((1 - options.level) / 2, df);
  const improving = options.better === "lower" ? -slope.value : slope.value;
  const judged = improving > t * Math.sqrt(slope.variance) ? "gain" : "fatigue";
  const slopeTakenAs = options.slope === "judge" ? judged : options.slope;
  const starts = fitLevels(shape.levels, kinds);
  const warmUpRemoved = fitLevels(lessSlopes(shape, lengths), kinds);
  const length = lengths.reduce((sum, n) => sum + n - 1, 0) / lengths.length;
  const withSlope = withSlopeError(warmUpRemoved, slope, length);
  return {
    shape,
    covariance,
    size,
    slope,
    warmUpShown: Math.abs(size.value) > t * Math.sqrt(size.variance),
    slopeTakenAs,
    warmUpRemoved: withSlope,
    corrected: slopeTakenAs === "gain" ? withSlope : starts,
  };
}

// levels whose differences are start of the next less end of this one
function lessSlopes({ levels, slope }: SessionShape, lengths: readonly number[]): Float64Array {
  let slopes = 0;
  return levels.map((level, j) => {
    if (j > 0) slopes += slope * (lengths[j - 1]! - 1);
    return level - slopes;
  });
}

// the slope carries its own error into every difference alike; that of the levels is independent of it when sessions have their trials alike
function withSlopeError(trend: LevelTrend | undefined, slope: Uncertain, length: number): LevelTrend | undefined {
  if (trend === undefined) return undefined;
  const added = { value: 0, variance: length * length * slope.variance, df: slope.df };
  const add = (change: Uncertain | undefined): Uncertain | undefined => {
    const both = change === undefined ? undefined : welch(added, change, 0.5);
    return both === undefined ? change : { value: change!.value, variance: change!.variance + added.variance, df: both.df };
  };
  return { ...trend, night: add(trend.night), afterBreak: add(trend.afterBreak) };
}
