import { createRandom } from "../math/random.js";
import { carriedOver } from "./learner/carried-over.js";
import { curveLevel } from "./learner/curve-level.js";
import { drawSessionFactors, drawWarmUps, logSd } from "./learner/draw-session-factors.js";
import type { LearnerSettings, SimulateLearnerOptions } from "./learner/options.js";
import { resolveLearner } from "./learner/resolve-learner.js";

/** Streams 0 and 1 of a seed belong to the sessions; the trials of each session have their own from here on. */
const FIRST_TRIAL_STREAM = 2;

/** One session as it was drawn. Levels and values in the unit of the measure. */
export interface SimulatedSession {
  /** Number of the session, from 1. */
  readonly session: number;
  readonly day: number;
  /** What the curve was taken at: the session's number, or the middle of its trial numbers. */
  readonly practice: number;
  /** The true level there: curve, nights, forgetting and equipment, without noise, warm-up and fatigue. */
  readonly level: number;
  /** The true level at the first and at the last trial; the same for a curve per session. */
  readonly start: number;
  readonly end: number;
  /** True excess on the first trial, as a share of the level. */
  readonly warmUp: number;
  /** Factor that this session's noise puts on everything. */
  readonly noise: number;
  readonly trials: { readonly value: readonly number[] };
}

/** A learner's practice, and the truth behind it. */
export interface SimulatedLearner {
  readonly sessions: readonly SimulatedSession[];
  /** Mean of each session over its practice (warm-up, fatigue and noise included), in the form that the curve fits take. */
  readonly series: { readonly practice: readonly number[]; readonly value: readonly number[]; readonly trials: readonly number[] };
  /** All trials in order as columns; `trial` counts from 1 within each session. */
  readonly trials: {
    readonly session: readonly number[];
    readonly day: readonly number[];
    readonly trial: readonly number[];
    readonly value: readonly number[];
  };
  /** The options in full. */
  readonly truth: LearnerSettings;
}

/**
 * Simulates one person who practises one measure over sessions, with known truth: curve, noise, warm-up, fatigue, nights and breaks.
 *
 * Value of trial k (from 1) = L S (1 + w exp(-g (k - 1)) + f (k - 1)) T. L is the curve times what nights, breaks and equipment left;
 * S and T are log-normal factors of session and trial with mean 1; w and g are the warm-up, f the fatigue. Every part draws from a stream
 * of its own: changing one leaves the draws of the others, and more trials in a session leave all other sessions. Cost O(trials).
 *
 * @param options - see `SimulateLearnerOptions`; shares are of the level, days are days
 * @returns sessions with their truth, the series of their means, all trials as columns, and the options in full; plain data
 * @throws TypeError or RangeError if an option has the wrong kind, lies outside its range, or the level would reach 0
 * @see from memory: laws of practice (power after Newell and Rosenbloom, exponential after Heathcote and colleagues), warm-up after Adams
 * @example
 * ```ts
 * const { series, sessions } = simulateLearner({ seed: 3, sessions: 30, trialNoise: 0, curve: { a: 0.5, b: 0.5, c: 0.1 } });
 * sessions[0]!.level // => 1
 * series.value.length // => 30
 * ```
 */
export function simulateLearner(options: SimulateLearnerOptions = {}): SimulatedLearner {
  const where = "simulateLearner";
  const truth = resolveLearner(where, options);
  const { seed, curve, days, trialsPerSession, warmUp, fatigue } = truth;
  const factors = drawSessionFactors(truth);
  const warmUps = drawWarmUps(truth);
  const carried = carriedOver(truth);
  const sigma = logSd(truth.trialNoise);
  const columns = { session: [] as number[], day: [] as number[], trial: [] as number[], value: [] as number[] };

  let done = 0;
  const sessions = trialsPerSession.map((count, j): SimulatedSession => {
    const random = createRandom(seed, FIRST_TRIAL_STREAM + j);
    const { nights, forgotten, equipment } = carried[j]!;
    const before = done;
    const levelAt = (practice: number): number => nights * forgotten * equipment * curveLevel(curve, practice);
    const practiceAt = (k: number): number => (curve.per === "session" ? j + 1 : before + k);
    const value: number[] = [];
    for (let k = 1; k <= count; k++) {
      const level = levelAt(practiceAt(k));
      const shape = 1 + warmUps[j]! * Math.exp(-warmUp.rate * (k - 1)) + fatigue * (k - 1);
      if (!(level * shape > 0 && level * shape < Number.MAX_VALUE)) {
        throw new RangeError(`${where}: options must keep every value above 0 and finite, got ${level * shape} in session ${j + 1}`);
      }
      value.push(level * shape * factors[j]! * Math.exp(sigma * random.normal() - (sigma * sigma) / 2));
      columns.session.push(j + 1);
      columns.day.push(days[j]!);
      columns.trial.push(k);
      columns.value.push(value[k - 1]!);
    }
    done += count;
    const practice = practiceAt((count + 1) / 2);
    return {
      session: j + 1,
      day: days[j]!,
      practice,
      level: levelAt(practice),
      start: levelAt(practiceAt(1)),
      end: levelAt(practiceAt(count)),
      warmUp: warmUps[j]!,
      noise: factors[j]!,
      trials: { value },
    };
  });
  return { sessions, series: meansOf(sessions), trials: columns, truth };
}

function meansOf(sessions: readonly SimulatedSession[]): SimulatedLearner["series"] {
  return {
    practice: sessions.map(({ practice }) => practice),
    value: sessions.map(({ trials }) => trials.value.reduce((sum, value) => sum + value, 0) / trials.value.length),
    trials: sessions.map(({ trials }) => trials.value.length),
  };
}
