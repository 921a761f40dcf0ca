import { emptySpectrum, fourierPlan, powerOfTwoFrom } from "./fourier.js";

/** Sums of the products of two series against each other: entry `k` is the sum over i of first[i] second[i + k]. */
export type LaggedProducts = (first: Float64Array, second: Float64Array) => Float64Array;

/**
 * A plan for the sums of products at the shifts 0 to `shifts - 1`, of series of up to `length` values against others of up to `length + shifts - 1`; values beyond
 * either end count as 0. By Fourier transforms: cost O(m log m), m = length + shifts, whatever the number of shifts.
 */
export function laggedProducts(length: number, shifts: number): LaggedProducts {
  const size = powerOfTwoFrom(Math.max(2, length + shifts - 1));
  const plan = fourierPlan(size);
  const a = emptySpectrum(size);
  const b = emptySpectrum(size);
  const even = new Float64Array(size);
  const odd = new Float64Array(size);
  return (first, second) => {
    plan(first, a);
    plan(second, b);
    // conj(A) B has an even real and an odd imaginary part; real transforms of the two give the inverse transform
    for (let j = 0; j < a.re.length; j++) {
      const re = a.re[j]! * b.re[j]! + a.im[j]! * b.im[j]!;
      const im = a.re[j]! * b.im[j]! - a.im[j]! * b.re[j]!;
      const mirror = (size - j) % size;
      even[j] = re;
      even[mirror] = re;
      odd[j] = im;
      odd[mirror] = -im;
    }
    odd[0] = 0;
    odd[size / 2] = 0;
    plan(even, a);
    plan(odd, b);
    // beyond half the size the spectra are mirror images: of an even series the same, of an odd one turned round
    return Float64Array.from({ length: shifts }, (_, k) => {
      const j = k <= size / 2 ? k : size - k;
      const turned = k <= size / 2 ? 1 : -1;
      return (a.re[j]! + turned * b.im[j]!) / size;
    });
  };
}
