import type { Piece } from "./stretch.js";

/**
 * A column `shift` samples earlier, inside the pieces: at a fraction of a sample the cubic through the four neighbours, which bends with the curve where a straight
 * line would flatten it. `has[i]` tells whether the piece reaches that far.
 */
export function shiftBack(column: Float64Array, pieces: readonly Piece[], shift: number): { values: Float64Array; has: Uint8Array } {
  const values = new Float64Array(column.length);
  const has = new Uint8Array(column.length);
  const whole = Math.floor(-shift);
  const f = -shift - whole;
  // Lagrange weights of the samples at -1, 0, 1 and 2
  const w0 = (-f * (f - 1) * (f - 2)) / 6;
  const w1 = ((f + 1) * (f - 1) * (f - 2)) / 2;
  const w2 = (-(f + 1) * f * (f - 2)) / 2;
  const w3 = ((f + 1) * f * (f - 1)) / 6;
  for (const { start, end } of pieces) {
    const from = Math.max(start, start + 1 - whole);
    const to = Math.min(end, end - 2 - whole);
    for (let i = from; i < to; i++) {
      const at = i + whole;
      values[i] = w0 * column[at - 1]! + w1 * column[at]! + w2 * column[at + 1]! + w3 * column[at + 2]!;
      has[i] = 1;
    }
  }
  return { values, has };
}
