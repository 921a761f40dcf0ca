// An invented population for judging `diagnose`: people differ in every part, sessions differ within a person, and single people are given one thing that
// holds them back. Fixed beforehand: a planted weakness lies three standard deviations of the members' own excess in its part above their mean, and its part
// is usual in all else. What that is in seconds was measured on 24, then 48 people; a trial of 12 people a line drew attention to sizes of 2.4 to 3.0, and
// they were set anew, to the same three, on the 160 people of seeds 101 to 260: 24, 28, 23 and 18 ms for leaving, primary, correction and stop. They have
// not moved since. The second generator gets the same changes unscaled.
import { createRandom } from "../../src/math/random.js";
import { analyze } from "../../src/movement/analyze.js";
import type { PractisedSession } from "../../src/practice/types.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Recording } from "../../src/trace/types.js";
import { simulateFeedbackRecording } from "./feedback-control.js";

/** What makes the recordings: strokes of speed laid one upon another, or a hand under delayed feedback. */
export type Generator = "bells" | "feedback";

/** What is planted in a person. */
export type Planted =
  | "nothing"
  | "scattered primary"
  | "slow primary"
  | "late corrections"
  | "slow press"
  | "slow to leave"
  | "slow display"
  | "sparse sampling"
  | "another pace"
  | "tired";

/** The person's level in each thing, as factors on the generator's usual trainee and as seconds added to it. */
interface Levels {
  latency: number;
  latencyAdded: number;
  primaryTime: number;
  primaryAdded: number;
  scatter: number;
  correctionWait: number;
  correctionWaitAdded: number;
  correctionTime: number;
  gain: number;
  pressWait: number;
  pressWaitAdded: number;
  slip: number;
}

/** Levels in which a person with this weakness is usual, so that the weakness has the size it is said to have. */
const USUAL_IN: Readonly<Partial<Record<Planted, readonly (keyof Levels)[]>>> = {
  "scattered primary": ["primaryTime", "scatter"],
  "slow primary": ["primaryTime", "scatter"],
  "late corrections": ["correctionWait", "correctionTime", "gain"],
  "slow press": ["pressWait", "slip"],
  "slow to leave": ["latency"],
};

// Standard deviations of the logarithm. Times and errors differ by 8 % between people and 4 % between the sessions of one; short waits by more between people.
const BETWEEN_PEOPLE = {
  latency: 0.08,
  primaryTime: 0.08,
  scatter: 0.08,
  correctionWait: 0.25,
  correctionTime: 0.08,
  gain: 0.08,
  pressWait: 0.25,
  slip: 0.25,
} as const;
const BETWEEN_SESSIONS = 0.04;
const SESSIONS = 6;
const FEWEST = 40;
const MOST = 60;
const RATE_HZ = 250;

/** The display of everybody else, and the slow one: frames per second, and seconds from a frame to its light. */
const DISPLAY = { refreshHz: 240, latency: 0.02 } as const;
const SLOW_DISPLAY = { refreshHz: 60, latency: 0.08 } as const;
const SPARSE_HZ = [30, 60] as const;
/** A pace this much quicker, or slower by its inverse; scatter goes as one over the time (Schmidt et al. 1979, recalled). */
const PACE = 0.75;
/** The tired last third of a session. */
const TIRED = { latencyAdded: 0.06, pressWaitAdded: 0.04, primaryTime: 1.1, scatter: 1.2 } as const;

/** One person's practice. */
export interface PersonOptions {
  readonly seed: number;
  readonly planted?: Planted;
  /** The six sessions before it was planted: the same person on other days. Default false. */
  readonly before?: boolean;
}

/** Six sessions of one person, analysed. */
export function simulatePerson(generator: Generator, { seed, planted = "nothing", before = false }: PersonOptions): PractisedSession[] {
  const person = createRandom(seed, 10);
  const levels = levelsOf(person.normal);
  for (const name of USUAL_IN[planted] ?? []) levels[name] = 1;
  const direction = person.uniform();
  const period = before ? 0 : 1;
  const active = before ? "nothing" : planted;
  const days = createRandom(seed, 20 + period);
  const sparse = days.uniform(SPARSE_HZ[0], SPARSE_HZ[1]);
  return Array.from({ length: SESSIONS }, (_, day) => {
    const today = onDay(levels, days.normal);
    const movements = Math.floor(days.uniform(FEWEST, MOST + 1));
    const display = active === "slow display" ? SLOW_DISPLAY : DISPLAY;
    const rate = active === "sparse sampling" ? sparse : RATE_HZ;
    const thirds = active === "tired" ? [movements - Math.round(movements / 3), Math.round(movements / 3)] : [movements];
    const rows = thirds.flatMap((count, third) => {
      const now = third === 1 ? withTired(today) : plant(today, active, direction);
      const recording = record(generator, now, {
        seed: seed * 64 + period * 16 + day * 2 + third,
        movements: count,
        sampleRateHz: rate,
        display,
      });
      return analyze(recording);
    });
    return {
      startedAt: new Date(Date.UTC(2026, period, 1 + day, 18)).toISOString(),
      equipment: {
        id: active === "slow display" ? "slow desk" : "desk",
        refreshHz: display.refreshHz,
        latency: display.latency + 0.5 / display.refreshHz,
        reportHz: rate,
      },
      rows,
    };
  });
}

