import { type ResponseLine, relativeError, weightOf } from "./response-line.js";

/** A delay that the phases of several frequencies have in common. */
export interface PhaseLag {
  /** Seconds, positive = pointer later. */
  readonly delay: number;
  /** Standard error, seconds, for lines that err independently. */
  readonly error: number;
  /** Another delay within the range searched fits about as well, as where the target repeats itself. */
  readonly ambiguous: boolean;
}

/** Delays searched, seconds: a person may run ahead of a target that can be foreseen, and no one follows it a second behind. */
const EARLIEST = -0.5;
const LATEST = 1;
/** Steps per period of the highest frequency, in which the fit cannot hide a second summit. */
const STEPS_PER_PERIOD = 16;
/** Fits whose log likelihoods differ by less are about as good: half the 95 % point of chi-squared with one degree of freedom. */
const AS_GOOD = 1.92;
const MOST_ROUNDS = 50;

/**
 * The delay whose phases, -2 pi hz delay, come nearest to those of the lines, each weighted by what its phase is known to: the maximum of
 * sum of cos(phase + 2 pi hz delay) / error^2 between -0.5 and 1 s, then least squares of the phases left over. Needs no unwrapping. Of delays that fit about as
 * well the one nearest to 0 is taken. `undefined` without lines.
 */
export function lagByPhase(lines: readonly ResponseLine[]): PhaseLag | undefined {
  if (lines.length === 0) return undefined;
  const weights = lines.map((line) => weightOf(relativeError(line)));
  const fitAt = (delay: number): number =>
    lines.reduce((sum, { phase, hz }, i) => sum + weights[i]! * Math.cos(phase + 2 * Math.PI * hz * delay), 0);
  const highest = lines.reduce((most, { hz }) => Math.max(most, hz), 0);
  const count = Math.ceil((LATEST - EARLIEST) * highest * STEPS_PER_PERIOD) + 1;
  const delays = Array.from({ length: count + 1 }, (_, k) => EARLIEST + (k / count) * (LATEST - EARLIEST));
  const fits = delays.map(fitAt);
  const summits = delays
    .filter((_, k) => fits[k]! >= (fits[k - 1] ?? Number.NEGATIVE_INFINITY) && fits[k]! >= (fits[k + 1] ?? Number.NEGATIVE_INFINITY))
    .map((delay) => refine(lines, weights, delay));
  const best = Math.max(...summits.map(fitAt));
  const good = summits.filter((delay) => fitAt(delay) >= best - AS_GOOD).sort((a, b) => Math.abs(a) - Math.abs(b));
  const delay = good[0]!;
  const information = lines.reduce((sum, { hz }, i) => sum + weights[i]! * (2 * Math.PI * hz) ** 2, 0);
  // two starts on one flat summit end in one place
  return { delay, error: 1 / Math.sqrt(information), ambiguous: good.some((other) => Math.abs(other - delay) > 1 / (4 * highest)) };
}

/** An angle brought within half a turn of 0. */
export function wrapAngle(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}

function refine(lines: readonly ResponseLine[], weights: readonly number[], start: number): number {
  let delay = start;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let above = 0;
    let below = 0;
    for (const [i, { hz, phase }] of lines.entries()) {
      const w = 2 * Math.PI * hz;
      above += weights[i]! * w * wrapAngle(phase + w * delay);
      below += weights[i]! * w * w;
    }
    delay -= above / below;
    if (Math.abs(above / below) < 1e-12) break;
  }
  return delay;
}
