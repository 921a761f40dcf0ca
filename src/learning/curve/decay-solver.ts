import { coarseDecay } from "./coarse-decay.js";
import type { CurveColumns } from "./columns.js";
import { type LagKind, lagAt } from "./curve-laws.js";
import { decayInformation } from "./decay-information.js";
import { createDecayPoint, type DecayData, decayData, lookAt } from "./decay-point.js";
import { MOST_LOOKS, refineDecay } from "./refine-decay.js";
import type { BestSolution, Solution, Solver } from "./solver.js";
import { mostThinned, thinDecay } from "./thin-decay.js";

/** A dip of the thinned data this much above the lowest, as a share of the whole residual sum, is not followed in the full data. */
const HOPELESS = 0.25;
/** Two residual sums no further apart count as one. */
const SAME = 1e-8;

/** A solver for laws a + b exp(-c u), where a and b follow from c and only c is searched for. Its parameters are a, b and c. */
export function decaySolver(columns: CurveColumns, kind: LagKind): Solver {
  const { n, practice, value, weight } = columns;
  // one piece of memory for all columns: a piece costs more than filling it
  const thinRoom = 3 * mostThinned(n);
  const memory = new Float64Array(3 * n + 2 * thinRoom);
  const basis = memory.subarray(0, n);
  const fitted = memory.subarray(n, 2 * n);
  const point = createDecayPoint();
  const origin = n > 0 ? lagAt(kind, practice[0]!) : 0;
  let settled = true;
  let latest: DecayData | undefined;
  const variants: { plain?: DecayData; shifted?: DecayData } = {};

  // u counted from the first value keeps exp(-c u) within (0, 1]; b then is the gain from there. A bound on b other than 0 stands in its way.
  function dataFor(lower: Float64Array, upper: Float64Array): DecayData {
    const scaleFree = (bound: number): boolean => bound === 0 || bound - bound !== 0;
    const shifts = origin !== 0 && scaleFree(lower[1]!) && scaleFree(upper[1]!);
    const key = shifts ? "shifted" : "plain";
    const known = variants[key];
    if (known !== undefined) return known;
    // both variants are rarely asked for
    const lag = variants.plain === undefined && variants.shifted === undefined ? memory.subarray(2 * n, 3 * n) : new Float64Array(n);
    const from = shifts ? origin : 0;
    for (let i = 0; i < n; i++) lag[i] = lagAt(kind, practice[i]!) - from;
    const data = decayData(lag, value, weight);
    variants[key] = data;
    return data;
  }

  function read(data: DecayData): Float64Array {
    // b at u = 0, from b at the first value
    const back = data === variants.shifted ? Math.exp(point.c * origin) : 1;
    return Float64Array.of(point.a, point.b * back, point.c);
  }

  function best(lower: Float64Array, upper: Float64Array): BestSolution {
    const data = dataFor(lower, upper);
    latest = data;
    const thin = thinDecay(data, memory.subarray(3 * n));
    let starts = coarseDecay(thin, lower, upper, memory.subarray(3 * n + thinRoom));
    if (thin !== data) {
      const refined = starts.map(({ c }) => {
        refineDecay(thin, c, lower, upper, basis, point);
        return { c: point.c, sum: point.sum };
      });
      starts = refined;
    }
    let within = 0;
    if (starts.length > 1 && thin !== data) within = withinGroups(data, thin);
    const least = starts.reduce((low, { sum }) => Math.min(low, sum), Number.POSITIVE_INFINITY);
    let chosen = Number.NaN;
    let residualSum = Number.POSITIVE_INFINITY;
    let iterations = 0;
    settled = false;
    let reached = 0;
    let searches = 0;
    for (const { c, sum } of starts) {
      if (sum > least + HOPELESS * (least + within)) continue;
      searches++;
      const looks = refineDecay(data, c, lower, upper, basis, point);
      iterations += looks;
      if (point.sum <= residualSum * (1 + SAME)) reached = point.sum < residualSum * (1 - SAME) ? 1 : reached + 1;
      if (!(point.sum < residualSum)) continue;
      residualSum = point.sum;
      chosen = point.c;
      settled = looks < MOST_LOOKS;
    }
    // back to the best, when another was looked at last
    if (!Number.isNaN(chosen) && point.c !== chosen) lookAt(data, chosen, lower, upper, basis, point);
    return {
      parameters: read(data),
      residualSum,
      converged: settled,
      reason: settled ? "step" : "iterations",
      iterations,
      starts: searches,
      startsReachingBest: Math.max(reached, 1),
    };
  }

  function from(start: Float64Array, lower: Float64Array, upper: Float64Array): Solution {
    const data = dataFor(lower, upper);
    const iterations = refineDecay(data, start[2]!, lower, upper, basis, point);
    return { parameters: read(data), residualSum: point.sum, converged: true, reason: "step", iterations };
  }

  function summary(free: readonly number[]): { fitted: Float64Array; inverse: number[][] | undefined } {
    const { a, b, c } = point;
    for (let i = 0; i < n; i++) fitted[i] = a + b * basis[i]!;
    const hasEnd = free[0] === 0;
    if (free.length !== (hasEnd ? 3 : 2)) return { fitted, inverse: undefined };
    const from = latest === variants.shifted ? origin : 0;
    return { fitted, inverse: decayInformation(point, hasEnd, from, Math.exp(-c * from)) };
  }
  return { best, from, summary };
}

// squares that no law can take up, because the values share a group: total less that of the thinned data
function withinGroups(data: DecayData, thin: DecayData): number {
  const total = ({ n, value, weight, meanData }: DecayData): number => {
    let sum = 0;
    for (let i = 0; i < n; i++) sum += weight[i]! * (value[i]! - meanData) ** 2;
    return sum;
  };
  return Math.max(0, total(data) - total(thin));
}
