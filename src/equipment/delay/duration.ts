import { requireNumber, show } from "../../math/require.js";
import type { Duration } from "../types.js";

/** Mean, standard deviation and ends of what is known of a duration. */
export interface DurationSpread {
  readonly mean: number;
  readonly sd: number;
  readonly low: number;
  readonly high: number;
}

/** A constant; an even spread, standard deviation (high - low)/sqrt(12); or a triangle, sqrt((a^2 + b^2 + c^2 - ab - ac - bc)/18). */
export function durationSpread(given: Duration): DurationSpread {
  if (typeof given === "number") return { mean: given, sd: 0, low: given, high: given };
  if (given.length === 2) {
    const [low, high] = given;
    return { mean: (low + high) / 2, sd: (high - low) / Math.sqrt(12), low, high };
  }
  const [low, mode, high] = given;
  // from the lower end on, so that nothing large cancels
  const [b, c] = [mode - low, high - low];
  return { mean: low + (b + c) / 3, sd: Math.sqrt((b * b + c * c - b * c) / 18), low, high };
}

/** Throws unless a duration is a number of at least 0, or two or three such numbers in order. */
export function requireDuration(where: string, name: string, given: Duration): void {
  if (typeof given === "number") {
    requireNumber(where, name, given, 0);
    return;
  }
  if (!Array.isArray(given) || given.length < 2 || given.length > 3) {
    throw new TypeError(`${where}: ${name} must be a number, or two or three numbers in order, got ${show(given)}`);
  }
  given.forEach((value: number, i: number) => {
    requireNumber(where, `${name}[${i}]`, value, i === 0 ? 0 : (given[i - 1] as number));
  });
}
