import type { Estimate } from "../../math/estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { Piece, Stretch } from "./stretch.js";

/** Errors of following are alike from one moment to the next; stretches of this length hardly are, seconds. */
const UNIT = 2;

/** A column summed up over the samples used, and over each stretch that counts as independent of the others. */
export interface Sums {
  readonly total: number;
  readonly n: number;
  readonly units: readonly { readonly sum: number; readonly n: number }[];
}

/** Cuts the pieces into stretches of at least 2 s, equally long within a piece; shorter pieces give none. */
export function unitsOf({ pieces, rate }: Pick<Stretch, "pieces" | "rate">): Piece[] {
  return pieces.flatMap(({ start, end }) => {
    const count = Math.floor((end - start) / (UNIT * rate));
    return Array.from({ length: count }, (_, k) => ({
      start: start + Math.round((k * (end - start)) / count),
      end: start + Math.round(((k + 1) * (end - start)) / count),
    }));
  });
}

/** Sums of `value` over the samples used; `counts` tells which of them count, by default all. */
export function sumUp(
  { pieces }: Pick<Stretch, "pieces">,
  units: readonly Piece[],
  value: (i: number) => number,
  counts: (i: number) => boolean = () => true,
): Sums {
  const over = ({ start, end }: Piece): { sum: number; n: number } => {
    let sum = 0;
    let n = 0;
    for (let i = start; i < end; i++) {
      if (!counts(i)) continue;
      sum += value(i);
      n++;
    }
    return { sum, n };
  };
  const whole = pieces.map(over);
  return {
    total: whole.reduce((sum, piece) => sum + piece.sum, 0),
    n: whole.reduce((sum, piece) => sum + piece.n, 0),
    units: units.map(over),
  };
}

/**
 * How an interval is laid about a ratio m with standard error s. `plain`: m +- t s. `root`: of the root of m, on the logarithm. `share`: on the
 * logarithm of the odds, so that it stays within 0 and 1.
 */
export type Scale = "plain" | "positive" | "root" | "share";

/**
 * The ratio of two sums (by default a mean: a sum over its count) with a Student interval from the units: their residuals a - m b are taken as independent, so that
 * autocorrelation within units costs nothing and that between units is not seen. `n` is the number of units; with fewer than two, or nothing to divide
 * by, there is no interval.
 */
export function ratioOverUnits(over: Sums, under: Sums | undefined, scale: Scale, unit: string, level: number): Estimate {
  const below = under?.total ?? over.n;
  const units = over.units.map(({ sum, n }, k) => ({ a: sum, b: under === undefined ? n : under.units[k]!.sum }));
  const n = units.length;
  if (!(below > 0)) return { ok: false, why: "tooFew", unit, n };
  const m = over.total / below;
  const value = (scale === "root" ? Math.sqrt(m) : m) + 0;
  const weight = units.reduce((sum, { b }) => sum + b, 0) / n;
  if (n < 2 || !(weight > 0)) return { ok: true, value, unit, n };
  const squares = units.reduce((sum, { a, b }) => sum + ((a - m * b) / weight) ** 2, 0);
  const half = -studentQuantile((1 - level) / 2, n - 1) * Math.sqrt(squares / (n * (n - 1)));
  const interval = intervalOf(m, half, scale);
  return interval === undefined ? { ok: true, value, unit, n } : { ok: true, value, unit, n, interval, level };
}

function intervalOf(m: number, half: number, scale: Scale): readonly [number, number] | undefined {
  if (scale === "plain") return [m - half, m + half];
  if (scale === "share") {
    if (m <= 0 || m >= 1) return undefined;
    const stretch = Math.exp(half / (m * (1 - m)));
    const odds = m / (1 - m);
    const share = (value: number): number => (value === Number.POSITIVE_INFINITY ? 1 : value / (1 + value));
    return [share(odds / stretch), share(odds * stretch)];
  }
  if (m <= 0) return half === 0 ? [0, 0] : undefined;
  const stretch = Math.exp(half / m);
  if (!Number.isFinite(m * stretch)) return undefined;
  return scale === "root" ? [Math.sqrt(m / stretch), Math.sqrt(m * stretch)] : [m / stretch, m * stretch];
}
