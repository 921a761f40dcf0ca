/** What kind of way is sought. */
export type TourKind = "fromFirst" | "open" | "closed";

/**
 * The cheapest order of `n` points by dynamic programming over subsets: the best way through a set that ends at a given point is the best way
 * through the rest, plus one step. `cost(a, b)` is that of a step from a to b, which need not be that of the step back. Time n^2 2^n, memory n 2^n.
 */
export function exactOrder(n: number, cost: (from: number, to: number) => number, kind: TourKind): number[] {
  if (n < 2) return n === 1 ? [0] : [];
  // with a fixed start, or anywhere on a round trip, point 0 can come first: only the others are to be ordered
  const fixed = kind === "open" ? 0 : 1;
  const m = n - fixed;
  const steps = new Float64Array(m * m);
  for (let a = 0; a < m; a++) for (let b = 0; b < m; b++) if (a !== b) steps[a * m + b] = cost(a + fixed, b + fixed);
  const sets = 1 << m;
  const best = new Float64Array(sets * m);
  const before = new Int8Array(sets * m);
  for (let set = 1; set < sets; set++) {
    for (let last = 0; last < m; last++) {
      if ((set & (1 << last)) === 0) continue;
      const rest = set ^ (1 << last);
      if (rest === 0) {
        best[set * m + last] = fixed === 1 ? cost(0, last + 1) : 0;
        continue;
      }
      let shortest = Number.POSITIVE_INFINITY;
      let from = 0;
      for (let previous = 0; previous < m; previous++) {
        if ((rest & (1 << previous)) === 0) continue;
        const length = best[rest * m + previous]! + steps[previous * m + last]!;
        if (length < shortest) {
          shortest = length;
          from = previous;
        }
      }
      best[set * m + last] = shortest;
      before[set * m + last] = from;
    }
  }
  let set = sets - 1;
  let last = 0;
  let shortest = Number.POSITIVE_INFINITY;
  for (let end = 0; end < m; end++) {
    const length = best[set * m + end]! + (kind === "closed" ? cost(end + 1, 0) : 0);
    if (length < shortest) {
      shortest = length;
      last = end;
    }
  }
  const order: number[] = [];
  while (set !== 0) {
    order.push(last + fixed);
    const previous = before[set * m + last]!;
    set ^= 1 << last;
    last = previous;
  }
  if (fixed === 1) order.push(0);
  return order.reverse();
}
