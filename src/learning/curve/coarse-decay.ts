import { createDecayPoint, type DecayData } from "./decay-point.js";
import { linearPart } from "./linear-part.js";

/** The grid begins where the law is all but a straight line over the data: c times the range of u. */
const NEARLY_STRAIGHT = 0.05;

/** A start of the search for c, and the residual sum there. */
export interface DecayStart {
  readonly c: number;
  readonly sum: number;
}

/**
 * Every dip of the residual sum over a grid of c in steps of a root of 2. The law at twice a c is its square, so that the grid takes two
 * columns of exponentials and otherwise products. They take 3 numbers of `memory` for each value.
 */
export function coarseDecay(data: DecayData, lower: Float64Array, upper: Float64Array, memory: Float64Array): DecayStart[] {
  const { n, lag, value, weight, weightSum, meanData } = data;
  const range = lag[n - 1]! - lag[0]!;
  const first = Math.min(Math.max(lower[2]!, NEARLY_STRAIGHT / range), upper[2]!);
  const even = memory.subarray(0, n);
  const odd = memory.subarray(n, 2 * n);
  const pull = memory.subarray(2 * n, 3 * n);
  for (let i = 0; i < n; i++) {
    even[i] = Math.exp(-first * lag[i]!);
    odd[i] = Math.exp(-first * Math.SQRT2 * lag[i]!);
  }
  let total = 0;
  for (let i = 0; i < n; i++) {
    pull[i] = weight[i]! * (value[i]! - meanData);
    total += pull[i]! * (value[i]! - meanData);
  }
  const point = createDecayPoint();
  point.weight = weightSum;
  point.meanData = meanData;
  const dips: DecayStart[] = [];
  // the three latest sums, and the c of the middle one
  let before = Number.POSITIVE_INFINITY;
  let middle = Number.POSITIVE_INFINITY;
  let middleC = 0;
  let c = first;
  for (let k = 0; ; k++) {
    const past = c > upper[2]!;
    let sum = Number.POSITIVE_INFINITY;
    if (!past) {
      const basis = k % 2 === 0 ? even : odd;
      let sumBasis = 0;
      let square = 0;
      let product = 0;
      for (let i = 0; i < n; i++) {
        const g = basis[i]!;
        const next = g * g;
        sumBasis += weight[i]! * g;
        square += weight[i]! * next;
        product += pull[i]! * g;
        basis[i] = next;
      }
      point.meanBasis = sumBasis / weightSum;
      point.basisSquare = Math.max(0, square - sumBasis * point.meanBasis);
      point.product = product;
      linearPart(point, lower, upper, point);
      const offset = meanData - point.a - point.b * point.meanBasis;
      sum = total + weightSum * offset * offset + point.b * (point.b * point.basisSquare - 2 * product);
    }
    if (middle < before && middle <= sum) dips.push({ c: vertex(middleC, before, middle, sum), sum: middle });
    if (past) break;
    before = middle;
    middle = sum;
    middleC = c;
    c *= Math.SQRT2;
  }
  return dips.length > 0 ? dips : [{ c: middleC, sum: middle }];
}

// the lowest place of the parabola through three sums, over the logarithm of c
function vertex(c: number, before: number, middle: number, after: number): number {
  const bend = before - 2 * middle + after;
  if (!(bend > 0) || bend === Number.POSITIVE_INFINITY) return c;
  const shift = (before - after) / (2 * bend);
  return c * (1 + shift * 0.34657359027997264 * (1 + shift * 0.17328679513998632));
}
