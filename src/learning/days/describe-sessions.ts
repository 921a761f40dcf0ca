import { linearRegression } from "../../math/linear-regression.js";
import type { SessionShape } from "./fit-session-shape.js";
import type { TrialRange } from "./group-trials.js";
import { meanOf } from "./steps-between.js";
import type { SessionLevels } from "./structure.js";

/** Trials a session needs for a warm-up of its own. */
const LEAST_OWN = 6;

/** What the sessions are described from. */
export interface SessionColumns {
  readonly value: ArrayLike<number>;
  /** The values on the scale of the fit. */
  readonly y: Float64Array;
  readonly errors: "normal" | "lognormal";
  /** `undefined` without a fit. */
  readonly shape: SessionShape | undefined;
  /** Trials until the warm-up counts as over; `null` when that is not known. */
  readonly warmUpTrials: number | null;
}

/** Levels of each session. */
export function describeSessions(sessions: readonly TrialRange[], columns: SessionColumns): SessionLevels[] {
  const { value, errors, shape, warmUpTrials } = columns;
  const back = errors === "lognormal" ? Math.exp : (level: number): number => level;
  return sessions.map(({ session, day, from, to }, j) => {
    const n = to - from;
    const start = shape?.levels[j];
    const past = from + Math.ceil(warmUpTrials ?? n);
    return {
      session,
      day,
      n,
      mean: meanOf(value, from, to),
      start: start === undefined ? null : back(start),
      end: start === undefined ? null : back(start + shape!.slope * (n - 1)),
      afterWarmUp: past < to ? meanOf(value, past, to) : null,
      warmUp: shape === undefined || n < LEAST_OWN ? null : ownWarmUp(from, to, shape, columns),
    };
  });
}

// level, size and slope of one session alone, at the rate of all
function ownWarmUp(from: number, to: number, shape: SessionShape, { y, errors }: SessionColumns): number | null {
  const decay = Float64Array.from({ length: to - from }, (_, k) => Math.exp(-shape.rate * k));
  const fit = linearRegression([decay, decay.map((_, k) => k)], y.subarray(from, to));
  if (fit === undefined) return null;
  const size = fit.coefficients[1]!;
  if (errors === "lognormal") return Math.expm1(size);
  const level = meanOf(y, from, to) - size * meanOf(decay, 0, to - from);
  return level > 0 ? size / level : null;
}
