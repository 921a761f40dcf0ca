/** Ways whose lengths differ by less than this share of them are equally long. */
export const EQUALLY_LONG = 1e-9;

/**
 * One more than the number of orders shorter than `length`, of all that begin at point 0 and visit the `n - 1` others. Orders are built step by
 * step and left as soon as they are as long; at most (n - 1)! of them.
 */
export function rankOfOrder(n: number, step: (from: number, to: number) => number, length: number): number {
  const limit = length * (1 - EQUALLY_LONG);
  const visited = new Uint8Array(n);
  const shorter = (at: number, left: number, sum: number): number => {
    if (sum >= limit) return 0;
    if (left === 0) return 1;
    let count = 0;
    for (let next = 1; next < n; next++) {
      if (visited[next] === 1) continue;
      visited[next] = 1;
      count += shorter(next, left - 1, sum + step(at, next));
      visited[next] = 0;
    }
    return count;
  };
  return 1 + shorter(0, n - 1, 0);
}
