import type { Estimate } from "../../math/estimate.js";
import { createRandom } from "../../math/random.js";
import { chanceError, isConstant } from "./chance-correlation.js";
import { type DrawSettings, drawCounts, drawnInterval } from "./drawn-interval.js";
import type { FlatPair } from "./flatten.js";
import { correlations, lagCurve } from "./lag-curve.js";
import { lagPeak, rivalPeaks } from "./lag-peak.js";
import type { Piece } from "./stretch.js";

/** Lags looked at, seconds: a person may run ahead of a target that can be foreseen. */
const EARLIEST = -0.1;
const LATEST = 0.6;
/** A peak must rise above what unrelated motions give by this many standard errors. */
const ABOVE_CHANCE = 3;
/** A correlation this high is never chance, though periodic motions have few independent moments to prove it by. */
const NEVER_CHANCE = 0.9;
/** Fewer resamples that have a peak of their own than this share, and the lag is not told. */
const SETTLED = 0.95;

/** What correlating the velocities tells. Seconds; nothing taken off. */
export interface CorrelationLag {
  readonly lag: Estimate;
  readonly peak: number | null;
  readonly candidates: readonly number[];
  readonly explained: Estimate;
  /** The target's velocity does not vary. */
  readonly constant: boolean;
}

/** How to search; all resolved by the caller. */
export interface LagSettings extends DrawSettings {
  readonly rate: number;
}

/**
 * The lag at which target and pointer velocities correlate most; its interval comes from units drawn again with replacement.
 */
export function lagByCorrelation(
  velocity: FlatPair,
  pieces: readonly Piece[],
  units: readonly Piece[],
  { rate, level, seed, resamples }: LagSettings,
): CorrelationLag {
  const n = units.length;
  const none = (why: "tooFew" | "notIdentified", constant: boolean, peak: number | null, candidates: number[] = []): CorrelationLag => {
    return { lag: { ok: false, why, unit: "s", n }, peak, candidates, explained: { ok: false, why, unit: "1", n }, constant };
  };
  if (n === 0) return none("tooFew", false, null);
  if (isConstant(velocity, pieces)) return none("notIdentified", true, null);
  const first = Math.ceil(EARLIEST * rate - 1e-9);
  const curve = lagCurve(velocity, pieces, units, first, Math.floor(LATEST * rate + 1e-9));
  const whole = correlations(curve, new Float64Array(n).fill(1));
  const toSeconds = (index: number): number => (first + index) / rate + 0;
  const top = lagPeak(whole);
  const rivals = rivalPeaks(whole);
  const candidates = rivals.map((peak) => toSeconds(peak.refined));
  const clear = top.height > Math.min(NEVER_CHANCE, ABOVE_CHANCE * chanceError(velocity, pieces, rate));
  if (!clear || top.atEdge || rivals.length !== 1) return none("notIdentified", false, top.height, clear ? candidates : []);
  const value = toSeconds(top.refined);
  const estimate = { ok: true, value, unit: "s", n } as const;
  const share = { ok: true, value: top.height ** 2, unit: "1", n } as const;
  if (n < 2) return { lag: estimate, peak: top.height, candidates, explained: share, constant: false };

  const random = createRandom(seed);
  const weights = new Float64Array(n);
  const lags: number[] = [];
  const heights = new Float64Array(resamples);
  for (let b = 0; b < resamples; b++) {
    drawCounts(weights, random);
    const drawn = lagPeak(correlations(curve, weights));
    if (!drawn.atEdge) lags.push(toSeconds(drawn.refined));
    heights[b] = drawn.height;
  }
  if (lags.length < SETTLED * resamples) return none("notIdentified", false, top.height, candidates);
  const [low, high] = drawnInterval(heights, top.height, n, level);
  return {
    lag: { ...estimate, interval: drawnInterval(lags, value, n, level), level },
    peak: top.height,
    candidates,
    explained: { ...share, interval: [Math.max(0, low) ** 2, Math.min(1, high) ** 2], level },
    constant: false,
  };
}
