/** Weighted sums of data and one basis column g, all about their means. */
export interface LinearSums {
  readonly weight: number;
  readonly meanData: number;
  readonly meanBasis: number;
  /** Sum w (g - mean)^2. */
  readonly basisSquare: number;
  /** Sum w (g - mean)(y - mean). */
  readonly product: number;
}

/** The best a and b of a + b g within their bounds, and which of them are free to move. */
export interface LinearPart {
  a: number;
  b: number;
  aFree: boolean;
  bFree: boolean;
}

/** A basis column that varies by less than this share of its size, squared, does not vary. */
const FLAT = 1e-16;

/**
 * Weighted least squares of data on a constant and one column within a box, written into `out`. The sum is convex in a and b, so that outside
 * the box its least value lies on one of the four edges.
 */
export function linearPart(sums: LinearSums, lower: Float64Array, upper: Float64Array, out: LinearPart): void {
  const { weight, meanData, meanBasis, basisSquare, product } = sums;
  const varies = basisSquare > FLAT * weight * meanBasis * meanBasis;
  if (lower[0]! < upper[0]!) {
    const b = varies ? product / basisSquare : Math.min(Math.max(0, lower[1]!), upper[1]!);
    const a = meanData - b * meanBasis;
    if (a >= lower[0]! && a <= upper[0]! && b >= lower[1]! && b <= upper[1]!) {
      out.a = a;
      out.b = b;
      out.aFree = true;
      out.bFree = varies && lower[1]! < upper[1]!;
      return;
    }
  }
  onEdge(sums, lower, upper, out);
}

// apart from what nearly always suffices, whose numbers its closures would put on the heap
function onEdge(sums: LinearSums, lower: Float64Array, upper: Float64Array, out: LinearPart): void {
  const { weight, meanData, meanBasis, basisSquare, product } = sums;
  const loA = lower[0]!;
  const hiA = upper[0]!;
  const loB = lower[1]!;
  const hiB = upper[1]!;
  let least = Number.POSITIVE_INFINITY;
  const take = (a: number, b: number, aFree: boolean, bFree: boolean): void => {
    const offset = meanData - a - b * meanBasis;
    const sum = weight * offset * offset + b * b * basisSquare - 2 * b * product;
    if (!(sum < least)) return;
    least = sum;
    out.a = a;
    out.b = b;
    out.aFree = aFree;
    out.bFree = bFree;
  };
  const square = weight * meanBasis * meanBasis + basisSquare;
  const edgeA = (a: number): void => {
    const best = square > 0 ? (weight * meanBasis * (meanData - a) + product) / square : 0;
    const b = Math.min(Math.max(best, loB), hiB);
    take(a, b, false, square > 0 && best > loB && best < hiB);
  };
  const edgeB = (b: number): void => {
    const best = meanData - b * meanBasis;
    const a = Math.min(Math.max(best, loA), hiA);
    take(a, b, best > loA && best < hiA, false);
  };
  if (loA - loA === 0) edgeA(loA);
  if (hiA > loA && hiA - hiA === 0) edgeA(hiA);
  if (loB - loB === 0) edgeB(loB);
  if (hiB > loB && hiB - hiB === 0) edgeB(hiB);
}
