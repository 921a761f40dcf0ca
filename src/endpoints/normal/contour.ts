// Probability of a region under a standard normal distribution in the plane, from its edge alone. Seen from the mean, the mass of a ray out to
// the distance r is 1 - exp(-r^2/2); so the region holds 1/(2 pi) times the integral of 1 - exp(-r^2/2) over the direction phi as a point
// walks once around the edge (textbook, by polar coordinates). With u = r^2/2 and the point z this is the integral of (1 - exp(-u))/(2u) z x dz, in
// which nothing is singular, wherever the mean lies. Far from the mean exp(-u) is gone and only the angle swept is left, in closed form.
import type { TailsAt } from "../../math/positive-quantile.js";

/** Half the side of a square about the mean beyond which a standard normal distribution has less than 1e-17. */
export const REACH = 8.8;
/** An edge this far away in u, three standard deviations, leaves one tail small: it is then summed by itself and keeps its digits. */
const CLEAR = 4.5;
/** Length in standard deviations that the rule of 20 nodes covers to 1e-15. */
const PANEL = 5;
const MOST_PANELS = 6;

/** What is summed along an edge; plain sums, written in place. */
export interface Contour {
  /** Integral of 1 - exp(-u) over the direction, on the near stretches. */
  held: number;
  /** Integral of exp(-u) over the direction, on the near stretches; of use only where the edge keeps clear of the mean. */
  lost: number;
  /** Angle swept on the far stretches. */
  swept: number;
  /** 2 pi times the change of the probability when the logarithm of the region's size grows by 1. */
  growth: number;
  /** Smallest u met. */
  nearest: number;
}

export function emptyContour(): Contour {
  return { held: 0, lost: 0, swept: 0, growth: 0, nearest: Number.POSITIVE_INFINITY };
}

/** Number of equal panels for a near stretch of this length. */
export function panelsFor(length: number): number {
  return Math.min(MOST_PANELS, Math.max(1, Math.ceil(length / PANEL)));
}

/** Adds one node: `cross` is z x dz/ds there, `flow` the growth that a full density would give, `weight` the length ds of the node. */
export function addNode(sums: Contour, u: number, cross: number, flow: number, weight: number): void {
  const left = Math.exp(-u);
  // each keeps its digits where it is the small one
  const gone = u < 0.5 ? -Math.expm1(-u) : 1 - left;
  if (u > 0) {
    const turn = (weight * cross) / (2 * u);
    sums.held += turn * gone;
    sums.lost += turn * left;
  } else sums.held += (weight * cross) / 2;
  sums.growth += weight * flow * left;
  if (u < sums.nearest) sums.nearest = u;
}

/** Probability inside and outside a closed edge, walked so that the region lies on the left; `inside`: whether the mean does. */
export function tailsOf(sums: Contour, inside: boolean): TailsAt {
  const kernel = sums.growth / (2 * Math.PI);
  if (sums.nearest >= CLEAR) {
    const small = Math.min(1, Math.abs(sums.lost) / (2 * Math.PI));
    return inside ? { lower: 1 - small, upper: small, kernel } : { lower: small, upper: 1 - small, kernel };
  }
  const lower = Math.min(1, Math.max(0, (sums.held + sums.swept) / (2 * Math.PI)));
  return { lower, upper: 1 - lower, kernel };
}
