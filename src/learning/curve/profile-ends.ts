import type { Runaway } from "./curve-bounds.js";
import type { Solution, Solver } from "./solver.js";

/** The end is found when the root of the residual sum's rise is this near to its limit. */
const CLOSE = 1e-7;
/** Most fits for one end. */
const MOST = 60;
/** Farthest that an end is searched for, in first steps. */
const FARTHEST = 1e5;

/** Ends of an interval; `null` where it does not close within the bounds. */
export type ProfileEnds = readonly [number | null, number | null];

/** A fitted law, and what profiles need of it. */
export interface ProfileTask {
  readonly solver: Solver;
  readonly best: Solution;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** Rise of the residual sum, with a parameter held, up to which its value is in the interval. */
  readonly rise: number;
  readonly runaways: readonly Runaway[];
}

/** Whether parameter `j` is decided by a bound that is there for the search alone. */
export function hasRunAway(runaways: readonly Runaway[], parameters: Float64Array, j: number): boolean {
  return runaways.some(({ place, bound, takes }) => takes.includes(j) && Math.abs(parameters[place]! - bound) <= 1e-9 * Math.abs(bound));
}

/** The values of parameter `j` that the data allow: those with which, all others at their best, the residual sum rises by no more than `rise`. */
export function profileEnds(task: ProfileTask, j: number, firstStep: number): ProfileEnds {
  return [profileEnd(task, j, -firstStep), profileEnd(task, j, firstStep)];
}

function profileEnd(task: ProfileTask, j: number, firstStep: number): number | null {
  const { solver, best, lower, upper, rise, runaways } = task;
  const centre = best.parameters[j]!;
  const bound = firstStep < 0 ? lower[j]! : upper[j]!;
  if (centre === bound) return null;
  const low = lower.slice();
  const high = upper.slice();
  let last = best;
  const start = new Float64Array(best.parameters.length);
  // root of the rise, 1 at the end; it grows about in proportion to the distance
  const height = (at: number): number => {
    const reached = last.parameters[j]! - centre;
    const share = reached === 0 ? 0 : (at - centre) / reached;
    for (let k = 0; k < start.length; k++) start[k] = best.parameters[k]! + share * (last.parameters[k]! - best.parameters[k]!);
    low[j] = at;
    high[j] = at;
    for (let k = 0; k < start.length; k++) start[k] = Math.min(Math.max(start[k]!, low[k]!), high[k]!);
    last = solver.from(start, low, high);
    return Math.sqrt(Math.max(0, last.residualSum - best.residualSum) / rise);
  };
  const cut = (at: number): number => (firstStep < 0 ? Math.max(at, bound) : Math.min(at, bound));
  const closed = (end: number): number | null => (hasRunAway(runaways, last.parameters, j) ? null : end);
  let inner = centre;
  let innerHeight = 0;
  let outer = Number.NaN;
  let outerHeight = 0;
  let at = cut(centre + firstStep);
  let side = 0;
  for (let fits = 0; fits < MOST; fits++) {
    const here = height(at);
    if (Math.abs(here - 1) <= CLOSE) return closed(at);
    if (here < 1) {
      if (at === bound) return null;
      inner = at;
      innerHeight = here;
      // of two steps from the same side the far end counts less (Illinois rule, recalled)
      if (side === -1) outerHeight = 1 + (outerHeight - 1) / 2;
      side = -1;
    } else {
      outer = at;
      outerHeight = here;
      if (side === 1) innerHeight = 1 - (1 - innerHeight) / 2;
      side = 1;
    }
    if (Number.isNaN(outer)) {
      if (Math.abs(at - centre) > FARTHEST * Math.abs(firstStep)) return null;
      at = cut(centre + (at - centre) * Math.min(1.05 / Math.max(here, 0.05), 4));
      side = 0;
      continue;
    }
    if (Math.abs(outer - inner) <= 1e-12 * Math.max(Math.abs(outer), Math.abs(inner))) return closed(outer);
    const next = inner + ((outer - inner) * (1 - innerHeight)) / (outerHeight - innerHeight);
    at = next > Math.min(inner, outer) && next < Math.max(inner, outer) ? next : inner + (outer - inner) / 2;
  }
  return Number.isNaN(outer) ? null : closed(outer);
}
