/** Any double is a whole number of these: 2^-1074. */
const SCALE = 1074;

/**
 * Sum of products of deviations, sum (x - mean x)(y - mean y), from sums held exactly (`exact-sum.ts`): (n sum xy - sum x sum y)/n. The difference, in which
 * nearly all digits may cancel, is taken in whole numbers, so that the result is rounded once, however large the mean beside the spread.
 */
export function sumOfDeviations(n: number, sumX: readonly number[], sumY: readonly number[], sumXY: readonly number[]): number {
  const difference = ((BigInt(n) * wholeNumber(sumXY)) << BigInt(SCALE)) - wholeNumber(sumX) * wholeNumber(sumY);
  return toNumber(difference, 2 * SCALE) / n;
}

/** The sum of doubles in units of 2^-1074. */
function wholeNumber(parts: readonly number[]): bigint {
  const view = new DataView(new ArrayBuffer(8));
  let sum = 0n;
  for (const part of parts) {
    view.setFloat64(0, Math.abs(part));
    const bits = view.getBigUint64(0);
    const exponent = bits >> 52n;
    const fraction = bits & 0xfffffffffffffn;
    const size = exponent === 0n ? fraction : (fraction | 0x10000000000000n) << (exponent - 1n);
    sum += part < 0 ? -size : size;
  }
  return sum;
}

/** `value` / 2^`scale`; its 64 leading bits are more than a double holds. */
function toNumber(value: bigint, scale: number): number {
  const size = value < 0n ? -value : value;
  const dropped = Math.max(0, 4 * size.toString(16).length - 64);
  const shift = dropped - scale;
  // in two steps: either power alone is a double, the whole may not be
  const half = Math.trunc(shift / 2);
  const result = Number(size >> BigInt(dropped)) * 2 ** half * 2 ** (shift - half);
  return value < 0n ? -result : result;
}
