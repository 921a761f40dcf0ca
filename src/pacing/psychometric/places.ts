import { quadraticForm } from "../../math/quadratic-form.js";
import { smallInverse } from "../scatter/small-inverse.js";
import { type BinomialProblem, type Curve, informationAt } from "./maximize.js";

/** What can be read off a curve. Places lie on the axis of the fit. */
export type Quantity =
  /** Where F reaches the share that the shape has at z = 0. */
  | { readonly kind: "location" }
  | { readonly kind: "spread" }
  | { readonly kind: "lapse" }
  /** Where hits reach this share, guesses and lapses included. */
  | { readonly kind: "threshold"; readonly share: number };

/** z at which the curve reaches a share of hits, and its growth with the lapse; z infinite where it never does. */
export function heightFor(
  { shape, guess }: Pick<BinomialProblem, "shape" | "guess">,
  share: number,
  lapse: number,
): readonly [number, number] {
  const room = 1 - guess - lapse;
  const part = (share - guess) / room;
  if (part >= 1) return [Number.POSITIVE_INFINITY, 0];
  const z = shape.quantile(part);
  return [z, part / room / Math.max(shape.density(z), 1e-300)];
}

/** The value of a quantity; infinite where a flat or lapsing curve never gets there. */
export function readOff(problem: BinomialProblem, curve: Curve, quantity: Quantity): number {
  const { height, slope, lapse } = curve;
  if (quantity.kind === "lapse") return lapse;
  if (quantity.kind === "spread") return 1 / slope;
  const z = quantity.kind === "location" ? 0 : heightFor(problem, quantity.share, lapse)[0];
  if (z === Number.POSITIVE_INFINITY) return z;
  // z = height decides to which side a flat curve leaves it
  return problem.centre + (z - height) / slope;
}

/** Standard errors of quantities from the expected information at the curve, a lapse or spread at one of its bounds taken as known; `null` where the data do not hold one. */
export function standardErrorsOf(problem: BinomialProblem, curve: Curve, quantities: readonly Quantity[]): readonly (number | null)[] {
  const inside = (value: number, [low, high]: readonly [number, number]): boolean => value > low && value < high;
  const free = [0, ...(inside(curve.slope, problem.slopes) ? [1] : []), ...(inside(curve.lapse, problem.lapses) ? [2] : [])];
  const information = informationAt(problem, curve);
  const covariance = smallInverse(free.map((i) => free.map((j) => information[i]![j]!)));
  return quantities.map((quantity) => {
    if (covariance === undefined) return null;
    const gradient = gradientOf(problem, curve, quantity);
    const slope = free.map((i) => gradient[i]!);
    const variance = quadraticForm(covariance, slope);
    return variance > 0 && Number.isFinite(variance) ? Math.sqrt(variance) : null;
  });
}

/** Growth of a quantity with height, slope and lapse. */
function gradientOf(problem: BinomialProblem, { height, slope, lapse }: Curve, quantity: Quantity): readonly number[] {
  if (quantity.kind === "lapse") return [0, 0, 1];
  if (quantity.kind === "spread") return [0, -1 / slope ** 2, 0];
  const [z, growth] = quantity.kind === "location" ? [0, 0] : heightFor(problem, quantity.share, lapse);
  return [-1 / slope, -(z - height) / slope ** 2, growth / slope];
}
