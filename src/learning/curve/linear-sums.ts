import type { LinearSums } from "./linear-part.js";

/** The sums of `linearPart` for values and a basis column, about their weighted means (two passes, so that no digits are lost). */
export function linearSums(value: Float64Array, basis: Float64Array, weight: Float64Array): LinearSums {
  const n = value.length;
  let weightSum = 0;
  for (let i = 0; i < n; i++) weightSum += weight[i]!;
  let meanData = 0;
  let meanBasis = 0;
  for (let i = 0; i < n; i++) {
    meanData += (weight[i]! / weightSum) * value[i]!;
    meanBasis += (weight[i]! / weightSum) * basis[i]!;
  }
  let basisSquare = 0;
  let product = 0;
  for (let i = 0; i < n; i++) {
    const off = basis[i]! - meanBasis;
    basisSquare += weight[i]! * off * off;
    product += weight[i]! * off * (value[i]! - meanData);
  }
  return { weight: weightSum, meanData, meanBasis, basisSquare, product };
}
