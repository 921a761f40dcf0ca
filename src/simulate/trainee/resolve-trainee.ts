import { requireInteger, requireNumber, requireObject, requireOneOf, requireSeed, show } from "../../math/require.js";
import type {
  SimulateTraineeOptions,
  TraineeFatigue,
  TraineeItem,
  TraineeNoise,
  TraineePace,
  TraineePart,
  TraineePartModel,
  TraineeSettings,
  TraineeState,
} from "./options.js";
import { eachPart, TRAINEE_PARTS } from "./parts.js";

const RATE = 0.003;
const PARTS: Readonly<Record<TraineePart, TraineePartModel>> = {
  primary: { start: 0.42, asymptote: 0.24, rate: RATE },
  correction: { start: 0.3, asymptote: 0.14, rate: RATE },
  stopAndPress: { start: 0.2, asymptote: 0.1, rate: RATE },
  nextTarget: { start: 0.3, asymptote: 0.16, rate: RATE },
};
const TRANSFER = 0.1;
const PACE: TraineePace = { best: 0.85, width: 0.15, own: 0.8, steepness: 4 };
const FATIGUE: TraineeFatigue = { after: 40, fade: 40, recovery: 4, massing: 60 };
const NOISE: TraineeNoise = { session: 0.02, autocorrelation: 0.3, part: 0.03 };

/** An hour in equal parts. */
export function usualDay(): readonly TraineeItem[] {
  const parts = TRAINEE_PARTS.map((part): TraineeItem => ({ kind: "part", part, minutes: 10 }));
  return [...parts, { kind: "rest", minutes: 5 }, { kind: "combined", minutes: 20 }];
}

/** Fills in the defaults, as a fresh plain object, and checks every value. */
export function resolveTrainee(where: string, options: SimulateTraineeOptions): TraineeSettings {
  requireObject(where, "options", options);
  for (const group of ["parts", "transfer", "pace", "fatigue", "noise"] as const) {
    if (options[group] !== undefined) requireObject(where, `options.${group}`, options[group]);
  }
  const { seed = 1, law = "exponential", exponent = 1, combined = 0.35, forgetting = 0.004 } = options;
  requireSeed(where, seed);
  requireOneOf(where, "options.law", law, ["exponential", "power"]);
  requireNumber(where, "options.exponent", exponent, 0, undefined, true);
  requireNumber(where, "options.combined", combined, 0);
  requireNumber(where, "options.forgetting", forgetting, 0, 1);
  const settings: TraineeSettings = {
    seed,
    law,
    exponent,
    parts: eachPart((part) => resolvePart(where, part, options.parts?.[part])),
    transfer: eachPart((from) => eachPart((to) => (from === to ? 1 : (options.transfer?.[from]?.[to] ?? TRANSFER)))),
    combined,
    pace: { ...PACE, ...options.pace },
    fatigue: { ...FATIGUE, ...options.fatigue },
    forgetting,
    noise: { ...NOISE, ...options.noise },
  };
  checkTransfer(where, options.transfer);
  checkGroups(where, settings);
  return settings;
}

function resolvePart(where: string, part: TraineePart, given: Partial<TraineePartModel> | undefined): TraineePartModel {
  const name = `options.parts.${part}`;
  if (given !== undefined) requireObject(where, name, given);
  const model = { ...PARTS[part], ...given };
  requireNumber(where, `${name}.asymptote`, model.asymptote, 0, undefined, true);
  requireNumber(where, `${name}.start`, model.start, model.asymptote);
  requireNumber(where, `${name}.rate`, model.rate, 0);
  return model;
}

function checkTransfer(where: string, transfer: SimulateTraineeOptions["transfer"]): void {
  for (const from of TRAINEE_PARTS) {
    for (const to of TRAINEE_PARTS) {
      const name = `options.transfer.${from}.${to}`;
      const value = transfer?.[from]?.[to];
      if (value === undefined) continue;
      requireNumber(where, name, value, 0);
      if (from === to && value !== 1)
        throw new RangeError(`${where}: ${name} must be 1, since a minute of a part is a minute of it, got ${value}`);
    }
  }
}

function checkGroups(where: string, { pace, fatigue, noise }: TraineeSettings): void {
  for (const name of ["best", "own"] as const) {
    requireNumber(where, `options.pace.${name}`, pace[name], 0, 0.999, true);
  }
  requireNumber(where, "options.pace.width", pace.width, 0, undefined, true);
  requireNumber(where, "options.pace.steepness", pace.steepness, 0);
  requireNumber(where, "options.fatigue.after", fatigue.after, 0);
  requireNumber(where, "options.fatigue.fade", fatigue.fade, 0, undefined, true);
  requireNumber(where, "options.fatigue.recovery", fatigue.recovery, 0);
  requireNumber(where, "options.fatigue.massing", fatigue.massing, 0, undefined, true);
  requireNumber(where, "options.noise.session", noise.session, 0);
  requireNumber(where, "options.noise.autocorrelation", noise.autocorrelation, -0.999, 0.999);
  requireNumber(where, "options.noise.part", noise.part, 0);
}

/** Throws unless every day is a list of items. */
export function requireDays(where: string, days: readonly (readonly TraineeItem[])[]): void {
  if (!Array.isArray(days)) throw new TypeError(`${where}: options.days must be a list of days, got ${show(days)}`);
  for (const [d, items] of days.entries()) {
    if (!Array.isArray(items)) throw new TypeError(`${where}: options.days[${d}] must be a list of items, got ${show(items)}`);
    for (const [i, item] of items.entries()) requireItem(where, `options.days[${d}][${i}]`, item);
  }
}

function requireItem(where: string, name: string, item: TraineeItem): void {
  requireObject(where, name, item);
  requireOneOf(where, `${name}.kind`, item.kind, ["test", "part", "combined", "rest"]);
  requireNumber(where, `${name}.minutes`, item.minutes, 0);
  if (item.kind === "part") requireOneOf(where, `${name}.part`, item.part as TraineePart, TRAINEE_PARTS);
  if (item.pace === undefined) return;
  requireObject(where, `${name}.pace`, item.pace);
  requireNumber(where, `${name}.pace.movementTime`, item.pace.movementTime, 0, undefined, true);
}

/** Throws unless the state is one that a trainee can be in. */
export function requireState(where: string, state: TraineeState): void {
  requireObject(where, "options.from", state);
  requireInteger(where, "options.from.day", state.day, 0, 1e9);
  requireNumber(where, "options.from.noise", state.noise);
  requireObject(where, "options.from.excess", state.excess);
  for (const part of TRAINEE_PARTS) requireNumber(where, `options.from.excess.${part}`, state.excess[part], 0);
}
