/**
 * Weights of the values at `nodes` (any order, all different) whose sum is the derivative of order `derivative` at `at`, exact for every polynomial
 * that the nodes determine. Fornberg's recursion (1988, from memory): nodes are taken in one by one, and the weights of fewer nodes and
 * lower derivatives give those of the next.
 */
export function finiteDifferenceWeights(nodes: ArrayLike<number>, at: number, derivative: number): Float64Array {
  const n = nodes.length;
  // weights[k][i]: weight of node i for derivative k, from the nodes taken in so far
  const weights = Array.from({ length: derivative + 1 }, () => new Float64Array(n));
  weights[0]![0] = 1;
  let product = 1;
  for (let j = 1; j < n; j++) {
    let next = 1;
    const toNew = nodes[j]! - at;
    const toOld = nodes[j - 1]! - at;
    for (let i = 0; i < j; i++) {
      const between = nodes[j]! - nodes[i]!;
      next *= between;
      if (i === j - 1) {
        for (let k = Math.min(j, derivative); k >= 0; k--) {
          const lower = k > 0 ? k * weights[k - 1]![i]! : 0;
          weights[k]![j] = (product / next) * (lower - toOld * weights[k]![i]!);
        }
      }
      for (let k = Math.min(j, derivative); k >= 0; k--) {
        const lower = k > 0 ? k * weights[k - 1]![i]! : 0;
        weights[k]![i] = (toNew * weights[k]![i]! - lower) / between;
      }
    }
    product = next;
  }
  return weights[derivative]!;
}
