import { inverseFromTriangle } from "./curve-covariance.js";
import type { DecayPoint } from "./decay-point.js";

/** Where less than this share of the squared tilt is its own, the sums have lost too many digits. */
const OWN = 1e-6;

/**
 * Inverse of the information about a (where `hasEnd`), b and c, from the sums of the last look instead of the derivatives themselves. Their columns are
 * 1, s g and -b (u + o) g, when u is counted from the lag `o` on and b = s b(o), s = exp(-c o).
 */
export function decayInformation(point: DecayPoint, hasEnd: boolean, origin: number, back: number): number[][] | undefined {
  const { weight, meanBasis, basisSquare, b, sumTilt, tiltSquare, cross } = point;
  // g and its tilt, less their means beside a constant
  const square = hasEnd ? basisSquare : basisSquare + weight * meanBasis * meanBasis;
  const along = hasEnd ? cross : cross + meanBasis * sumTilt;
  const whole = hasEnd ? tiltSquare - (sumTilt * sumTilt) / weight : tiltSquare;
  const own = whole - (along * along) / square;
  if (!(own > OWN * tiltSquare && b !== 0)) return undefined;
  const root = Math.sqrt(square);
  const gain = [back * root, (-b * (along + origin * square)) / root, Math.abs(b) * Math.sqrt(own)] as const;
  if (!hasEnd) return inverseFromTriangle([gain[0], gain[1], 0, gain[2]], 2);
  const size = Math.sqrt(weight);
  const ones = [size, back * size * meanBasis, (-b * (sumTilt + origin * weight * meanBasis)) / size] as const;
  return inverseFromTriangle([...ones, 0, gain[0], gain[1], 0, 0, gain[2]], 3);
}
