// A person whose hits depend on the level alone: normal endpoints on a round target, so that hits are 1 - exp(-W^2/(8 s^2)), lapses aside.
import type { Random } from "../../src/math/random.js";
import type { StaircaseState } from "../../src/pacing/staircase/staircase-state.js";
import { stepStaircase } from "../../src/pacing/step-staircase.js";

/** The share of hits on a round target of this width, endpoints normal with `scatter` on both axes (closed form of the Rayleigh distribution). */
export const roundShare = (width: number, scatter: number, lapse = 0): number =>
  (1 - lapse) * -Math.expm1(-(width ** 2) / (8 * scatter ** 2));

/** The width that is hit with this share. */
export const roundWidth = (share: number, scatter: number, lapse = 0): number => scatter * Math.sqrt(-8 * Math.log1p(-share / (1 - lapse)));

/** The staircase after so many trials of someone who hits with `share(level)`. */
export function climb(state: StaircaseState, trials: number, random: Random, share: (level: number) => number): StaircaseState {
  let now = state;
  for (let i = 0; i < trials; i++) now = stepStaircase(now, random.uniform() < share(now.level));
  return now;
}
