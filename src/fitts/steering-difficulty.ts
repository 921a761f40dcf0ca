import { requireColumn, requireNumber } from "../math/require.js";

const WHERE = "steeringDifficulty";

/**
 * How hard it is to steer through a tunnel without touching its walls: its length counted in widths.
 *
 * Formula: the integral of ds/W(s) along the middle line. Between two points of the columns the width changes evenly, and each such piece is
 * taken in closed form, ds ln(W2/W1)/(W2 - W1), which is ds/W where the width stays. Two points of one width are a straight tunnel (A/W), two
 * points of different widths a cone. A step in width is two points at the same arc length. The number has no unit and is not bits:
 * it belongs to MT = a + b ID with its own b, and not to Fitts' law. Cost O(n).
 *
 * @param arcLength - distance covered along the middle line at each point, never running backward, at least two points
 * @param width - width of the tunnel at those points, above 0, same unit
 * @returns the index; higher is harder; the same in both directions
 * @throws TypeError if a column is no `Float64Array`; RangeError if they differ in length, hold fewer than two points or an entry is out of range
 * @see Accot and Zhai 1997 (abstract note read; integral form read in a secondary source)
 * @example
 * ```ts
 * steeringDifficulty(Float64Array.of(0, 500), Float64Array.of(20, 20)); // => 25
 * steeringDifficulty(Float64Array.of(0, 500), Float64Array.of(20, 40)); // => 17.3287
 * ```
 */
export function steeringDifficulty(arcLength: Float64Array, width: Float64Array): number {
  requireColumn(WHERE, "arcLength", arcLength);
  requireColumn(WHERE, "width", width, arcLength.length);
  const n = arcLength.length;
  if (n < 2) throw new RangeError(`${WHERE}: arcLength must have at least 2 entries, got ${n}`);
  requireWidth(width, 0);
  let total = 0;
  for (let i = 1; i < n; i++) {
    requireWidth(width, i);
    const ds = arcLength[i]! - arcLength[i - 1]!;
    if (ds < 0)
      throw new RangeError(`${WHERE}: arcLength must not run backward, got arcLength[${i}] = ${arcLength[i]} after ${arcLength[i - 1]}`);
    total += piece(ds, Math.min(width[i - 1]!, width[i]!), Math.max(width[i - 1]!, width[i]!));
  }
  requireNumber(WHERE, "arcLength / width", total);
  return total;
}

function requireWidth(width: Float64Array, i: number): void {
  if (!(width[i]! > 0)) throw new RangeError(`${WHERE}: width[${i}] must be above 0, got ${width[i]}`);
}

/** ds ln(wide/narrow)/(wide - narrow), written with the relative growth, which keeps its digits as the two widths meet. */
function piece(ds: number, narrow: number, wide: number): number {
  if (ds === 0) return 0;
  const growth = (wide - narrow) / narrow;
  return growth === 0 ? ds / narrow : ((ds / narrow) * Math.log1p(growth)) / growth;
}
