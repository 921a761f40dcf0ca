import { laggedProducts } from "../../math/lagged-products.js";
import type { FlatPair } from "./flatten.js";
import type { Piece } from "./stretch.js";

/** A velocity that varies by less than this share of its RMS is constant. */
const CONSTANT = 0.02;
/** Correlation of a motion with itself at longer shifts than this adds nothing, seconds. */
const MEMORY = 2;

/** Whether the target's velocity hardly differs from its mean. */
export function isConstant({ qx, qy }: FlatPair, pieces: readonly Piece[]): boolean {
  let n = 0;
  let x = 0;
  let y = 0;
  for (const { start, end } of pieces) {
    for (let i = start; i < end; i++) {
      x += qx[i]!;
      y += qy[i]!;
    }
    n += end - start;
  }
  let about = 0;
  let whole = 0;
  for (const { start, end } of pieces) {
    for (let i = start; i < end; i++) {
      about += (qx[i]! - x / n) ** 2 + (qy[i]! - y / n) ** 2;
      whole += qx[i]! ** 2 + qy[i]! ** 2;
    }
  }
  return !(about > CONSTANT * CONSTANT * whole);
}

/**
 * Standard error of the correlation of two unrelated motions, each alike from one sample to the next (Bartlett, recalled): with the sums C(k) of products at
 * the shift k, the root of (sum over k of C_q(k) C_p(k)) / (n C_q(0) C_p(0)), both axes added up.
 */
export function chanceError(pair: FlatPair, pieces: readonly Piece[], rate: number): number {
  const longest = pieces.reduce((most, { start, end }) => Math.max(most, end - start), 1);
  const shifts = Math.min(longest, Math.ceil(MEMORY * rate));
  const plan = laggedProducts(longest, shifts);
  const withItself = (column: Float64Array): Float64Array => {
    const sums = new Float64Array(shifts);
    for (const { start, end } of pieces) {
      const own = column.slice(start, end);
      const mean = own.reduce((sum, value) => sum + value, 0) / own.length;
      const centred = own.map((value) => value - mean);
      const products = plan(centred, centred);
      for (let k = 0; k < shifts; k++) sums[k]! += products[k]!;
    }
    return sums;
  };
  const [qx, qy, px, py] = [withItself(pair.qx), withItself(pair.qy), withItself(pair.px), withItself(pair.py)];
  const both = (qx[0]! + qy[0]!) * (px[0]! + py[0]!);
  if (!(both > 0)) return Number.POSITIVE_INFINITY;
  let products = 0;
  for (let k = 0; k < shifts; k++) products += (k === 0 ? 1 : 2) * (qx[k]! * px[k]! + qy[k]! * py[k]!);
  const n = pieces.reduce((sum, { start, end }) => sum + end - start, 0);
  return Math.sqrt(Math.max(0, products) / (n * both));
}
