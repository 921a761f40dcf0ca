import { requireInteger, requireLevel, requireNumber, requireOneOf, requireSeed, show } from "../../math/require.js";
import type { PsychometricShape } from "./shapes.js";

/** Lapses beyond this are no lapses: the easiest level is not easy. */
export const LARGEST_LAPSE = 0.06;
const LARGEST_SPREAD = 1e100;

interface CheckedOptions {
  readonly shape: PsychometricShape;
  readonly scale: "log" | "linear";
  readonly harder: "down" | "up";
  readonly guess: number;
  readonly lapse: number | "fit";
  readonly resamples: number;
  readonly seed: number;
  readonly level: number;
}

/** Throws unless the options that need no reading are as described. */
export function requireOptions(where: string, given: CheckedOptions): void {
  const { shape, scale, harder, guess, lapse, resamples, seed, level } = given;
  requireOneOf(where, "options.shape", shape, ["weibull", "logistic", "normal", "gumbel"]);
  requireOneOf(where, "options.scale", scale, ["log", "linear"]);
  if (shape === "weibull" && scale === "linear") {
    throw new RangeError(`${where}: options.scale must be "log" where options.shape is "weibull", got "linear"`);
  }
  requireOneOf(where, "options.harder", harder, ["down", "up"]);
  requireNumber(where, "options.guess", guess, 0, 0.9);
  if (lapse !== "fit") {
    if (typeof lapse !== "number") throw new TypeError(`${where}: options.lapse must be a number or "fit", got ${show(lapse)}`);
    requireNumber(where, "options.lapse", lapse, 0, LARGEST_LAPSE);
  }
  requireInteger(where, "options.resamples", resamples, 0, 100000);
  requireSeed(where, seed);
  requireLevel(where, level);
}

/** The range of spreads, both ends equal for a known one; `undefined` for any. */
export function readSpreads(where: string, given: number | readonly [number, number] | "fit"): readonly [number, number] | undefined {
  if (given === "fit") return undefined;
  const name = "options.spread";
  if (typeof given === "number") {
    requireNumber(where, name, given, 0, LARGEST_SPREAD, true);
    return [given, given];
  }
  if (!Array.isArray(given) || given.length !== 2) {
    throw new TypeError(`${where}: ${name} must be a number, two of them or "fit", got ${show(given)}`);
  }
  const [low, high] = given as readonly [number, number];
  requireNumber(where, `${name}[0]`, low, 0, LARGEST_SPREAD, true);
  requireNumber(where, `${name}[1]`, high, low, LARGEST_SPREAD, true);
  return [low, high];
}

/** The shares whose levels are wanted. */
export function readShares(where: string, given: number | readonly number[] | undefined, guess: number): readonly number[] {
  const shares = given === undefined ? [0.8] : typeof given === "number" ? [given] : given;
  if (!Array.isArray(shares)) throw new TypeError(`${where}: options.thresholdAt must be a share or a list of shares, got ${show(shares)}`);
  for (const [i, share] of shares.entries()) {
    const name = `options.thresholdAt${typeof given === "number" ? "" : `[${i}]`}`;
    requireNumber(where, name, share, guess, 1, true);
    if (share >= 1) throw new RangeError(`${where}: ${name} must be below 1, got ${share}`);
  }
  return shares;
}
