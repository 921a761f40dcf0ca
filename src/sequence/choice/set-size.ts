import type { Estimate } from "../../math/estimate.js";
import { linearRegression } from "../../math/linear-regression.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { slopeEstimate } from "../steps/slope-estimate.js";

/** Levels that a slope needs, and first movements that a level needs (a choice of this library). */
const FEWEST_LEVELS = 3;
const FEWEST_PER_LEVEL = 15;

/** One size of set. */
export interface SetSizeLevel {
  /** Targets that lay open. */
  readonly targets: number;
  readonly bits: number;
  readonly n: number;
  /** Latency of the first movement, seconds. */
  readonly mean: Estimate;
}

/** How the latency of the first movement grows with the number of targets. Unit of analysis: the sequence. */
export interface SetSizeEffect {
  /** Every size that came, ascending; the slope uses those that came 15 times. */
  readonly levels: readonly SetSizeLevel[];
  /** Seconds per bit. `tooFew` under three such levels. */
  readonly slope: Estimate;
}

/** Fits latency = a + b bits over sequences. */
export function setSizeEffect(
  first: readonly { readonly targets: number; readonly latency: number }[],
  bitsOf: (targets: number) => number,
  level: number,
): SetSizeEffect {
  const groups = new Map<number, number[]>();
  for (const { targets, latency } of first) {
    const group = groups.get(targets);
    if (group === undefined) groups.set(targets, [latency]);
    else group.push(latency);
  }
  const sizes = [...groups.keys()].sort((a, b) => a - b);
  const used = sizes.filter((size) => groups.get(size)!.length >= FEWEST_PER_LEVEL);
  const latencies = used.flatMap((size) => groups.get(size)!);
  const n = latencies.length;
  const fit =
    used.length < FEWEST_LEVELS
      ? undefined
      : linearRegression([used.flatMap((size) => groups.get(size)!.map(() => bitsOf(size)))], latencies);
  return {
    levels: sizes.map((targets) => {
      const values = groups.get(targets)!;
      return { targets, bits: bitsOf(targets), n: values.length, mean: meanEstimate(values, "s", level) };
    }),
    slope: slopeEstimate(fit, 1, n, "s/bit", level),
  };
}
