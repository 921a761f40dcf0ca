// A simulated pointer: endpoints and times drawn about the law MT = a + b IDe, IDe = log2(A/We + 1), at a pace of the caller's choice.
import { fc } from "@fast-check/vitest";
import type { PointingTrials } from "../../src/fitts/types.js";
import { createRandom, type Random } from "../../src/math/random.js";

export interface Pointer {
  readonly seed: number;
  /** Trials per amplitude and width. */
  readonly n: number;
  /** Intercept, seconds, and slope, seconds per bit, of MT on effective difficulty. */
  readonly intercept: number;
  readonly slope: number;
  /** Effective over nominal width: above 1 hasty, below 1 careful. */
  readonly pace: number;
  /** Standard deviation of the logarithm of the time. */
  readonly timeSd?: number;
  /** Mean of `along` as a share of the width. */
  readonly bias?: number;
  readonly person?: string;
  /** Default: all sixteen. */
  readonly conditions?: readonly (readonly [amplitude: number, width: number])[];
  /** A draw with mean 0 and standard deviation 1. */
  readonly draw?: (random: Random) => number;
}

export const AMPLITUDES = [128, 256, 512, 1024] as const;
export const WIDTHS = [16, 32, 64, 128] as const;
const WIDTHS_PER_SD = 4.133;

const ALL = AMPLITUDES.flatMap((amplitude) => WIDTHS.map((width) => [amplitude, width] as const));

/** Trials of a crossed design, four amplitudes by four widths. */
export function simulateTrials(pointer: Pointer): PointingTrials {
  const {
    seed,
    n,
    intercept,
    slope,
    pace,
    timeSd = 0.1,
    bias = 0,
    person = "1",
    conditions = ALL,
    draw = (random: Random) => random.normal(),
  } = pointer;
  const random = createRandom(seed);
  const rows = conditions.flatMap(([amplitude, width]) =>
    Array.from({ length: n }, () => {
      const sd = (pace * width) / WIDTHS_PER_SD;
      const time = intercept + slope * Math.log2((amplitude + bias * width) / (pace * width) + 1);
      // exp(N(0, s)) has the mean exp(s^2/2), which is taken out
      return {
        amplitude,
        width,
        along: bias * width + sd * draw(random),
        time: time * Math.exp(random.normal(0, timeSd) - timeSd ** 2 / 2),
      };
    }),
  );
  return {
    amplitude: Float64Array.from(rows, (row) => row.amplitude),
    width: Float64Array.from(rows, (row) => row.width),
    movementTime: Float64Array.from(rows, (row) => row.time),
    along: Float64Array.from(rows, (row) => row.along),
    person: rows.map(() => person),
  };
}

/** What the throughput of such a pointer is with endless trials: mean over the conditions of IDe/MT. */
export function trueThroughput({ intercept, slope, pace, bias = 0 }: Pick<Pointer, "intercept" | "slope" | "pace" | "bias">): number {
  const each = AMPLITUDES.flatMap((amplitude) =>
    WIDTHS.map((width) => {
      const difficulty = Math.log2((amplitude + bias * width) / (pace * width) + 1);
      return difficulty / (intercept + slope * difficulty);
    }),
  );
  return each.reduce((sum, value) => sum + value, 0) / each.length;
}

/** Several trial sets as one. */
export function joinTrials(sets: readonly PointingTrials[]): PointingTrials {
  const column = (of: (set: PointingTrials) => Float64Array): Float64Array => Float64Array.from(sets.flatMap((set) => [...of(set)]));
  return {
    amplitude: column((set) => set.amplitude),
    width: column((set) => set.width),
    movementTime: column((set) => set.movementTime),
    along: column((set) => set.along),
    person: sets.flatMap((set) => set.person ?? []),
  };
}

/** Any valid trials: up to three people, few conditions, ties and gross misses among them. */
export const trialsArb: fc.Arbitrary<PointingTrials> = fc
  .array(
    fc.record({
      person: fc.constantFrom("ann", "bo", "cy"),
      amplitude: fc.constantFrom(100, 200, 400),
      width: fc.constantFrom(10, 40),
      movementTime: fc.integer({ min: 20, max: 2000 }).map((ms) => ms / 1000),
      along: fc.integer({ min: -450, max: 450 }).map((tenths) => tenths / 10),
    }),
    { maxLength: 60 },
  )
  .map((rows) => ({
    amplitude: Float64Array.from(rows, (row) => row.amplitude),
    width: Float64Array.from(rows, (row) => row.width),
    movementTime: Float64Array.from(rows, (row) => row.movementTime),
    along: Float64Array.from(rows, (row) => row.along),
    person: rows.map((row) => row.person),
  }));

/** The same trials in another order. */
export function reordered(trials: PointingTrials, order: readonly number[]): PointingTrials {
  const column = (from: Float64Array): Float64Array => Float64Array.from(order, (i) => from[i]!);
  return {
    amplitude: column(trials.amplitude),
    width: column(trials.width),
    movementTime: column(trials.movementTime),
    along: column(trials.along),
    ...(trials.person && { person: order.map((i) => trials.person![i]!) }),
  };
}

/** The column with one entry replaced. */
export function changed(column: Float64Array, at: number, value: number): Float64Array {
  return column.map((old, i) => (i === at ? value : old));
}
