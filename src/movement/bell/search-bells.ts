import { SIGMA_OF_MINIMUM_JERK } from "../../math/lognormal-bell.js";
import { createRandom } from "../../math/random.js";
import { type BellKind, PARAMETERS_OF } from "./bell-columns.js";
import { bellCriterion, unexplainedEnergy } from "./bell-criterion.js";
import { type BellFit, fitBells, offsetOf, summedSpeedError, type WeightedProfile } from "./fit-bells.js";
import { type Place, placeBells } from "./place-bells.js";

/** Starts taken from the data for each added component, beside the random ones. */
const DATA_STARTS = 4;
/** Longest duration drawn for a random start, seconds; a longer component is reached from there. */
const LONGEST_START = 0.4;
/**
 * Two more starts split the largest component: into equals that overlap, and into a movement with a correction in its braking. In shares of its
 * duration: how much later the added one begins, how long the first stays, how long the added one lasts.
 */
const SPLITS = [
  { later: 0.3, kept: 0.7, added: 0.7 },
  { later: 0.45, kept: 0.9, added: 0.6 },
] as const;
/** Steps that tell a good start from a bad one, and the settled fit that follows from the best. */
const TRIAL = { maxIterations: 12, changeTolerance: 1e-4, stepTolerance: 1e-7 } as const;
const SETTLED = { maxIterations: 200, changeTolerance: 1e-12, stepTolerance: 1e-9 } as const;
/**
 * Weight of the summed-speed error beside the velocity error when starts are compared: enough to decide against pairs that cancel each other, too
 * little to decide against components that truly overlap in different directions.
 */
const SPEED_WEIGHT = 0.05;
/** Additions in a row without a gain after which nothing more is expected, however large the residual. */
const PATIENCE = 2;

/** How to search; all resolved by the caller. */
export interface SearchSettings {
  /** Shape of the component that is found first, the one that explains most; all others are minimum-jerk. */
  readonly first: BellKind;
  readonly maxComponents: number;
  /** Random starts per added component. */
  readonly starts: number;
  readonly seed: number;
  /** Share of the energy that may stay unexplained when an added component no longer pays. */
  readonly residualShare: number;
  /** Number of independent samples in the profile, both velocity components together. */
  readonly independent: number;
}

/** The best fit with one number of components. */
export interface Candidate {
  /** Absent for no component at all. */
  readonly fit?: BellFit;
  readonly bic: number;
  /** Starts that ended within one unit of deviance of the best, and how many there were. */
  readonly agreeing: number;
  readonly starts: number;
}

/**
 * Adds components one at a time, each time refitting all of them from several starts, until an addition no longer lowers the Bayesian
 * information criterion. Returns the best fit for every number of components tried, beginning with none.
 * Starts are compared by velocity error plus summed-speed error, so that pairs which cancel each other lose; the summed speed takes no part in
 * the fit itself, because components that truly overlap in different directions do not add up in speed.
 */
export function searchBells(profile: WeightedProfile, settings: SearchSettings): Candidate[] {
  const { first, maxComponents, seed, residualShare, independent } = settings;
  const drawPlaces = placeDrawer(profile, seed);
  const perUnit = (2 * profile.weights.length) / independent;
  const candidates: Candidate[] = [{ bic: bellCriterion(profile, undefined, independent), agreeing: 0, starts: 0 }];
  let current: BellFit | undefined;
  let best = candidates[0]!.bic;
  let idle = 0;
  while (candidates.length <= maxComponents && idle < PATIENCE) {
    const places = [...placeBells(profile, current, DATA_STARTS), ...drawPlaces(settings.starts)];
    const trials = startsFor(current, first, places).map(({ kinds, start }) => {
      const fit = fitBells(profile, kinds, start, TRIAL);
      return { fit, cost: fit.residualSum + SPEED_WEIGHT ** 2 * summedSpeedError(profile, fit) };
    });
    if (trials.length === 0) break;
    const winner = trials.reduce((a, b) => (b.cost < a.cost ? b : a));
    const agreeing = trials.filter((trial) => trial.cost - winner.cost <= perUnit).length;
    current = fitBells(profile, winner.fit.kinds, winner.fit.parameters, SETTLED);
    const bic = bellCriterion(profile, current, independent);
    candidates.push({ fit: current, bic, agreeing, starts: trials.length });
    idle = bic < best ? 0 : idle + 1;
    best = Math.min(best, bic);
    if (idle > 0 && unexplainedEnergy(profile, current) < residualShare) break;
  }
  return candidates;
}

/** The same components with a minimum-jerk bell in place of the lognormal, fitted anew. */
export function withMinimumJerk(profile: WeightedProfile, candidate: Candidate, independent: number): Candidate {
  const { fit } = candidate;
  if (fit === undefined) return candidate;
  const kinds = fit.kinds.map((): BellKind => "minimumJerk");
  const start: number[] = [];
  let at = 0;
  for (const kind of fit.kinds) {
    start.push(fit.parameters[at]!, fit.parameters[at + 1]!);
    at += PARAMETERS_OF[kind];
  }
  const refit = fitBells(profile, kinds, start, SETTLED);
  return { ...candidate, fit: refit, bic: bellCriterion(profile, refit, independent) };
}

/** Draws onsets anywhere in the profile, and durations evenly in their logarithm. */
function placeDrawer(profile: WeightedProfile, seed: number): (count: number) => Place[] {
  const random = createRandom(seed);
  const { minDuration, maxDuration } = profile;
  const latest = Math.max(0, (profile.weights.length - 1) * profile.step - minDuration);
  const longest = Math.min(maxDuration, Math.max(minDuration, LONGEST_START));
  return (count) =>
    Array.from({ length: count }, () => ({
      onset: random.uniform(0, latest),
      duration: minDuration * (longest / minDuration) ** random.uniform(),
    }));
}

interface Start {
  readonly kinds: BellKind[];
  readonly start: number[];
}

/** The components there are with one more at each place, and with the largest of them split in two. */
function startsFor(current: BellFit | undefined, first: BellKind, places: readonly Place[]): Start[] {
  if (current === undefined) {
    const shape = first === "lognormal" ? [0, SIGMA_OF_MINIMUM_JERK] : [];
    return places.map(({ onset, duration }) => ({ kinds: [first], start: [onset, duration, ...shape] }));
  }
  const kinds: BellKind[] = [...current.kinds, "minimumJerk"];
  const starts = places.map(({ onset, duration }) => ({ kinds, start: [...current.parameters, onset, duration] }));
  let largest = 0;
  for (let k = 1; k < current.kinds.length; k++) {
    if (current.dx[k]! ** 2 + current.dy[k]! ** 2 > current.dx[largest]! ** 2 + current.dy[largest]! ** 2) largest = k;
  }
  const at = offsetOf(current.kinds, largest);
  const onset = current.parameters[at]!;
  const duration = current.parameters[at + 1]!;
  for (const { later, kept, added } of SPLITS) {
    const start = [...current.parameters, onset + later * duration, added * duration];
    start[at + 1] = kept * duration;
    starts.push({ kinds, start });
  }
  return starts;
}
