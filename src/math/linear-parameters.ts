import type { CountedProblem } from "./fit-problem.js";
import { clamp } from "./local-model.js";

/** Share by which a column may change and count as unchanged: rounding of a few operations. */
const ROUNDING = 1e-12;

/**
 * The parameters that enter linearly, all of them together: no column of the Jacobian among them changes when one of them moves. Found by
 * moving each parameter once from `at`. A bounded parameter is left out, since a linear solution would not know its bounds; so is one without effect.
 * `undefined` when the derivatives at `at` are not finite, so that it cannot be told there.
 */
export function linearParameters(problem: CountedProblem, at: Float64Array): number[] | undefined {
  const { size, lower, upper } = problem;
  const p = at.length;
  const here = new Float64Array(size * p);
  problem.jacobian(at, here);
  if (!here.every(Number.isFinite)) return undefined;
  const moved = new Float64Array(size * p);
  const keeps = Array.from({ length: p }, (_, j) => {
    const point = at.slice();
    point[j] = moveOf(at[j]!, lower[j]!, upper[j]!);
    problem.jacobian(point, moved);
    return Array.from({ length: p }, (_, c) => isUnchanged(here, moved, c * size, (c + 1) * size));
  });
  const found: number[] = [];
  for (let j = 0; j < p; j++) {
    const bounded = lower[j]! > Number.NEGATIVE_INFINITY || upper[j]! < Number.POSITIVE_INFINITY;
    if (!bounded && keeps[j]![j] && found.every((other) => keeps[j]![other] && keeps[other]![j])) found.push(j);
  }
  return found;
}

// another value within the bounds, well away from this one
function moveOf(value: number, low: number, high: number): number {
  const up = clamp(value === 0 ? 0.5 : 1.25 * value, low, high);
  return up !== value ? up : clamp(value === 0 ? -0.5 : 0.8 * value, low, high);
}

function isUnchanged(before: Float64Array, after: Float64Array, from: number, to: number): boolean {
  let change = 0;
  let size = 0;
  for (let i = from; i < to; i++) {
    // false for a change that is not finite
    if (!(Math.abs(after[i]! - before[i]!) < Number.POSITIVE_INFINITY)) return false;
    change = Math.max(change, Math.abs(after[i]! - before[i]!));
    size = Math.max(size, Math.abs(before[i]!));
  }
  return size > 0 && change <= ROUNDING * size;
}
