import { meanAndSd } from "../../math/mean-and-sd.js";
import { type RunningLines, runningLines } from "./running-lines.js";

/** Residual sums below this share of the squared spread are rounding; the criteria take them as this large. */
const ROUNDING_SHARE = 1e-30;

/** What follows the bend: nothing but one level, or a second line. */
export type StickEnd = "level" | "line";

/** Two lines that meet at a bend. */
export interface BrokenStick {
  /** x of the bend. */
  readonly bend: number;
  /** y at the bend: with a level after it, that level. */
  readonly level: number;
  readonly slopeBefore: number;
  /** 0 for a level. */
  readonly slopeAfter: number;
  readonly residualSum: number;
  /**
   * n ln(residualSum/n) + q ln n, q the fitted numbers, the bend and the residual variance among them: 4 for a level, 5 for a line. Smaller
   * is better.
   */
  readonly bic: number;
  /** The same for one straight line through all values, q = 3. */
  readonly bicOfLine: number;
}

/**
 * Least-squares line that bends once: y = a + b min(x, x0), level from x0 on, or a + b x + d max(0, x - x0); `x` never falls. At least
 * `shortest` (2 or more) different x lie at the bend or before it, and as many at it or after. Exact: between two x the bend is where the
 * lines of both sides cross; where they cross elsewhere, the best bend of that stretch is at one of its ends (Hudson 1966, recalled). There
 * the two lines are pulled to a common point, each by its share of the variance. `undefined` without spread or with too few values. Cost
 * O(n).
 */
export function brokenStick(x: Float64Array, y: Float64Array, end: StickEnd, shortest = 2): BrokenStick | undefined {
  const n = x.length;
  const fitted = end === "level" ? 3 : 4;
  const spread = (n - 1) * meanAndSd(y).sd ** 2;
  if (n <= fitted || !(spread > 0)) return undefined;
  const before = runningLines(x, y);
  const after = runningLines(x.slice().reverse(), y.slice().reverse());
  const ends = groupEnds(x);
  let best: Bend | undefined;
  for (let group = shortest; group <= ends.length - shortest + 1 && group < ends.length; group++) {
    const k = ends[group - 1]!;
    const left = sideOf(before, k - 1, k, "line");
    const right = sideOf(after, n - k - 1, n - k, end);
    const crossing = group <= ends.length - shortest ? crossingOf(left, right, x[k - 1]!, x[k]!) : undefined;
    const bend = crossing ?? joinedAt(left, right, x[k - 1]!);
    if (best === undefined || bend.cost < best.cost) best = bend;
  }
  if (best === undefined) return undefined;
  const { x0: bend, level, slopeBefore, slopeAfter } = best;
  let residualSum = 0;
  for (let i = 0; i < n; i++) residualSum += (y[i]! - level - (x[i]! < bend ? slopeBefore : slopeAfter) * (x[i]! - bend)) ** 2;
  const whole = sideOf(before, n - 1, n, "line");
  const bic = (sum: number, q: number): number => n * Math.log(Math.max(sum, ROUNDING_SHARE * spread) / n) + q * Math.log(n);
  return { bend, level, slopeBefore, slopeAfter, residualSum, bic: bic(residualSum, fitted + 1), bicOfLine: bic(whole.cost, 3) };
}

/** The values on one side of the bend, and their own line. */
interface Side {
  readonly n: number;
  readonly x: number;
  readonly y: number;
  readonly slope: number;
  /** 1 over the variance of the slope, in residual variances: Infinity for a level, 0 where all x are equal and any slope will do. */
  readonly weight: number;
  readonly cost: number;
}

interface Bend {
  readonly x0: number;
  readonly level: number;
  readonly slopeBefore: number;
  readonly slopeAfter: number;
  readonly cost: number;
}

/** Number of values up to and with each different x. */
function groupEnds(x: Float64Array): number[] {
  const ends: number[] = [];
  for (let i = 1; i <= x.length; i++) if (i === x.length || x[i] !== x[i - 1]) ends.push(i);
  return ends;
}

function sideOf({ x, y, xx, xy, yy }: RunningLines, at: number, n: number, end: StickEnd): Side {
  const centre = { n, x: x[at]!, y: y[at]! };
  if (end === "level") return { ...centre, slope: 0, weight: Number.POSITIVE_INFINITY, cost: yy[at]! };
  if (xx[at] === 0) return { ...centre, slope: 0, weight: 0, cost: yy[at]! };
  return { ...centre, slope: xy[at]! / xx[at]!, weight: xx[at]!, cost: Math.max(0, yy[at]! - (xy[at]! / xx[at]!) * xy[at]!) };
}

/** The two lines as they are, if they cross between `from` and `to`. */
function crossingOf(left: Side, right: Side, from: number, to: number): Bend | undefined {
  if (right.weight === 0) return undefined;
  const x0 = left.x + (right.y - left.y + right.slope * (left.x - right.x)) / (left.slope - right.slope);
  if (!(x0 >= from && x0 <= to)) return undefined;
  const level = left.y + left.slope * (x0 - left.x);
  return { x0, level, slopeBefore: left.slope, slopeAfter: right.slope, cost: left.cost + right.cost };
}

/** The two lines, pulled together at `x0` with the least loss. */
function joinedAt(left: Side, right: Side, x0: number): Bend {
  const [a, b] = [left, right].map((side) => {
    const distance = x0 - side.x;
    return { value: side.y + side.slope * distance, variance: 1 / side.n + (distance * distance) / side.weight, distance };
  });
  const apart = a!.value - b!.value;
  const pull = apart / (a!.variance + b!.variance);
  const level = a!.value - pull * a!.variance;
  return {
    x0,
    level,
    slopeBefore: left.slope - (pull * a!.distance) / left.weight,
    slopeAfter: right.weight === 0 ? (right.y - level) / (right.x - x0) : right.slope + (pull * b!.distance) / right.weight,
    cost: left.cost + right.cost + pull * apart,
  };
}
