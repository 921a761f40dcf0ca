import { requireInteger, requireNumber, requireObject, requireOneOf, requireSeed } from "../../math/require.js";
import { requireList } from "../../math/require-list.js";
import type { LearnerCurve, LearnerForgetting, LearnerSettings, LearnerWarmUp, SessionNoise, SimulateLearnerOptions } from "./options.js";

const LAWS = ["exponential", "power", "combined", "delayedExponential", "linear", "step", "flat"] as const;

/** An ordinary learner of a movement time in seconds: from 1 s toward 0.6 s, half of the way in five sessions. */
const CURVE: LearnerCurve = { law: "exponential", a: 0.6, b: 0.4, c: 0.15, d: 0, e: 0, at: 10, per: "session" };
const SESSION_NOISE: SessionNoise = { sd: 0.02, autocorrelation: 0 };
const WARM_UP: LearnerWarmUp = { size: 0, rate: 0.15, sizeSd: 0 };
const FORGETTING: LearnerForgetting = { loss: 0, recovery: 0.5 };

/** Fills in the defaults, as a fresh plain object, and checks every value. */
export function resolveLearner(where: string, options: SimulateLearnerOptions): LearnerSettings {
  requireGroup(where, "options", options);
  for (const group of ["curve", "sessionNoise", "warmUp", "forgetting"] as const) {
    if (options[group] !== undefined) requireGroup(where, `options.${group}`, options[group]);
  }
  const { seed = 1, sessions = 20, trialNoise = 0.08, fatigue = 0, overnight = 0, equipmentChange = null } = options;
  requireSeed(where, seed);
  requireInteger(where, "options.sessions", sessions, 1);
  const settings: LearnerSettings = {
    seed,
    sessions,
    days: resolveDays(where, options.days, sessions),
    trialsPerSession: resolveTrials(where, options.trialsPerSession, sessions),
    curve: { ...CURVE, ...options.curve },
    sessionNoise: { ...SESSION_NOISE, ...options.sessionNoise },
    trialNoise,
    warmUp: { ...WARM_UP, ...options.warmUp },
    fatigue,
    overnight,
    forgetting: { ...FORGETTING, ...options.forgetting },
    equipmentChange: equipmentChange === null ? null : { ...equipmentChange },
  };
  checkCurve(where, settings.curve);
  checkShares(where, settings);
  return settings;
}

function resolveDays(where: string, days: readonly number[] | undefined, sessions: number): readonly number[] {
  if (days === undefined) return Array.from({ length: sessions }, (_, j) => j);
  requireList(where, "options.days", days);
  requireLength(where, "options.days", days, sessions);
  for (let j = 1; j < sessions; j++) {
    if (days[j]! >= days[j - 1]!) continue;
    throw new RangeError(`${where}: options.days[${j}] must be at least the day before it, ${days[j - 1]}, got ${days[j]}`);
  }
  return Array.from(days);
}

function resolveTrials(where: string, trials: number | readonly number[] | undefined, sessions: number): readonly number[] {
  const name = "options.trialsPerSession";
  if (trials === undefined || typeof trials === "number") {
    const each = trials ?? 40;
    requireInteger(where, name, each, 1);
    return new Array<number>(sessions).fill(each);
  }
  requireList(where, name, trials);
  requireLength(where, name, trials, sessions);
  for (const [j, count] of trials.entries()) requireInteger(where, `${name}[${j}]`, count, 1);
  return Array.from(trials);
}

function checkCurve(where: string, curve: LearnerCurve): void {
  requireOneOf(where, "options.curve.law", curve.law, LAWS);
  requireOneOf(where, "options.curve.per", curve.per, ["session", "trial"]);
  requireNumber(where, "options.curve.a", curve.a);
  requireNumber(where, "options.curve.b", curve.b);
  for (const name of ["c", "d", "e"] as const) requireNumber(where, `options.curve.${name}`, curve[name], 0);
  requireNumber(where, "options.curve.at", curve.at);
}

function checkShares(where: string, settings: LearnerSettings): void {
  const { sessionNoise, warmUp, forgetting, equipmentChange } = settings;
  requireNumber(where, "options.sessionNoise.sd", sessionNoise.sd, 0);
  requireNumber(where, "options.sessionNoise.autocorrelation", sessionNoise.autocorrelation, -0.999, 0.999);
  requireNumber(where, "options.trialNoise", settings.trialNoise, 0);
  requireNumber(where, "options.warmUp.size", warmUp.size);
  requireNumber(where, "options.warmUp.rate", warmUp.rate, 0, undefined, true);
  requireNumber(where, "options.warmUp.sizeSd", warmUp.sizeSd, 0);
  requireNumber(where, "options.fatigue", settings.fatigue);
  requireNumber(where, "options.overnight", settings.overnight, -1, undefined, true);
  requireNumber(where, "options.forgetting.loss", forgetting.loss);
  requireNumber(where, "options.forgetting.recovery", forgetting.recovery, 0, 1);
  if (equipmentChange === null) return;
  requireInteger(where, "options.equipmentChange.session", equipmentChange.session, 1);
  requireNumber(where, "options.equipmentChange.factor", equipmentChange.factor, 0, undefined, true);
}

function requireGroup(where: string, name: string, group: unknown): void {
  requireObject(where, name, group);
}

function requireLength(where: string, name: string, list: ArrayLike<number>, sessions: number): void {
  if (list.length === sessions) return;
  throw new RangeError(`${where}: ${name} must have ${sessions} entries, one per session, got ${list.length}`);
}
