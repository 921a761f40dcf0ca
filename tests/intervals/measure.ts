import type { Estimate } from "../../src/math/estimate.js";
import { createRandom, type Random } from "../../src/math/random.js";
import { type ScatterShape, SHAPES } from "./shapes.js";

/** One kind of interval, or several that one call gives. */
export interface Trial {
  /** For each interval `folder/what`, and the quantity that it is for, with endless data of this shape. */
  readonly truths: Readonly<Record<string, (shape: ScatterShape) => number>>;
  /** The estimates from one set of `n`, in the order of `truths`. */
  readonly estimates: (shape: ScatterShape, n: number, random: Random) => readonly Estimate[];
}

/** What was found for one interval at one n and shape. */
export interface Held {
  readonly name: string;
  readonly n: number;
  readonly shape: ScatterShape;
  /** Share of the sets with an interval whose interval held the truth; `null` when none had one. */
  readonly share: number | null;
  /** What the estimates said of their own coverage, `null` when they said nothing. */
  readonly said: number | null;
}

const SIZES = [10, 20, 50] as const;

/** Runs a trial over sizes and shapes; the same seed gives the same sets. */
export function measure(trial: Trial, runs: number, seed: number, sizes: readonly number[] = SIZES): Held[] {
  return sizes.flatMap((n) =>
    SHAPES.flatMap((shape) => holdings(trial, runs, createRandom(seed, n * 10 + SHAPES.indexOf(shape)), n, shape)),
  );
}

function holdings(trial: Trial, runs: number, random: Random, n: number, shape: ScatterShape): Held[] {
  const names = Object.keys(trial.truths);
  const truths = names.map((name) => trial.truths[name]!(shape));
  const counts = names.map(() => ({ held: 0, given: 0, said: null as number | null }));
  for (let run = 0; run < runs; run++) {
    for (const [i, estimate] of trial.estimates(shape, n, random).entries()) {
      const count = counts[i]!;
      if (!estimate.ok || estimate.interval === undefined) continue;
      count.given++;
      if (estimate.interval[0] <= truths[i]! && truths[i]! <= estimate.interval[1]) count.held++;
      if (estimate.coverage) count.said = estimate.coverage[shape];
    }
  }
  return counts.map(({ held, given, said }, i) => ({ name: names[i]!, n, shape, share: given === 0 ? null : held / given, said }));
}
