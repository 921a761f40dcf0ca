import type { CurveColumns } from "./columns.js";
import type { BuiltInLaw } from "./curve-laws.js";
import { type LinearPart, linearPart } from "./linear-part.js";

/** Values that the coarse look takes at most. */
const THIN = 40;
/** Steps of the grid in each direction. */
const ACROSS = 13;

/** Starts for the shape of a law with two such parameters: every dip of the residual sum over a grid, on thinned data. */
export function shapeStarts(columns: CurveColumns, law: BuiltInLaw, lower: Float64Array, upper: Float64Array): Float64Array[] {
  if (law.shape.length === 0) return [new Float64Array(2)];
  const { practice, value, weight } = thinned(columns);
  const n = practice.length;
  const range = columns.practice[columns.n - 1]! - columns.practice[0]!;
  const grids = law.shape.map((letter, k) => gridFor(law, letter, range, columns, lower[2 + k]!, upper[2 + k]!));
  const [one, two] = grids as [number[], number[]];
  const look = new Float64Array(3);
  const basis = new Float64Array(n);
  const part: LinearPart = { a: 0, b: 0, aFree: false, bFree: false };
  let weightSum = 0;
  for (let i = 0; i < n; i++) weightSum += weight[i]!;
  let meanData = 0;
  for (let i = 0; i < n; i++) meanData += (weight[i]! / weightSum) * value[i]!;
  const sumAt = (c: number, d: number): number => {
    const shape = [c, d];
    let meanBasis = 0;
    for (let i = 0; i < n; i++) {
      law.at(practice[i]!, shape, look);
      basis[i] = look[0]!;
      meanBasis += (weight[i]! / weightSum) * look[0]!;
    }
    let basisSquare = 0;
    let product = 0;
    for (let i = 0; i < n; i++) {
      const off = basis[i]! - meanBasis;
      basisSquare += weight[i]! * off * off;
      product += weight[i]! * off * (value[i]! - meanData);
    }
    linearPart({ weight: weightSum, meanData, meanBasis, basisSquare, product }, lower, upper, part);
    let sum = 0;
    for (let i = 0; i < n; i++) sum += weight[i]! * (value[i]! - part.a - part.b * basis[i]!) ** 2;
    return sum - sum === 0 ? sum : Number.POSITIVE_INFINITY;
  };
  const table = one.map((c) => two.map((d) => sumAt(c, d)));
  const starts: Float64Array[] = [];
  for (let i = 0; i < one.length; i++) {
    for (let j = 0; j < two.length; j++) {
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
      if (dip) starts.push(Float64Array.of(0, 0, one[i]!, two[j]!));
    }
  }
  return starts.length > 0 ? starts : [Float64Array.of(0, 0, one[0]!, two[0]!)];
}

// even steps on a logarithmic scale, within the bounds; and the lower bound itself
function gridFor(law: BuiltInLaw, letter: string, range: number, columns: CurveColumns, low: number, high: number): number[] {
  const last = columns.practice[columns.n - 1]!;
  const perPractice: [number, number] = [0.1 / range, 10 / Math.max(columns.step, range / 200)];
  let ends: [number, number];
  if (letter === "e") ends = [0.02 * last, 10 * last];
  else if (letter === "d" && law.shape[1] === "d" && law.formula.includes("N^-c")) ends = perPractice;
  else if (letter === "d") ends = [0.3, 1e5];
  else ends = law.formula.includes("^-c") ? [0.03, 6] : perPractice;
  const from = Math.min(Math.max(ends[0], low), high);
  const to = Math.min(Math.max(ends[1], from), high);
  const grid = new Set<number>([low > 0 ? low : 0]);
  for (let k = 0; k < ACROSS; k++) grid.add(Math.min(Math.max(from * (to / from) ** (k / (ACROSS - 1)), low), high));
  return [...grid].filter((entry) => entry >= low && entry <= high).sort((a, b) => a - b);
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
