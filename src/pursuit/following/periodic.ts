import { laggedProducts } from "../../math/lagged-products.js";
import type { FlatPair } from "./flatten.js";
import { longestPiece, type Piece } from "./stretch.js";

/** A pattern that comes back within this time is learnt at once, seconds. */
const LONGEST_PERIOD = 5;
/** It comes back when its velocity correlates this much with itself, after it did this little. */
const SAME = 0.9;
const APART = 0.5;

/** Whether the target's velocity repeats itself within 5 s; judged on the longest piece. */
export function isPeriodic({ qx, qy }: FlatPair, pieces: readonly Piece[], rate: number): boolean {
  const piece = longestPiece(pieces);
  if (piece === undefined) return false;
  const n = piece.end - piece.start;
  // every shift is judged on the half of the piece that it leaves at least
  const shifts = Math.min(Math.floor(n / 2), Math.ceil(LONGEST_PERIOD * rate)) + 1;
  const plan = laggedProducts(n, shifts);
  const centred = [qx, qy].map((column) => {
    const own = column.slice(piece.start, piece.end);
    const mean = own.reduce((sum, value) => sum + value, 0) / n;
    return own.map((value) => value - mean);
  }) as [Float64Array, Float64Array];
  const products = centred.map((column) => plan(column, column)) as [Float64Array, Float64Array];
  const power = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) power[i + 1] = power[i]! + centred[0][i]! ** 2 + centred[1][i]! ** 2;
  let apart = false;
  for (let k = 1; k < shifts; k++) {
    const size = Math.sqrt(power[n - k]! * (power[n]! - power[k]!));
    const r = size > 0 ? (products[0][k]! + products[1][k]!) / size : 0;
    if (r < APART) apart = true;
    else if (apart && r >= SAME) return true;
  }
  return false;
}
