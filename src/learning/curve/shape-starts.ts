import type { CurveColumns } from "./columns.js";
import type { BuiltInLaw } from "./curve-laws.js";
import { type LinearPart, linearPart } from "./linear-part.js";
import { linearSums } from "./linear-sums.js";

/** Values that the coarse look takes at most. */
const THIN = 40;
/** Steps of the grid in each direction. */
const ACROSS = 14;
/** Exponent of a power law that is nearly a logarithm. */
const LEAST_POWER = 0.03;
/** Latest middle of a late fall, in ranges of practice after the first value. */
const BEYOND = 1.7;

/** Starts for the shape of a law with two such parameters: every dip of the residual sum over a grid, on thinned data. */
export function shapeStarts(columns: CurveColumns, law: BuiltInLaw, lower: Float64Array, upper: Float64Array): Float64Array[] {
  if (law.shape.length === 0) return [new Float64Array(2)];
  const { practice, value, weight } = thinned(columns);
  const n = practice.length;
  const range = columns.practice[columns.n - 1]! - columns.practice[0]!;
  const one = firstGrid(law, range, columns, lower[2]!, upper[2]!);
  const second = secondGrid(law, range, columns, lower[3]!, upper[3]!);
  const look = new Float64Array(3);
  const basis = new Float64Array(n);
  const part: LinearPart = { a: 0, b: 0, aFree: false, bFree: false };
  const sumAt = (c: number, d: number): number => {
    const shape = [c, d];
    for (let i = 0; i < n; i++) {
      law.at(practice[i]!, shape, look);
      basis[i] = look[0]!;
    }
    linearPart(linearSums(value, basis, weight), lower, upper, part);
    let sum = 0;
    for (let i = 0; i < n; i++) sum += weight[i]! * (value[i]! - part.a - part.b * basis[i]!) ** 2;
    return sum - sum === 0 ? sum : Number.POSITIVE_INFINITY;
  };
  const twos = one.map(second);
  const table = one.map((c, i) => twos[i]!.map((d) => sumAt(c, d)));
  const starts: Float64Array[] = [];
  for (let i = 0; i < one.length; i++) {
    for (let j = 0; j < twos[i]!.length; j++) {
      const here = table[i]![j]!;
      if (!(here < Number.POSITIVE_INFINITY)) continue;
      let dip = true;
      for (let di = -1; di <= 1 && dip; di++) {
        for (let dj = -1; dj <= 1; dj++) {
          const beside = table[i + di]?.[j + dj];
          // of equal neighbours the first counts
          if (beside !== undefined && (beside < here || (beside === here && (di < 0 || (di === 0 && dj < 0))))) dip = false;
        }
      }
      if (dip) starts.push(Float64Array.of(0, 0, one[i]!, twos[i]![j]!));
    }
  }
  return starts.length > 0 ? starts : [Float64Array.of(0, 0, one[0]!, twos[0]![0]!)];
}

function firstGrid(law: BuiltInLaw, range: number, { step }: CurveColumns, low: number, high: number): number[] {
  if (law.formula.includes("^-c")) return evenSteps(LEAST_POWER, high, low, high);
  // a steep late fall can lie between any two values: a finer grid
  return evenSteps(...ratesOver(range, step), low, high, 3 * ACROSS);
}

/** The grid of the second parameter at a value of the first. */
function secondGrid(
  law: BuiltInLaw,
  range: number,
  { step, practice, n }: CurveColumns,
  low: number,
  high: number,
): (c: number) => number[] {
  const [, letter] = law.shape;
  if (letter === "e") {
    const grid = evenSteps(0.02 * practice[n - 1]!, high, low, high);
    return () => grid;
  }
  if (law.formula.includes("^-c")) {
    const grid = evenSteps(...ratesOver(range, step), low, high);
    return () => grid;
  }
  // by the practice at which the fall is in full swing, ln(d + 1)/c: from none to well beyond the range
  return (c) =>
    Array.from({ length: ACROSS }, (_, k) =>
      Math.min(Math.max(Math.expm1(Math.min(BEYOND * c * range * (k / (ACROSS - 1)) ** 2, 300)), low), high),
    );
}

/** Rates between a nearly straight line and a fall within one step. */
function ratesOver(range: number, step: number): [number, number] {
  return [0.1 / range, 10 / Math.max(step, range / 200)];
}

// even steps on a logarithmic scale, within the bounds; and the lower bound itself
function evenSteps(first: number, last: number, low: number, high: number, count = ACROSS): number[] {
  const from = Math.min(Math.max(first, low), high);
  const to = Math.min(Math.max(last, from), high);
  const grid = new Set<number>([low]);
  for (let k = 0; k < count; k++) grid.add(Math.min(Math.max(from * (to / from) ** (k / (count - 1)), low), high));
  return [...grid].sort((a, b) => a - b);
}

function thinned(columns: CurveColumns): { practice: Float64Array; value: Float64Array; weight: Float64Array } {
  const { n, practice, value, weight } = columns;
  if (n <= THIN) return { practice, value, weight };
  // groups that grow with the place, so that the steep start stays fine
  const edges = new Set<number>([0, n]);
  for (let k = 1; k < THIN; k++) edges.add(Math.max(k <= 10 ? k : 0, Math.round(n ** (k / THIN))));
  const cuts = [...edges].sort((a, b) => a - b);
  const groups = cuts.slice(1).map((to, g) => {
    let w = 0;
    let x = 0;
    let y = 0;
    for (let i = cuts[g]!; i < to; i++) {
      w += weight[i]!;
      x += weight[i]! * practice[i]!;
      y += weight[i]! * value[i]!;
    }
    return [x / w, y / w, w] as const;
  });
  const column = (k: 0 | 1 | 2): Float64Array => Float64Array.from(groups, (group) => group[k]);
  return { practice: column(0), value: column(1), weight: column(2) };
}