/** People of a group, six sessions each. */
export function simulateGroup(generator: Generator, people: number, firstSeed: number): PractisedSession[][] {
  return Array.from({ length: people }, (_, i) => simulatePerson(generator, { seed: firstSeed + i }));
}

function levelsOf(normal: () => number): Levels {
  const usual: Levels = {
    latency: 1,
    latencyAdded: 0,
    primaryTime: 1,
    primaryAdded: 0,
    scatter: 1,
    correctionWait: 1,
    correctionWaitAdded: 0,
    correctionTime: 1,
    gain: 1,
    pressWait: 1,
    pressWaitAdded: 0,
    slip: 1,
  };
  for (const [name, sd] of Object.entries(BETWEEN_PEOPLE)) usual[name as keyof Levels] = Math.exp(sd * normal());
  return usual;
}

function onDay(levels: Levels, normal: () => number): Levels {
  const today = { ...levels };
  for (const name of Object.keys(BETWEEN_PEOPLE)) today[name as keyof Levels] *= Math.exp(BETWEEN_SESSIONS * normal());
  return today;
}

function plant(levels: Levels, planted: Planted, direction: number): Levels {
  switch (planted) {
    case "scattered primary":
      return { ...levels, scatter: levels.scatter * 1.81 };
    case "slow primary":
      return { ...levels, primaryAdded: 0.086 };
    case "late corrections":
      return { ...levels, correctionWaitAdded: 0.075, gain: levels.gain * 0.68 };
    case "slow press":
      return { ...levels, pressWaitAdded: 0.059, slip: levels.slip * 2 };
    case "slow to leave":
      return { ...levels, latencyAdded: 0.072 };
    case "another pace": {
      const factor = direction < 0.5 ? PACE : 1 / PACE;
      return { ...levels, primaryTime: levels.primaryTime * factor, scatter: levels.scatter / factor };
    }
    default:
      return levels;
  }
}

function withTired(levels: Levels): Levels {
  return {
    ...levels,
    latencyAdded: TIRED.latencyAdded,
    pressWaitAdded: TIRED.pressWaitAdded,
    primaryTime: levels.primaryTime * TIRED.primaryTime,
    scatter: levels.scatter * TIRED.scatter,
  };
}

interface RecordOptions {
  readonly seed: number;
  readonly movements: number;
  readonly sampleRateHz: number;
  readonly display: { readonly refreshHz: number; readonly latency: number };
}

function record(generator: Generator, levels: Levels, options: RecordOptions): Recording {
  return generator === "bells" ? recordBells(levels, options) : recordFeedback(levels, options);
}

/** Distances and sizes are the simulator's own (150 to 800, 16 to 100); corrections begin 50 to 200 ms after the primary ended in the usual person. */
function recordBells(levels: Levels, options: RecordOptions): Recording {
  const wait = (seconds: number): number => seconds * levels.correctionWait + levels.correctionWaitAdded;
  return simulateRecording({
    ...options,
    latency: { mu: 0.2 * levels.latency + levels.latencyAdded, sigma: 0.03 * levels.latency, tau: 0.06 * levels.latency },
    primary: {
      timeIntercept: 0.12 * levels.primaryTime + levels.primaryAdded,
      timeSlope: 0.05 * levels.primaryTime,
      ...aimOf(levels),
    },
    correction: {
      onset: [wait(0.05), wait(0.2)],
      duration: [0.1 * levels.correctionTime, 0.2 * levels.correctionTime],
      gains: [0.7 * levels.gain, levels.gain, 1.25 * levels.gain],
    },
    press: { delay: 0.07 * levels.pressWait + levels.pressWaitAdded, slipSd: 0.6 * levels.slip },
  }).recording;
}

/** The same levels on a hand under feedback: its waits are the visual loop's and the dwell before the press. */
function recordFeedback(levels: Levels, options: RecordOptions): Recording {
  return simulateFeedbackRecording({
    ...options,
    nextTarget: { mu: 0.17 * levels.latency + levels.latencyAdded, sigma: 0.03 * levels.latency, tau: 0.05 * levels.latency },
    primary: {
      rampIntercept: 0.06 * levels.primaryTime + levels.primaryAdded,
      rampSlope: 0.035 * levels.primaryTime,
      ...aimOf(levels),
    },
    correction: {
      delay: 0.1 * levels.correctionWait + levels.correctionWaitAdded,
      ramp: 0.05 * levels.correctionTime,
      gain: 0.95 * levels.gain,
    },
    stopAndPress: { dwell: 0.03 * levels.pressWait + levels.pressWaitAdded, slipSd: 0.6 * levels.slip },
  }).recording;
}

/** Bias and scatter of the first stroke, as shares of the distance: those of either generator. */
function aimOf({ scatter }: Levels) {
  return { alongBias: -0.03 * scatter, alongSd: 0.05 * scatter, acrossSd: 0.025 * scatter };
}
