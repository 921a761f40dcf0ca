import type { LeastSquaresReason } from "../math/least-squares.js";
import { requireColumn, requireInteger, requireNumber, requireOneOf, requireSeed, show } from "../math/require.js";
import type { BellKind } from "./bell/bell-columns.js";
import { independentSamples, unexplainedEnergy } from "./bell/bell-criterion.js";
import { describeBells, primaryOf, type SubmovementComponent } from "./bell/describe-bells.js";
import type { WeightedProfile } from "./bell/fit-bells.js";
import { type Candidate, searchBells, withMinimumJerk } from "./bell/search-bells.js";
import { type VelocityProfile, weighProfile } from "./bell/weigh-profile.js";

/** Fits whose criteria lie this close are equally good, by convention. */
const EQUALLY_GOOD = 2;
/** A profile with fewer samples than a lognormal has unknowns (onset, duration, mu, sigma, dx, dy) cannot be decomposed. */
const FEWEST_SAMPLES = 6;

/** Options of `decomposeSubmovements`. */
export interface DecomposeOptions {
  /**
   * Shape of the components. `"minimumJerk"`: all symmetric. `"lognormal"`: the component that explains most may be skewed, the rest stay
   * symmetric, because corrections are too small to tell their shape. `"either"` (default): whichever of the two explains more per parameter.
   * `"minimumJerk"` splits a skewed primary into two or three and should be kept for profiles known to be symmetric.
   */
  readonly bell?: "minimumJerk" | "lognormal" | "either";
  /** Most components, 1 to 20, default 8. Lowered, it saves time only where many would be found. */
  readonly maxComponents?: number;
  /** Random starts per added component, 0 to 100, default 2, beside four to six taken from the data. Raised, slower and seldom better. */
  readonly starts?: number;
  /** 32-bit whole number that fixes the random starts; echoed. Default 1. */
  readonly seed?: number;
  /** While more than this share of the energy is unexplained, one addition that does not pay is followed by another; 0 to 1, default 0.02. */
  readonly residualShare?: number;
  /**
   * Noise of one velocity component, unit per second, at least 0; take `noiseFloor.speed` of `kinematics`. Raised, fewer small components.
   * Default: taken as 0.5 % of the largest speed.
   */
  readonly noiseFloor?: number;
  /** Frequency up to which the profile carries information, Hz, above 0: the cutoff of the filter it went through. Default 20. Raised, more components. */
  readonly cutoffHz?: number;
  /** Shortest duration of a component, seconds, 0.02 to 10, default 0.08. Lowered, noise is decomposed too. */
  readonly minDuration?: number;
  /** Longest duration of a component, seconds, from `minDuration` to 10, default 1. */
  readonly maxDuration?: number;
}

/** A decomposition into another number of components that the data support as well. */
export interface DecompositionAlternative {
  readonly components: readonly SubmovementComponent[];
  readonly residualShare: number;
  readonly bic: number;
}

/** What `decomposeSubmovements` found. */
export interface Decomposition {
  /** In order of onset; empty when nothing moves beyond the noise. */
  readonly components: readonly SubmovementComponent[];
  /** Index of the first component that covers half of the net displacement, else of the largest; `null` when there is none. */
  readonly primary: number | null;
  /** Share of the energy (squared speed over time) that is left unexplained. */
  readonly residualShare: number;
  /** Bayesian information criterion; comparable between decompositions of one profile with the same noise and cutoff only. */
  readonly bic: number;
  /** Best decompositions with other numbers of components whose criterion lies within 2 of `bic`, best first. */
  readonly alternatives: readonly DecompositionAlternative[];
  /** Of the `starts` that the last component was fitted from, how many ended at an indistinguishable fit. One of several: be wary. */
  readonly startsAgreeing: number;
  readonly starts: number;
  /** Whether the last fit settled, and why it ended. */
  readonly converged: boolean;
  readonly reason: LeastSquaresReason | "noMovement" | "tooFew";
  readonly seed: number;
  /** The shape that was chosen for the component that explains most. */
  readonly bell: BellKind;
}

/**
 * Takes a velocity profile apart into overlapping submovements: velocity = sum over k of (dx_k, dy_k) b((t - onset_k) / duration_k) / duration_k.
 *
 * Finds corrections that no peak of speed shows (see `detectSubmovements`). Components are added one at a time from several starts and refitted
 * jointly, both velocity components at once, until the Bayesian information criterion stops falling. Squared errors count relative to what is
 * to be expected: the noise, and 2 % of the speed of the moment, since no bell is the true shape. The criterion counts 2 `cutoffHz` independent
 * samples per second, because a filtered profile has no more. Among starts, those whose speeds do not add up to the speed seen lose, so that opposite pairs do not arise.
 *
 * Give one movement: a little rest before it, the press at its end. Two bells that start within a fifth of their duration are not told apart.
 * A component is a description, not proof of a correction; compare counts only at the same filter and noise. Cost: 5 to 30 ms per movement.
 *
 * @param profile - even velocity profile, filtered: `t0` in seconds, `vx` and `vy` in the space's unit per second; a segment of `kinematics` serves
 * @param options - see `DecomposeOptions`
 * @returns the components in order of onset, how much they explain, and what else would explain as much; plain data
 * @throws TypeError or RangeError if the profile or an option is not as stated
 * @see joint refit of minimum-jerk or lognormal bells: Rohrer and Hogan 2003, 2006 (recalled); summed speed: recalled; weights and stop rule: this library's, measured in tests/validation
 * @example
 * ```ts
 * const vx = Float64Array.from({ length: 150 }, (_, i) => {
 *   const bell = (from: number, T: number): number => {
 *     const s = Math.min(Math.max((i / 250 - from) / T, 0), 1);
 *     return (30 * s * s * (1 - s) ** 2) / T;
 *   };
 *   return 300 * bell(0.1, 0.3) + 40 * bell(0.32, 0.15);
 * });
 * const { components } = decomposeSubmovements({ t0: 0, sampleRateHz: 250, vx, vy: new Float64Array(150) });
 * components.map((c) => Math.round(c.dx)); // => [300, 40]
 * ```
 */
