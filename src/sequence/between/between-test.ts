import { betaBinomialUpper } from "../../math/beta-binomial.js";
import { binomialTails } from "../../math/binomial-test.js";
import type { Estimate } from "../../math/estimate.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { proportionEstimate } from "../../math/proportion-estimate.js";
import type { BetweenLanding, BetweenTest } from "../types.js";
import { type CompetingPair, isBetween, mirrored } from "./competing-pair.js";
import type { OwnScatter } from "./own-scatter.js";

/** A movement with its pair and where it ended, scaled for the scatter by `scale`. */
export interface PairedLanding {
  readonly pair: CompetingPair;
  readonly landing: BetweenLanding;
  /** End point relative to the chosen centre, along and to the left. */
  readonly along: number;
  readonly left: number;
  readonly scale: number;
}

/** No end is between at less than this share of the way to the other target (a hair under the rule's 0.2, so that rounding loses none). */
const LEAST_PART = 0.19;

/** What scatter alone would do: the share of ends in between, and the number of independent trials it is known as well as. */
interface Expected {
  readonly share: number;
  readonly worth: number;
}

/** Counts the ends in between and weighs them against the person's own scatter. Cost: pairs times the errors kept. */
export function betweenTest(landings: readonly PairedLanding[], undecidable: number, scatter: OwnScatter, level: number): BetweenTest {
  const pairs = landings.length;
  const count = landings.filter(({ landing }) => landing.between).length;
  const observed = proportionEstimate(count, pairs, level);
  const found = pairs === 0 ? undefined : expectedShare(landings, scatter);
  const expected = found === undefined ? missing(scatter.n) : proportionEstimate(found.share * found.worth, found.worth, level);
  const sides = { between: 0, mirrored: 0 };
  for (const { pair, landing, along, left } of landings) {
    const onOtherSide = isBetween(mirrored(pair), along, left);
    if (landing.between && !onOtherSide) sides.between++;
    if (!landing.between && onOtherSide) sides.mirrored++;
  }
  const split = sides.between + sides.mirrored;
  return {
    pairs,
    undecidable,
    observed,
    singles: scatter.n,
    // the number of movements it rests on, not what they are worth
    expected: { ...expected, n: scatter.n },
    excess: difference(observed, expected),
    p: found === undefined ? null : betaBinomialUpper(count, pairs, found.share * found.worth + 0.5, (1 - found.share) * found.worth + 0.5),
    mirror: { ...sides, p: split === 0 ? null : binomialTails(sides.between, split, 0.5).atLeast },
    averagingIndex: meanEstimate(
      landings.map(({ landing }) => landing.averagingIndex),
      "1",
      level,
    ),
  };
}

/** Puts every error of the scatter at every pair. The errors are few: how far their shares differ tells what the mean is worth. */
function expectedShare(landings: readonly PairedLanding[], { errors }: OwnScatter): Expected | undefined {
  const n = errors.length;
  if (n === 0) return undefined;
  const along = Float64Array.from(errors, (error) => error.along);
  const across = Float64Array.from(errors, (error) => error.across);
  const counts = new Float64Array(n);
  for (const { pair, scale } of landings) {
    // most errors do not come near: the first condition of the rule, hoisted
    const square = pair.distance * pair.distance;
    const toAlong = (pair.along * scale) / square;
    const toLeft = (pair.left * scale) / square;
    for (let k = 0; k < n; k++) {
      const part = along[k]! * toAlong + across[k]! * toLeft;
      if (part > LEAST_PART && isBetween(pair, along[k]! * scale, across[k]! * scale)) counts[k]!++;
    }
  }
  const shares = Array.from(counts, (count) => count / landings.length);
  const share = shares.reduce((sum, value) => sum + value, 0) / n;
  const variance = shares.reduce((sum, value) => sum + (value - share) ** 2, 0) / (n - 1);
  return { share, worth: variance > 0 ? Math.max(n, (n * share * (1 - share)) / variance) : n };
}

function missing(n: number): Estimate {
  return { ok: false, why: "tooFew", unit: "1", n };
}

/** Difference of two independent shares, the ends from those of both (Newcombe 1998, recalled). */
function difference(a: Estimate, b: Estimate): Estimate {
  if (!a.ok || !b.ok) return missing(a.n);
  const [lowA, highA] = a.interval!;
  const [lowB, highB] = b.interval!;
  const value = a.value - b.value;
  const low = value - Math.sqrt((a.value - lowA) ** 2 + (highB - b.value) ** 2);
  const high = value + Math.sqrt((highA - a.value) ** 2 + (b.value - lowB) ** 2);
  return { ok: true, value, unit: "1", n: a.n, interval: [low, high], level: a.level! };
}
