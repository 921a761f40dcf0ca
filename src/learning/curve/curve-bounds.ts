import { requireNumber, show } from "../../math/require.js";
import type { LearningLaw } from "../types.js";
import type { CurveColumns } from "./columns.js";
import type { CurveModel } from "./curve-model.js";
import type { CurveErrors } from "./error-law.js";

/** Largest exponent of a power law. */
const STEEPEST_POWER = 20;
/** Largest rate of an exponential, over the smallest step of practice: all of the gain is made within it. */
const STEEPEST_STEP = 20;
/** Largest earlier practice, over the last practice. */
const MOST_EARLIER = 10;
/** Largest delay of the delayed exponential, as the number d. */
const MOST_DELAY = 1e6;
/** Least c of a law with an asymptote, times the range of practice (or of its logarithm): below it the law is a straight line, and a and b run away. */
const LEAST_BEND = 1e-5;

export interface CurveBounds {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** Bounds that are there for the search alone: with a parameter on one, others have run away and mean nothing. */
  readonly runaways: readonly Runaway[];
}

/** A parameter on its bound, and the parameters that the bound and not the data then decides. */
export interface Runaway {
  readonly place: number;
  readonly bound: number;
  readonly takes: readonly number[];
}

export interface CurveBoundOptions {
  readonly bounds: Readonly<Record<string, readonly [number, number]>>;
  readonly direction: "falling" | "rising" | "either";
  readonly errors: CurveErrors;
}

/** Bounds of every parameter in the order of the model; equal ones hold a parameter, such as those that the law does not have. */
export function curveBounds(
  where: string,
  model: CurveModel,
  law: LearningLaw | undefined,
  columns: CurveColumns,
  options: CurveBoundOptions,
): CurveBounds {
  const pairs = law === undefined ? defaults(model, columns, options) : law.lower.map((low, j): [number, number] => [low, law.upper[j]!]);
  for (const [letter, pair] of Object.entries(options.bounds)) {
    const j = model.letters.indexOf(letter);
    if (j < 0 || !model.real[j]) {
      const names = model.letters.filter((_, i) => model.real[i]).join(", ");
      throw new RangeError(`${where}: options.bounds must name parameters of the law (${names}), got ${show(letter)}`);
    }
    requirePair(where, letter, pair, law === undefined && j > 1);
    pairs[j] = [pair[0], pair[1]];
  }
  const lower = new Float64Array(pairs.length);
  const upper = new Float64Array(pairs.length);
  pairs.forEach((pair, j) => {
    lower[j] = pair[0];
    upper[j] = pair[1];
  });
  return { lower, upper, runaways: law === undefined ? runaways(model, columns, options, lower, upper) : [] };
}

/** Also lifts the least c of a law with an asymptote off 0. */
function runaways(
  model: CurveModel,
  columns: CurveColumns,
  { bounds }: CurveBoundOptions,
  lower: Float64Array,
  upper: Float64Array,
): Runaway[] {
  const found: Runaway[] = [];
  const c = 2;
  if (!model.letters.includes("c") || !(lower[c]! < upper[c]!)) return found;
  // with a and b free, a law with c = 0 is no law at all
  if (lower[0]! < upper[0]! && model.name !== "combined") {
    const least = LEAST_BEND / rangeOf(model, columns);
    if (lower[c]! < least) {
      lower[c] = Math.min(least, upper[c]!);
      found.push({ place: c, bound: lower[c]!, takes: [0, 1] });
    }
  }
  // a fall steeper than any step: b, counted from practice 1, has no limit when the first value comes later
  const late = columns.n > 0 && columns.practice[0] !== 1;
  if (late && bounds.c === undefined) found.push({ place: c, bound: upper[c]!, takes: [1] });
  const last = model.letters[3];
  if (last !== undefined && bounds[last] === undefined) {
    found.push({ place: 3, bound: upper[3]!, takes: model.name === "combined" ? [1] : [1, 2] });
    if (model.name === "power4" && bounds.c === undefined) found.push({ place: c, bound: upper[c]!, takes: [1, 3] });
  }
  return found;
}

function defaults(model: CurveModel, columns: CurveColumns, { direction, errors }: CurveBoundOptions): [number, number][] {
  const { low, practice, n, step } = columns;
  const isPower = model.formula.includes("^-c");
  const perStep = STEEPEST_STEP / (step > 0 ? step : 1);
  return model.letters.map((letter, j) => {
    if (!model.real[j]) return [0, 0];
    if (letter === "a") {
      if (model.name === "linear") return [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
      if (errors === "binomial") return [0, 1];
      return [low >= 0 ? 0 : Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    }
    if (letter === "b") {
      const positive = model.name === "linear" ? direction === "rising" : direction === "falling";
      return [positive ? 0 : Number.NEGATIVE_INFINITY, positive || direction === "either" ? Number.POSITIVE_INFINITY : 0];
    }
    if (letter === "e") return [0, MOST_EARLIER * (n > 0 ? practice[n - 1]! : 1)];
    if (letter === "d") return [0, isPower ? perStep : MOST_DELAY];
    return [0, isPower ? STEEPEST_POWER : perStep];
  });
}

function rangeOf(model: CurveModel, { practice, n }: CurveColumns): number {
  const first = n > 0 ? practice[0]! : 0;
  const last = n > 0 ? practice[n - 1]! : 1;
  const range = model.formula.includes("^-c") ? Math.log(last / first) : last - first;
  return range > 0 ? range : 1;
}

function requirePair(where: string, letter: string, pair: readonly [number, number], atLeastZero: boolean): void {
  const name = `options.bounds.${letter}`;
  if (!Array.isArray(pair) || pair.length !== 2) throw new TypeError(`${where}: ${name} must be a pair of numbers, got ${show(pair)}`);
  const [low, high] = pair as [number, number];
  // the far side may be open
  if (low !== Number.NEGATIVE_INFINITY) requireNumber(where, `${name}[0]`, low, atLeastZero ? 0 : Number.NEGATIVE_INFINITY);
  else if (atLeastZero) throw new RangeError(`${where}: ${name}[0] must be finite and at least 0, got ${low}`);
  if (atLeastZero || high !== Number.POSITIVE_INFINITY) requireNumber(where, `${name}[1]`, high, low);
}
