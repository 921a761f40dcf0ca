import type { Estimate } from "../../math/estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { PhaseLag } from "./lag-by-phase.js";
import { type ResponseLine, weightOf } from "./response-line.js";

/** What is said of all lines together. */
export interface Band {
  readonly gain: Estimate;
  readonly delay: Estimate;
}

/**
 * Gain and delay over all driven lines. Gain: mean of the answer in step with the delayed target, each line weighted by one over its squared error; that weight
 * rests on the remnant alone, so that lines read too high by chance do not count for more, and lines below chance stay in for the same reason.
 */
export function bandOf(
  lines: readonly ResponseLine[],
  lag: PhaseLag | undefined,
  linesPerIndependent: number,
  segments: number,
  level: number,
): Band {
  if (lag === undefined) {
    const none = (unit: string): Estimate => ({ ok: false, why: "notIdentified", unit, n: segments });
    return { gain: none("1"), delay: none("s") };
  }
  let weights = 0;
  let sum = 0;
  for (const { hz, gain, phase, error } of lines) {
    const weight = weightOf(error);
    weights += weight;
    sum += weight * gain * Math.cos(phase + 2 * Math.PI * hz * lag.delay);
  }
  // lines that err together count for less; a single line has its own degrees of freedom
  const count = Math.max(1, lines.length / linesPerIndependent);
  const t = -studentQuantile((1 - level) / 2, lines[0]!.df * count) * Math.sqrt(lines.length / count);
  const estimate = (value: number, half: number, unit: string): Estimate => {
    return { ok: true, value, unit, n: segments, interval: [value - half, value + half], level };
  };
  return { gain: estimate(sum / weights, t / Math.sqrt(weights), "1"), delay: estimate(lag.delay, t * lag.error, "s") };
}
