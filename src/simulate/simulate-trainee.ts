import { createRandom } from "../math/random.js";
import { logSd } from "./learner/draw-session-factors.js";
import type { PartFigures, SimulateTraineeOptions, TraineeItem, TraineeSettings, TraineeState } from "./trainee/options.js";
import { eachPart, TRAINEE_PARTS } from "./trainee/parts.js";
import { hitShareAt, practiseDay } from "./trainee/practise-day.js";
import { requireDays, requireState, resolveTrainee, usualDay } from "./trainee/resolve-trainee.js";

const USUAL_DAYS = 10;

/** One day as it went. Times in seconds per acquisition. */
export interface TraineeDay {
  /** Number of the day, from 1. */
  readonly day: number;
  /** True level of each part in the morning, before practice, and their sum. */
  readonly level: PartFigures;
  readonly total: number;
  /** The same as a test in the morning would measure them, with noise. */
  readonly measured: PartFigures;
  /** Minutes of practice, rests and tests aside. */
  readonly minutes: number;
  /** Minutes that counted for each part. */
  readonly effective: PartFigures;
  /** Share of hits, weighted by minutes, at the paces of the day; the own pace's on a day off. */
  readonly hitShare: number;
}

/** A trainee's days, where they left the trainee, and the truth behind them. */
export interface SimulatedTrainee {
  readonly days: readonly TraineeDay[];
  /** After the last night; give it as `from` to go on. */
  readonly state: TraineeState;
  /** The options in full, `days` and `from` aside. */
  readonly truth: TraineeSettings;
}

/**
 * Simulates one person who trains the four parts of an aimed movement by a plan, with known truth: made to test plans, and fit for nothing else.
 *
 * Each part has a level, seconds per acquisition, that falls toward an asymptote with effective minutes, exponentially or by a power law. A minute counts less
 * the farther the hit share at its pace lies from the best one, and beyond some minutes without rest; a share of it counts for other parts, and combined practice counts for
 * all. Many minutes of one part on one day count less; a share of what was learned fades overnight. All of that is invented, and the constants with it:
 * a plan that does well here has been shown to be no folly under these assumptions, no more. Days can be simulated one after the other by `from`,
 * with the same results as at once. Cost O(items).
 *
 * @param options - see `SimulateTraineeOptions`; minutes, seconds, shares
 * @returns days with true and measured levels, the state to go on from, and the options in full; plain data
 * @throws TypeError or RangeError if an option has the wrong kind or lies outside its range
 * @see from memory: laws of practice (Newell and Rosenbloom; Heathcote and colleagues), an optimal difficulty (Guadagnoli and Lee); no source gives the constants
 * @example
 * ```ts
 * const hour = [{ kind: "combined", minutes: 60 }] as const;
 * const { days, state, truth } = simulateTrainee({ days: [hour, hour] });
 * days[0]!.total.toFixed(3); // => "1.220"
 * days[1]!.total < days[0]!.total; // => true
 * simulateTrainee({ ...truth, from: state, days: [hour] }).days[0]!.day; // => 3
 * ```
 */
export function simulateTrainee(options: SimulateTraineeOptions = {}): SimulatedTrainee {
  const where = "simulateTrainee";
  const truth = resolveTrainee(where, options);
  const { days = new Array<readonly TraineeItem[]>(USUAL_DAYS).fill(usualDay()), from } = options;
  requireDays(where, days);
  if (from !== undefined) requireState(where, from);
  let state: TraineeState = from ?? { day: 0, excess: eachPart((part) => truth.parts[part].start - truth.parts[part].asymptote), noise: 0 };
  const done = days.map((items): TraineeDay => {
    const { excess } = state;
    const level = eachPart((part) => truth.parts[part].asymptote + excess[part]);
    const { noise, measured } = measureDay(state, level, truth);
    const practised = practiseDay(excess, items, truth);
    state = { day: state.day + 1, excess: practised.excess, noise };
    return {
      day: state.day,
      level,
      total: TRAINEE_PARTS.reduce((sum, part) => sum + level[part], 0),
      measured,
      minutes: practised.minutes,
      effective: practised.effective,
      hitShare: meanHitShare(items, excess, truth),
    };
  });
  return { days: done, state, truth };
}

/** Every day draws from a stream of its own, so that days at once and one by one are the same. */
function measureDay(state: TraineeState, level: PartFigures, { seed, noise }: TraineeSettings): { noise: number; measured: PartFigures } {
  const random = createRandom(seed, state.day);
  const r = noise.autocorrelation;
  const fresh = random.normal();
  const z = state.day === 0 ? fresh : r * state.noise + Math.sqrt(1 - r * r) * fresh;
  const factor = (sd: number, deviate: number): number => Math.exp(logSd(sd) * deviate - logSd(sd) ** 2 / 2);
  return { noise: z, measured: eachPart((part) => level[part] * factor(noise.session, z) * factor(noise.part, random.normal())) };
}

function meanHitShare(items: readonly TraineeItem[], excess: PartFigures, truth: TraineeSettings): number {
  const practice = items.filter(({ kind, minutes }) => (kind === "part" || kind === "combined") && minutes > 0);
  const minutes = practice.reduce((sum, item) => sum + item.minutes, 0);
  if (minutes === 0) return truth.pace.own;
  return practice.reduce((sum, item) => sum + item.minutes * hitShareAt(item.pace?.movementTime, excess, truth), 0) / minutes;
}
