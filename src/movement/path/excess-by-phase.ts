import { pathLength } from "./path-length.js";

/**
 * Path beyond need of each phase: its length less its advance along the axis. Phase k runs from point `at[k]` to point `at[k + 1]`. Advances telescope, so that the
 * parts add up to the whole path less the whole advance.
 */
export function excessByPhase(x: Float64Array, y: Float64Array, along: Float64Array, at: readonly number[]): number[] {
  return at.slice(1).map((to, k) => pathLength(x, y, at[k]!, to + 1) - (along[to]! - along[at[k]!]!));
}
