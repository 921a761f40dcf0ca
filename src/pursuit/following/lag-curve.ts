import { laggedProducts } from "../../math/lagged-products.js";
import type { FlatPair } from "./flatten.js";
import type { Piece } from "./stretch.js";

/** Sums that a correlation at one lag is made of, for each lag: a column per unit. */
interface UnitSums {
  readonly n: Float64Array;
  readonly qx: Float64Array;
  readonly qy: Float64Array;
  readonly qq: Float64Array;
  readonly px: Float64Array;
  readonly py: Float64Array;
  readonly pp: Float64Array;
  readonly qp: Float64Array;
}

/** Correlation of the target's samples with the pointer's `first`, `first + 1`, ... samples later. */
export interface LagCurve {
  readonly first: number;
  readonly count: number;
  readonly units: readonly UnitSums[];
}

const NAMES = ["n", "qx", "qy", "qq", "px", "py", "pp", "qp"] as const;

/**
 * Collects the sums of every unit for the lags `first` to `last`, in samples. A pair of samples counts where both lie in one piece, and belongs to the unit of its
 * target sample. Cost O(samples log), whatever the number of lags.
 */
export function lagCurve(series: FlatPair, pieces: readonly Piece[], units: readonly Piece[], first: number, last: number): LagCurve {
  const count = last - first + 1;
  const longest = units.reduce((most, { start, end }) => Math.max(most, end - start), 1);
  const products = laggedProducts(longest, count);
  // counted from the middle, so that a large mean costs no digits
  const centred = centre(series, pieces);
  const found: UnitSums[] = [];
  for (const piece of pieces) {
    const own = units.filter(({ start, end }) => start >= piece.start && end <= piece.end);
    if (own.length === 0) continue;
    const running = runningSums(centred, piece);
    for (const unit of own) found.push(unitSums(centred, piece, unit, first, count, products, running));
  }
  return { first, count, units: found };
}

/** The correlation at each lag, from the units each taken `weights[k]` times; both axes in one, each about its own mean. 0 where it is not defined. */
export function correlations({ count, units }: LagCurve, weights: ArrayLike<number>): Float64Array {
  const sum = Object.fromEntries(NAMES.map((name) => [name, new Float64Array(count)])) as unknown as UnitSums;
  for (let u = 0; u < units.length; u++) {
    const weight = weights[u]!;
    if (weight === 0) continue;
    for (const name of NAMES) {
      const from = units[u]![name];
      const to = sum[name];
      for (let k = 0; k < count; k++) to[k]! += weight * from[k]!;
    }
  }
  return Float64Array.from({ length: count }, (_, k) => {
    const n = sum.n[k]!;
    if (n < 2) return 0;
    const both = sum.qp[k]! - (sum.qx[k]! * sum.px[k]! + sum.qy[k]! * sum.py[k]!) / n;
    const target = sum.qq[k]! - (sum.qx[k]! ** 2 + sum.qy[k]! ** 2) / n;
    const pointer = sum.pp[k]! - (sum.px[k]! ** 2 + sum.py[k]! ** 2) / n;
    return target > 0 && pointer > 0 ? both / Math.sqrt(target * pointer) : 0;
  });
}

function centre(series: FlatPair, pieces: readonly Piece[]): FlatPair {
  const less = (column: Float64Array): Float64Array => {
    let sum = 0;
    let n = 0;
    for (const { start, end } of pieces) {
      for (let i = start; i < end; i++) sum += column[i]!;
      n += end - start;
    }
    const mean = n > 0 ? sum / n : 0;
    return column.map((value) => value - mean);
  };
  return { qx: less(series.qx), qy: less(series.qy), px: less(series.px), py: less(series.py) };
}

/** Running sums over a piece, entry `i` of the samples before its `i`th. */
type Running = Omit<UnitSums, "n" | "qp">;

function runningSums({ qx, qy, px, py }: FlatPair, { start, end }: Piece): Running {
  const over = (value: (i: number) => number): Float64Array => {
    const sums = new Float64Array(end - start + 1);
    for (let i = start; i < end; i++) sums[i - start + 1] = sums[i - start]! + value(i);
    return sums;
  };
  return {
    qx: over((i) => qx[i]!),
    qy: over((i) => qy[i]!),
    qq: over((i) => qx[i]! * qx[i]! + qy[i]! * qy[i]!),
    px: over((i) => px[i]!),
    py: over((i) => py[i]!),
    pp: over((i) => px[i]! * px[i]! + py[i]! * py[i]!),
  };
}

function unitSums(
  { qx, qy, px, py }: FlatPair,
  piece: Piece,
  unit: Piece,
  first: number,
  count: number,
  products: ReturnType<typeof laggedProducts>,
  running: Running,
): UnitSums {
  const sums = Object.fromEntries(NAMES.map((name) => [name, new Float64Array(count)])) as unknown as UnitSums;
  const x = products(qx.slice(unit.start, unit.end), window(px, piece, unit, first, count));
  const y = products(qy.slice(unit.start, unit.end), window(py, piece, unit, first, count));
  for (let k = 0; k < count; k++) {
    const lag = first + k;
    // the unit's target samples whose partner lies in the piece
    const from = Math.max(unit.start, piece.start - lag) - piece.start;
    const to = Math.min(unit.end, piece.end - lag) - piece.start;
    if (to <= from) continue;
    sums.n[k] = to - from;
    for (const name of ["qx", "qy", "qq"] as const) sums[name][k] = running[name][to]! - running[name][from]!;
    for (const name of ["px", "py", "pp"] as const) sums[name][k] = running[name][to + lag]! - running[name][from + lag]!;
    sums.qp[k] = x[k]! + y[k]!;
  }
  return sums;
}

/** The samples that a unit meets at the lags, 0 beyond the piece. */
function window(column: Float64Array, piece: Piece, unit: Piece, first: number, count: number): Float64Array {
  const from = unit.start + first;
  const length = unit.end - unit.start + count - 1;
  const out = new Float64Array(length);
  const low = Math.max(from, piece.start);
  const high = Math.min(from + length, piece.end);
  if (high > low) out.set(column.subarray(low, high), low - from);
  return out;
}
