import { evenStep, fillBasis } from "./decay-basis.js";
import { type LinearPart, linearPart } from "./linear-part.js";

/** Data of a law a + b exp(-c u), ready for many looks at it. */
export interface DecayData {
  readonly n: number;
  /** u, not falling; and the step between them where that is even, else 0. */
  readonly lag: Float64Array;
  readonly step: number;
  readonly value: Float64Array;
  readonly weight: Float64Array;
  /** Sum of the weights, and the weighted mean of the values. */
  readonly weightSum: number;
  readonly meanData: number;
}

/** The law at one c, with the best a and b for it. */
export interface DecayPoint extends LinearPart {
  c: number;
  /** Weighted sum of squared residuals, a and b at their best. */
  sum: number;
  /** Its derivative by c; exact, because a and b are at their best. */
  slope: number;
  /** Its second derivative; where that is not clearly above 0, the part of it that never is below (Gauss and Newton's). */
  curvature: number;
  // sums that the linear part asks for
  weight: number;
  meanData: number;
  meanBasis: number;
  basisSquare: number;
  product: number;
  // and those of the tilt u g: its sum, its squares, and its product with g less the mean of g
  sumTilt: number;
  tiltSquare: number;
  cross: number;
}

/** A second derivative below this share of Gauss and Newton's is not trusted. */
const LEAST_SHARE = 0.1;

export function decayData(lag: Float64Array, value: Float64Array, weight: Float64Array): DecayData {
  const n = lag.length;
  let weightSum = 0;
  for (let i = 0; i < n; i++) weightSum += weight[i]!;
  const share = 1 / weightSum;
  let meanData = 0;
  for (let i = 0; i < n; i++) meanData += weight[i]! * share * value[i]!;
  return { n, lag, step: evenStep(lag), value, weight, weightSum, meanData };
}

export function createDecayPoint(): DecayPoint {
  return {
    a: 0,
    b: 0,
    aFree: false,
    bFree: false,
    c: 0,
    sum: 0,
    slope: 0,
    curvature: 0,
    weight: 0,
    meanData: 0,
    meanBasis: 0,
    basisSquare: 0,
    product: 0,
    sumTilt: 0,
    tiltSquare: 0,
    cross: 0,
  };
}

/** Looks at the law at `c`: fills `basis` with exp(-c u) and `point` with what follows. At most one exponential per value. */
export function lookAt(data: DecayData, c: number, lower: Float64Array, upper: Float64Array, basis: Float64Array, point: DecayPoint): void {
  const { n, lag, value, weight, weightSum, meanData } = data;
  fillBasis(lag, data.step, c, basis);
  let sumBasis = 0;
  for (let i = 0; i < n; i++) sumBasis += weight[i]! * basis[i]!;
  const meanBasis = sumBasis / weightSum;
  let basisSquare = 0;
  let product = 0;
  let sumTilt = 0;
  let tiltSquare = 0;
  let cross = 0;
  for (let i = 0; i < n; i++) {
    const w = weight[i]!;
    const off = basis[i]! - meanBasis;
    const tilt = lag[i]! * basis[i]!;
    basisSquare += w * off * off;
    product += w * off * (value[i]! - meanData);
    sumTilt += w * tilt;
    tiltSquare += w * tilt * tilt;
    cross += w * off * tilt;
  }
  point.c = c;
  point.weight = weightSum;
  point.meanData = meanData;
  point.meanBasis = meanBasis;
  point.basisSquare = basisSquare;
  point.product = product;
  point.sumTilt = sumTilt;
  point.tiltSquare = tiltSquare;
  point.cross = cross;
  linearPart(point, lower, upper, point);
  const { a, b } = point;
  let sum = 0;
  let pulled = 0;
  let bent = 0;
  for (let i = 0; i < n; i++) {
    const rest = value[i]! - a - b * basis[i]!;
    const pull = weight[i]! * rest;
    const tilted = pull * lag[i]! * basis[i]!;
    sum += pull * rest;
    pulled += tilted;
    bent += tilted * lag[i]!;
  }
  point.sum = sum;
  point.slope = 2 * b * pulled;
  // what of the tilt the free ones of a and b cannot take up, without the residuals' share and with it
  let plain = b * b * tiltSquare;
  let whole = plain - b * bent;
  if (point.aFree) {
    const taken = (b * sumTilt * (b * sumTilt)) / weightSum;
    plain -= taken;
    whole -= taken;
  }
  if (point.bFree) {
    const along = b * (point.aFree ? cross : cross + meanBasis * sumTilt);
    const square = point.aFree ? basisSquare : basisSquare + weightSum * meanBasis * meanBasis;
    plain -= (along * along) / square;
    whole -= ((along - pulled) * (along - pulled)) / square;
  }
  point.curvature = 2 * (whole > LEAST_SHARE * plain ? whole : Math.max(plain, 0));
}
