import { minimizeBetween } from "../../math/minimize-between.js";
import type { SpeedAccuracyLaw } from "../types.js";
import { type Aim, lawShare } from "./landing.js";

/** Even steps of the logarithm of time of the first look. */
const STEPS = 160;

/** The movement time with the most hits per second, P(t)/(t + overhead); `undefined` where it lies at an end of what is looked at. */
export function productiveTime(
  law: SpeedAccuracyLaw,
  aim: Aim,
  overhead: number,
  [low, high]: readonly [number, number],
): number | undefined {
  const loss = (logT: number): number => -lawShare(law, aim, Math.exp(logT)) / (Math.exp(logT) + overhead);
  const [from, to] = [Math.log(low), Math.log(high)];
  const step = (to - from) / STEPS;
  let best = 0;
  let least = loss(from);
  for (let k = 1; k <= STEPS; k++) {
    const value = loss(from + k * step);
    if (value < least) [best, least] = [k, value];
  }
  if (best === 0 || best === STEPS) return undefined;
  return Math.exp(minimizeBetween(loss, from + (best - 1) * step, from + (best + 1) * step, 1e-9).at);
}
