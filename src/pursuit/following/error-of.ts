import type { Estimate } from "../../math/estimate.js";
import type { PursuitErrorIn } from "../types.js";
import type { Piece, Stretch } from "./stretch.js";
import { ratioOverUnits, type Sums, sumUp } from "./units.js";

/** Pointer minus target at each sample: to the right and down, and along and across the target's motion where it `moves`. */
export interface ErrorColumns {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly along: Float64Array;
  readonly across: Float64Array;
  readonly speed: Float64Array;
  readonly moves: Uint8Array;
}

/** Slower than this share of its own RMS speed the target has no direction that means anything. */
const SLOW = 0.1;

/** The errors of a stretch, and the target's speed. Across is positive to the left of the target's travel where y points down. */
export function errorColumns({ smooth, velocity, pieces }: Stretch): ErrorColumns {
  const n = smooth.px.length;
  const x = smooth.px.map((value, i) => value - smooth.qx[i]!);
  const y = smooth.py.map((value, i) => value - smooth.qy[i]!);
  const speed = velocity.qx.map((value, i) => Math.sqrt(value * value + velocity.qy[i]! * velocity.qy[i]!));
  let squares = 0;
  let count = 0;
  for (const { start, end } of pieces) {
    for (let i = start; i < end; i++) squares += speed[i]! * speed[i]!;
    count += end - start;
  }
  const floor = SLOW * Math.sqrt(squares / Math.max(1, count));
  const along = new Float64Array(n);
  const across = new Float64Array(n);
  const moves = new Uint8Array(n);
  for (let i = 0; i < n; i++) {
    if (!(speed[i]! > floor)) continue;
    const ux = velocity.qx[i]! / speed[i]!;
    const uy = velocity.qy[i]! / speed[i]!;
    along[i] = x[i]! * ux + y[i]! * uy;
    across[i] = x[i]! * uy - y[i]! * ux;
    moves[i] = 1;
  }
  return { x, y, along, across, speed, moves };
}

/** What the errors are like, each divided by `divisor` at its sample. */
export function describeError(
  stretch: Stretch,
  units: readonly Piece[],
  columns: ErrorColumns,
  divisor: ((i: number) => number) | undefined,
  unit: string,
  level: number,
): PursuitErrorIn {
  const { x, y, along, across, moves } = columns;
  const by = divisor ?? (() => 1);
  const moving = (i: number): boolean => moves[i] === 1;
  const square = (i: number): number => (x[i]! * x[i]! + y[i]! * y[i]!) / by(i) ** 2;
  const mean = (sums: Sums): number => (sums.n > 0 ? sums.total / sums.n : 0);
  const axis = (column: Float64Array) => {
    const first = sumUp(stretch, units, (i) => column[i]! / by(i), moving);
    const centre = mean(first);
    const second = sumUp(stretch, units, (i) => (column[i]! / by(i) - centre) ** 2, moving);
    return {
      centre,
      second,
      figures: { bias: ratioOverUnits(first, undefined, "plain", unit, level), sd: ratioOverUnits(second, undefined, "root", unit, level) },
    };
  };
  const a = axis(along);
  const c = axis(across);
  const squares = sumUp(stretch, units, square);
  const squared = `${unit}^2`;
  return {
    rms: ratioOverUnits(squares, undefined, "root", unit, level),
    radial: ratioOverUnits(
      sumUp(stretch, units, (i) => Math.sqrt(square(i))),
      undefined,
      "positive",
      unit,
      level,
    ),
    alongMotion: a.figures,
    acrossMotion: c.figures,
    meanSquare: ratioOverUnits(sumUp(stretch, units, square, moving), undefined, "positive", squared, level),
    squaredBias: squaredLength(stretch, units, columns, by, [a.centre, c.centre], squared, level),
    variance: ratioOverUnits(addSums(a.second, c.second), undefined, "positive", squared, level),
  };
}

/** The squared length of the bias; its interval is that of the bias along its own direction, squared. */
function squaredLength(
  stretch: Stretch,
  units: readonly Piece[],
  { along, across, moves }: ErrorColumns,
  by: (i: number) => number,
  [a, c]: readonly [number, number],
  unit: string,
  level: number,
): Estimate {
  const length = Math.sqrt(a * a + c * c);
  const ua = length > 0 ? a / length : 1;
  const uc = length > 0 ? c / length : 0;
  const sums = sumUp(
    stretch,
    units,
    (i) => (ua * along[i]! + uc * across[i]!) / by(i),
    (i) => moves[i] === 1,
  );
  const found = ratioOverUnits(sums, undefined, "plain", unit, level);
  if (!found.ok) return found;
  const { interval, ...rest } = found;
  const value = found.value ** 2;
  if (interval === undefined) return { ...rest, value };
  const low = Math.max(0, interval[0]);
  return { ...rest, value, interval: [low * low, interval[1] * interval[1]] };
}

/** Two sums over the same samples. */
function addSums(a: Sums, b: Sums): Sums {
  return {
    total: a.total + b.total,
    n: a.n,
    units: a.units.map(({ sum, n }, k) => ({ sum: sum + b.units[k]!.sum, n })),
  };
}
