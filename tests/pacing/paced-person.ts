// A person with a known law of scatter, aiming at one target at paces that were asked for: what the tests and the recovery study of pacing draw from.
import type { Random } from "../../src/math/random.js";
import { hitShareAt } from "../../src/pacing/scatter/hit-share-at.js";
import type { PaceTrials } from "../../src/pacing/types.js";

/** Distance and width of the target, px. */
const AMPLITUDE = 400;
export const WIDTH = 40;
/** Standard deviation of the logarithm of movement time within one pace. */
const JITTER = 0.06;

/** Scatter (the same on both axes) and bias along the axis as functions of movement time, px. */
export interface Person {
  readonly scatter: (t: number) => number;
  readonly bias: (t: number) => number;
}

/** Floor 2 px, 0.012 s times the speed. */
export const LINEAR: Person = { scatter: (t) => 2 + (0.012 * AMPLITUDE) / t, bias: () => 0 };

/** A fall with a power of movement time, through the linear law's scatter at 0.55 s. */
export const powerOf = (exponent: number): Person => ({ scatter: (t) => LINEAR.scatter(0.55) * (0.55 / t) ** exponent, bias: () => 0 });

/** The scatter that a logarithmic law of movement time, T = 0.05 + 0.118 log2(A/(4.133 s) + 1), leaves. */
export const LOGARITHMIC: Person = { scatter: (t) => AMPLITUDE / (4.133 * (2 ** ((t - 0.05) / 0.118) - 1)), bias: () => 0 };

/** The linear law with an undershoot of 0.8 % of the speed (6 px at 0.55 s), which no line in time gives exactly. */
export const SHORT: Person = { scatter: LINEAR.scatter, bias: (t) => (-0.008 * AMPLITUDE) / t };

/** True share of hits at movement time `t`. */
export function trueShare({ scatter, bias }: Person, t: number): number {
  return hitShareAt({ along: bias(t), alongSd: scatter(t), across: 0, acrossSd: scatter(t) }, "circle", WIDTH);
}

/** The time at which the person hits with this probability. */
export function trueTime(person: Person, wanted: number): number {
  let [low, high] = [0.05, 20];
  for (let k = 0; k < 80; k++) {
    const middle = Math.sqrt(low * high);
    if (trueShare(person, middle) < wanted) low = middle;
    else high = middle;
  }
  return high;
}

/** `each` trials at each pace, the paces in turn. Movement times vary within a pace, and the scatter is that of each trial's own. */
export function pacedTrials(
  random: Random,
  person: Person,
  paces: readonly number[],
  each: number,
): PaceTrials & { readonly across: Float64Array; readonly pace: string[] } {
  const n = paces.length * each;
  const pace = Array.from({ length: n }, (_, i) => paces[i % paces.length]!);
  const movementTime = Float64Array.from(pace, (t) => t * Math.exp(random.normal(0, JITTER)));
  return {
    movementTime,
    amplitude: new Float64Array(n).fill(AMPLITUDE),
    width: new Float64Array(n).fill(WIDTH),
    along: movementTime.map((t) => random.normal(person.bias(t), person.scatter(t))),
    across: movementTime.map((t) => random.normal(0, person.scatter(t))),
    pace: pace.map(String),
  };
}
