import { type Minimum, minimizeBetween } from "../../math/minimize-between.js";
import { type ErrorSeries, type LearnerDeviance, learnerDeviance } from "./learner-deviance.js";

/** Rates looked at: at 0 and at 2 there is no long run. */
const LEAST_RATE = 1e-3;
const MOST_RATE = 1.999;
/** Autocorrelations looked at; nearer to 1 a series is a walk. */
const MOST_CORRELATION = 0.995;
/** Places are found this closely: the likelihood is flat within it. */
const CLOSE = 1e-5;
/** Most steps from the best value to an end; an end counts as met when the root of the deviance is within this of its limit. */
const STEPS = 40;
const MET = 1e-4;

/** One side of the joint description of a learner; the other is left free. */
export type LearnerTrait = "autocorrelation" | "rate" | "bestRate";

/** The likeliest learner. */
export interface LearnerFit extends LearnerDeviance {
  readonly rate: number;
  readonly bestRate: number;
}

/** What is looked at of each trait, and what it can be at all. */
const RANGES: Readonly<Record<LearnerTrait, { readonly looked: readonly [number, number]; readonly possible: readonly [number, number] }>> =
  {
    autocorrelation: { looked: [-MOST_CORRELATION, MOST_CORRELATION], possible: [-1, 1] },
    rate: { looked: [LEAST_RATE, MOST_RATE], possible: [0, 2] },
    bestRate: { looked: [0, 1], possible: [0, 1] },
  };

/** The learner of the least deviance. */
export function fitLearner(series: ErrorSeries): LearnerFit {
  const { at: rate } = minimizeBetween((b) => profile(series, "rate", b).value, LEAST_RATE, MOST_RATE, CLOSE);
  const bestRate = profile(series, "rate", rate).at;
  return { rate, bestRate, ...learnerDeviance(series, rate, bestRate) };
}

/** Least deviance at one value of a trait. `at` is the rate there; for the trait `rate`, the best rate. */
export function profile(series: ErrorSeries, trait: LearnerTrait, value: number): Minimum {
  const along = (rate: number, best: number): number => learnerDeviance(series, rate, best).deviance;
  if (trait === "rate") return minimizeBetween((best) => along(value, best), 0, 1, CLOSE);
  if (trait === "bestRate") return minimizeBetween((rate) => along(rate, value), LEAST_RATE, MOST_RATE, CLOSE);
  // only rates from -2 rho to 1 - rho allow it
  const low = Math.max(LEAST_RATE, -2 * value);
  const high = Math.min(MOST_RATE, 1 - value);
  return minimizeBetween((rate) => along(rate, bestRateFor(rate, value)), low, high, CLOSE);
}

/** Values of a trait whose profile of the deviance stays up to `limit`, about `inside`; an end that is not met in what is looked at is that of what is possible. */
export function traitInterval(series: ErrorSeries, trait: LearnerTrait, inside: number, limit: number): readonly [number, number] {
  const { looked, possible } = RANGES[trait];
  // the root of the rise is nearly straight, so that few steps find where it passes
  const least = profile(series, trait, inside).value;
  const rise = (value: number): number => Math.sqrt(Math.max(0, profile(series, trait, value).value - least));
  const wanted = Math.sqrt(Math.max(0, limit - least));
  const end = (side: 0 | 1): number => {
    let near = inside;
    let far = looked[side];
    let atNear = -wanted;
    let atFar = rise(far) - wanted;
    if (!(atFar > 0)) return possible[side];
    for (let k = 0; k < STEPS && Math.abs(far - near) > CLOSE; k++) {
      // false position, halving the weight of an end that stays (the Illinois rule, recalled)
      const value = (near * atFar - far * atNear) / (atFar - atNear);
      const off = rise(value) - wanted;
      if (Math.abs(off) < MET) return value;
      if (off > 0) {
        far = value;
        atFar = off;
        atNear /= 2;
      } else {
        near = value;
        atNear = off;
        atFar /= 2;
      }
    }
    return (near + far) / 2;
  };
  return [end(0), end(1)];
}

/**
 * The best rate K of a learner of rate B whose neighbouring errors correlate by `rho`, between -B/2 and 1 - B: with c = rho + B the share of the plan in the variance
 * of the errors, (1 - c) K^2 + h K - h = 0, h = B (2 c - B).
 */
function bestRateFor(rate: number, rho: number): number {
  const share = rho + rate;
  const h = Math.max(0, rate * (2 * share - rate));
  if (h === 0) return 0;
  return share >= 1 ? 1 : (2 * h) / (h + Math.sqrt(h * (h + 4 * (1 - share))));
}
