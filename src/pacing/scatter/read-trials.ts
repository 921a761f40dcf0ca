import { requireColumn, requireObject, requireOneOf, show } from "../../math/require.js";
import type { PaceTarget, PaceTrials } from "../types.js";

/** Trials whose columns were checked, the missing ones filled in. */
export interface ReadTrials {
  /** All trials, those without a press among them. */
  readonly n: number;
  readonly movementTime: Float64Array;
  readonly amplitude: Float64Array;
  readonly width: Float64Array;
  readonly along: Float64Array;
  readonly across: Float64Array | undefined;
  /** 1 for a hit; 0 without a press. */
  readonly hit: Float64Array;
  readonly pressed: Float64Array;
  readonly pace: readonly string[] | undefined;
  readonly shape: PaceTarget;
}

/** Checks the columns of trials made at several paces. */
export function readTrials(where: string, trials: PaceTrials, shape: PaceTarget | undefined): ReadTrials {
  requireObject(where, "trials", trials);
  const { movementTime, amplitude, width, along, across, pace } = trials;
  requireColumn(where, "trials.movementTime", movementTime);
  const n = movementTime.length;
  requirePositive(where, "movementTime", movementTime, n);
  requirePositive(where, "amplitude", amplitude, n);
  requirePositive(where, "width", width, n);
  requireColumn(where, "trials.along", along, n);
  if (across !== undefined) requireColumn(where, "trials.across", across, n);
  if (shape !== undefined) requireOneOf(where, "options.shape", shape, ["circle", "square", "strip"]);
  if (shape !== undefined && shape !== "strip" && across === undefined) {
    throw new RangeError(`${where}: options.shape must be "strip" where trials.across is absent, got ${show(shape)}`);
  }
  const outline = shape ?? (across === undefined ? "strip" : "circle");
  const pressed = trials.pressed ?? new Float64Array(n).fill(1);
  requireFlags(where, "pressed", pressed, n);
  if (trials.hit !== undefined) requireFlags(where, "hit", trials.hit, n);
  requireLabels(where, pace, n);
  const landed = (i: number): boolean =>
    trials.hit?.[i] === 1 || (trials.hit === undefined && isOn(outline, width[i]!, along[i]!, across?.[i] ?? 0));
  const hit = Float64Array.from(along, (_, i) => (pressed[i] === 1 && landed(i) ? 1 : 0));
  return { n, movementTime, amplitude, width, along, across, hit, pressed, pace, shape: outline };
}

/** Only the trials that end with a press, and have an endpoint. */
export function withPress(trials: ReadTrials): ReadTrials {
  return pick(trials, (i) => trials.pressed[i] === 1);
}

/** The trials for which `keep` holds, in their order. */
export function pick(trials: ReadTrials, keep: (i: number) => boolean): ReadTrials {
  const kept = Array.from(trials.movementTime, (_, i) => i).filter(keep);
  const column = (values: Float64Array): Float64Array => Float64Array.from(kept, (i) => values[i]!);
  return {
    ...trials,
    n: kept.length,
    movementTime: column(trials.movementTime),
    amplitude: column(trials.amplitude),
    width: column(trials.width),
    along: column(trials.along),
    across: trials.across && column(trials.across),
    hit: column(trials.hit),
    pressed: column(trials.pressed),
    pace: trials.pace && kept.map((i) => trials.pace![i]!),
  };
}

function isOn(shape: PaceTarget, width: number, along: number, across: number): boolean {
  const half = width / 2;
  if (shape === "strip") return Math.abs(along) <= half;
  if (shape === "square") return Math.abs(along) <= half && Math.abs(across) <= half;
  return along * along + across * across <= half * half;
}

function requirePositive(where: string, name: string, column: Float64Array, n: number): void {
  requireColumn(where, `trials.${name}`, column, n);
  const at = column.findIndex((value) => !(value > 0));
  if (at >= 0) throw new RangeError(`${where}: trials.${name}[${at}] must be above 0, got ${column[at]}`);
}

function requireFlags(where: string, name: string, column: Float64Array, n: number): void {
  requireColumn(where, `trials.${name}`, column, n);
  const at = column.findIndex((value) => value !== 0 && value !== 1);
  if (at >= 0) throw new RangeError(`${where}: trials.${name}[${at}] must be 0 or 1, got ${column[at]}`);
}

function requireLabels(where: string, pace: readonly string[] | undefined, n: number): void {
  if (pace === undefined) return;
  if (!Array.isArray(pace)) throw new TypeError(`${where}: trials.pace must be an array of labels, got ${show(pace)}`);
  if (pace.length !== n) throw new RangeError(`${where}: trials.pace must have ${n} entries like the other columns, got ${pace.length}`);
  const at = pace.findIndex((label) => typeof label !== "string");
  if (at >= 0) throw new TypeError(`${where}: trials.pace[${at}] must be a string, got ${show(pace[at])}`);
}
