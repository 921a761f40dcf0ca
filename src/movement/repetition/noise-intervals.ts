import type { ErrorSeries } from "./learner-deviance.js";
import { learnerDeviance } from "./learner-deviance.js";
import { profile } from "./learner-fit.js";

/** Even steps across the best rates that are possible. */
const STEPS = 16;
/** Halvings for the largest and smallest scale: to a millionth. */
const HALVINGS = 30;
/** The scale is looked for within this factor of the likeliest. */
const FURTHEST = 16;

/** Ranges of planning and execution noise, standard deviations. */
export interface NoiseIntervals {
  readonly planningSd: readonly [number, number];
  readonly executionSd: readonly [number, number];
}

/** What the noises can be where the deviance stays up to `limit`: at best rates across `[low, high]`, the scales s that keep df (ln(s/s0) + s0/s - 1) within what is left. */
export function noiseIntervals(series: ErrorSeries, [low, high]: readonly [number, number], df: number, limit: number): NoiseIntervals {
  const planning: number[] = [];
  const execution: number[] = [];
  for (let k = 0; k <= STEPS; k++) {
    const best = low + (k / STEPS) * (high - low);
    const { at: rate } = profile(series, "bestRate", best);
    const { deviance, scale } = learnerDeviance(series, rate, best);
    const left = Math.max(0, limit - deviance) / df;
    for (const factor of [farthestScale(left, 1 / FURTHEST), farthestScale(left, FURTHEST)]) {
      const sd = Math.sqrt(scale * factor);
      planning.push(sd * best);
      execution.push(sd * Math.sqrt(1 - best));
    }
  }
  const span = (values: readonly number[]): readonly [number, number] => [Math.min(...values), Math.max(...values)];
  return { planningSd: span(planning), executionSd: span(execution) };
}

/** The factor between 1 and `bound` at which ln f + 1/f - 1 reaches `left`. */
function farthestScale(left: number, bound: number): number {
  let near = 0;
  let far = Math.log(bound);
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (near + far) / 2;
    if (middle + Math.exp(-middle) - 1 > left) far = middle;
    else near = middle;
  }
  return Math.exp((near + far) / 2);
}