export function decomposeSubmovements(profile: VelocityProfile, options: DecomposeOptions = {}): Decomposition {
  const { bell = "either", maxComponents = 8, starts = 2, seed = 1, residualShare = 0.02, noiseFloor } = options;
  const { cutoffHz = 20, minDuration = 0.08, maxDuration = 1 } = options;
  const where = "decomposeSubmovements";
  if (profile === null || typeof profile !== "object") {
    throw new TypeError(`${where}: profile must be an even velocity profile with t0, sampleRateHz, vx, vy, got ${show(profile)}`);
  }
  requireNumber(where, "profile.t0", profile.t0);
  requireNumber(where, "profile.sampleRateHz", profile.sampleRateHz, 0, undefined, true);
  requireColumn(where, "profile.vx", profile.vx);
  requireColumn(where, "profile.vy", profile.vy, profile.vx.length);
  requireOneOf(where, "options.bell", bell, ["minimumJerk", "lognormal", "either"]);
  requireInteger(where, "options.maxComponents", maxComponents, 1, 20);
  requireInteger(where, "options.starts", starts, 0, 100);
  requireSeed(where, seed);
  requireNumber(where, "options.residualShare", residualShare, 0, 1);
  if (noiseFloor !== undefined) requireNumber(where, "options.noiseFloor", noiseFloor, 0);
  requireNumber(where, "options.cutoffHz", cutoffHz, 0, undefined, true);
  requireNumber(where, "options.minDuration", minDuration, 0.02, 10);
  requireNumber(where, "options.maxDuration", maxDuration, minDuration, 10);

  const weighted = weighProfile(profile, { cutoffHz, noiseFloor, minDuration, maxDuration });
  const independent = independentSamples(weighted, cutoffHz);
  const settings = { maxComponents, starts, seed, residualShare, independent };
  const few = weighted.weights.length < FEWEST_SAMPLES;
  const candidates = few ? [] : searchEither(weighted, settings, bell);
  const best = candidates.reduce<Candidate | undefined>((a, b) => (a === undefined || b.bic < a.bic ? b : a), undefined);
  const { fit } = best ?? {};
  const components = fit === undefined ? [] : describeBells(fit, profile.t0);
  const unexplained = weighted.speed.some((v) => v > 0) ? 1 : 0;
  return {
    components,
    primary: components.length === 0 ? null : primaryOf(components),
    residualShare: fit === undefined ? unexplained : unexplainedEnergy(weighted, fit),
    bic: best?.bic ?? 0,
    alternatives: best === undefined ? [] : alternativesTo(best, candidates, weighted, profile.t0),
    startsAgreeing: best?.agreeing ?? 0,
    starts: best?.starts ?? 0,
    converged: fit?.converged ?? !few,
    reason: few ? "tooFew" : (fit?.reason ?? "noMovement"),
    seed,
    bell: fit?.kinds[0] ?? "minimumJerk",
  };
}

/** The candidates of one shape, or of both: the symmetric one is searched in full only if it does better with the components found. */
function searchEither(
  weighted: WeightedProfile,
  settings: Omit<Parameters<typeof searchBells>[1], "first">,
  bell: NonNullable<DecomposeOptions["bell"]>,
): Candidate[] {
  const candidates = searchBells(weighted, { ...settings, first: bell === "minimumJerk" ? "minimumJerk" : "lognormal" });
  if (bell !== "either") return candidates;
  const best = candidates.reduce((a, b) => (b.bic < a.bic ? b : a));
  const symmetric = withMinimumJerk(weighted, best, settings.independent);
  if (symmetric.bic >= best.bic) return candidates;
  return [...candidates, symmetric, ...searchBells(weighted, { ...settings, first: "minimumJerk" })];
}

/** For each other number of components the best candidate, if it is about as good. */
function alternativesTo(
  best: Candidate,
  candidates: readonly Candidate[],
  weighted: WeightedProfile,
  t0: number,
): DecompositionAlternative[] {
  const count = (candidate: Candidate): number => candidate.fit?.kinds.length ?? 0;
  const close = candidates.filter((c) => count(c) !== count(best) && c.bic <= best.bic + EQUALLY_GOOD).sort((a, b) => a.bic - b.bic);
  const firsts = close.filter((c, i) => close.findIndex((other) => count(other) === count(c)) === i);
  return firsts.map(({ fit, bic }) => ({
    components: fit === undefined ? [] : describeBells(fit, t0),
    residualShare: fit === undefined ? 1 : unexplainedEnergy(weighted, fit),
    bic,
  }));
}
