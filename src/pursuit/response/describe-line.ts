import type { Estimate } from "../../math/estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";
import { wrapAngle } from "./lag-by-phase.js";
import { type ResponseLine, relativeError } from "./response-line.js";

/** How a target is followed at one frequency. */
export interface ResponseAtFrequency {
  /** Hz. */
  readonly hz: number;
  /** Size of the pointer's answer over that of the target's motion; 1 is best. `notIdentified`, like phase and delay, where the coherence is not above chance. */
  readonly gain: Estimate;
  /** Phase of the pointer, degrees, negative = late; whole turns are counted so that it lies within half a turn of what the delay of all frequencies gives. */
  readonly phaseDeg: Estimate;
  /** -phase / (360 hz), seconds, positive = late. */
  readonly delay: Estimate;
  /** Share of the pointer's power that is a linear response to the target, 0 to 1. */
  readonly coherence: number;
  /** What the coherence of unrelated motions stays below in a share `level` of cases. */
  readonly chanceLevel: number;
  readonly aboveChance: boolean;
  /** 1 - coherence: share of the pointer's power that does not answer to the target. */
  readonly remnant: number;
}

/** Lines with their intervals; `delay` is that of all lines, which tells the whole turns. */
export function describeLines(lines: readonly ResponseLine[], delay: number, n: number, level: number): ResponseAtFrequency[] {
  // most lines have the same degrees of freedom
  const quantiles = new Map(lines.map(({ df }) => [df, 0]));
  for (const df of quantiles.keys()) quantiles.set(df, df > 0 ? -studentQuantile((1 - level) / 2, df) : Number.POSITIVE_INFINITY);
  return lines.map((line) => describeLine(line, delay, quantiles.get(line.df)!, n, level));
}

function describeLine(line: ResponseLine, delay: number, quantile: number, n: number, level: number): ResponseAtFrequency {
  const { hz, gain, phase, coherence, chanceLevel, aboveChance } = line;
  const rest = { hz, coherence, chanceLevel, aboveChance, remnant: 1 - coherence };
  const half = quantile * relativeError(line);
  // an error as large as the answer itself may turn it anywhere
  if (!aboveChance || half >= 1) {
    const none = (unit: string): Estimate => ({ ok: false, why: "notIdentified", unit, n });
    return { ...rest, gain: none("1"), phaseDeg: none("deg"), delay: none("s") };
  }
  const expected = -2 * Math.PI * hz * delay;
  const unwrapped = expected + wrapAngle(phase - expected);
  // what of the error lies across the answer turns it: exact for normal errors
  const turn = Math.asin(half);
  const angle = (factor: number, unit: string): Estimate => {
    const ends = [(unwrapped - turn) * factor, (unwrapped + turn) * factor] as const;
    return { ok: true, value: unwrapped * factor + 0, unit, n, interval: [Math.min(...ends) + 0, Math.max(...ends) + 0], level };
  };
  return {
    ...rest,
    gain: { ok: true, value: gain, unit: "1", n, interval: [gain * Math.exp(-half), gain * Math.exp(half)], level },
    phaseDeg: angle(180 / Math.PI, "deg"),
    delay: angle(-1 / (2 * Math.PI * hz), "s"),
  };
}
