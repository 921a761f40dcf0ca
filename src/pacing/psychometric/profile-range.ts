import { chiSquareQuantile } from "../../math/chi-square-quantile.js";
import { type BinomialProblem, type Curve, type FittedCurve, maximizeFrom } from "./maximize.js";
import { heightFor, type Quantity, readOff } from "./places.js";

/** How far beyond the levels a place is looked for, in their range: further out, the shape alone would decide. */
const BEYOND = 1;
/** Steps outward before the ends are called open; each is half as long again as the one before. */
const OUTWARD = 40;
const WIDER = 1.5;
/** Halvings of the last step, and the share of it that is left. */
const INWARD = 60;
const FINE = 1e-7;
/** A lapse keeps this far from the one that puts a threshold out of reach. */
const HAIR = 1e-9;

/** Ends of a range on the axis, `null` where the data set none. */
export type OpenRange = readonly [number | null, number | null];

/**
 * All values of a quantity under which the data are no less likely than by chi-squared(level, 1)/2 of logarithm, the other parameters chosen anew for each (profile likelihood).
 * An end that lies further beyond the levels than their own range, or at no spread or an endless one, is open; a bound that was given closes. Cost some 60 small fits.
 */
export function profileRange(problem: BinomialProblem, fit: FittedCurve, quantity: Quantity, level: number): OpenRange {
  if (quantity.kind === "lapse") return lapseRange(problem, fit, level);
  const drop = chiSquareQuantile(level, 1) / 2;
  const { at } = problem.counts;
  const range = at.at(-1)! - at[0]!;
  const spread = quantity.kind === "spread";
  // a spread is looked for on logarithms, between a step and a plain straight line
  const [flattest, steepest] = problem.slopes;
  const [low, high] = spread
    ? [-Math.log(steepest), flattest > 0 ? -Math.log(flattest) : Math.log(1e4 * range)]
    : [at[0]! - BEYOND * range, at.at(-1)! + BEYOND * range];
  const value = readOff(problem, fit, quantity);
  const from = Math.min(Math.max(spread ? Math.log(value) : value, low), high);
  const given = Number.isFinite(from) ? from : (low + high) / 2;
  const excess = (x: number, start: Curve): { readonly over: number; readonly curve: Curve } => {
    const [fixed, begin] = spread ? withSlope(problem, start, Math.exp(-x)) : through(problem, start, quantity, x);
    const found = maximizeFrom(fixed, begin);
    return { over: fit.logLikelihood - found.logLikelihood - drop, curve: found };
  };
  const first = excess(given, fit);
  if (first.over > 0) return [null, null];
  const step = spread ? 0.1 : range / 20;
  const end = (sign: 1 | -1): number | null => {
    const limit = sign > 0 ? high : low;
    let [inside, curve, width] = [given, first.curve, step];
    for (let k = 0; k < OUTWARD && inside !== limit; k++, width *= WIDER) {
      const x = sign > 0 ? Math.min(inside + width, limit) : Math.max(inside - width, limit);
      const tried = excess(x, curve);
      if (tried.over > 0) return crossing(excess, inside, x, curve);
      inside = x;
      curve = tried.curve;
    }
    return spread && flattest > 0 ? limit : null;
  };
  const ends: OpenRange = [end(-1), end(1)];
  return spread ? [ends[0] === null ? null : Math.exp(ends[0]), ends[1] === null ? null : Math.exp(ends[1])] : ends;
}

/** The place between `inside` and `outside` where the excess changes sign, by halving. */
function crossing(
  excess: (x: number, start: Curve) => { readonly over: number; readonly curve: Curve },
  inside: number,
  outside: number,
  start: Curve,
): number {
  let [a, b, curve] = [inside, outside, start];
  for (let k = 0; k < INWARD && Math.abs(b - a) > FINE * Math.abs(outside - inside); k++) {
    const middle = (a + b) / 2;
    const tried = excess(middle, curve);
    if (tried.over > 0) b = middle;
    else {
      a = middle;
      curve = tried.curve;
    }
  }
  return (a + b) / 2;
}

function withSlope(problem: BinomialProblem, start: Curve, slope: number): readonly [BinomialProblem, Curve] {
  // turned about its location: about the centre a steep curve would throw far levels where no step leads back
  const height = start.slope > 0 ? start.height * (slope / start.slope) : start.height;
  return [
    { ...problem, slopes: [slope, slope] },
    { ...start, height, slope },
  ];
}

/** The problem of curves that pass through the wanted share at `u`. */
function through(problem: BinomialProblem, start: Curve, quantity: Quantity, u: number): readonly [BinomialProblem, Curve] {
  const [least, largest] = problem.lapses;
  if (quantity.kind !== "threshold") return [{ ...problem, centre: u, height: () => [0, 0] }, start];
  const { share } = quantity;
  const lapses = [Math.min(least, 1 - share - HAIR), Math.min(largest, 1 - share - HAIR)] as const;
  return [{ ...problem, centre: u, lapses, height: (lapse) => heightFor(problem, share, lapse) }, start];
}

function lapseRange(problem: BinomialProblem, fit: FittedCurve, level: number): OpenRange {
  const [least, largest] = problem.lapses;
  if (least === largest) return [null, null];
  const drop = chiSquareQuantile(level, 1) / 2;
  const excess = (lapse: number, start: Curve): { readonly over: number; readonly curve: Curve } => {
    const found = maximizeFrom({ ...problem, lapses: [lapse, lapse] }, { ...start, lapse });
    return { over: fit.logLikelihood - found.logLikelihood - drop, curve: found };
  };
  const end = (bound: number): number => (excess(bound, fit).over > 0 ? crossing(excess, fit.lapse, bound, fit) : bound);
  return [end(least), end(largest)];
}
