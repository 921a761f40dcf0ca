/** A round trip that can be changed by exchanging edges, and taken back. */
export interface Ring {
  readonly at: Int32Array;
  next(node: number): number;
  previous(node: number): number;
  /** Replaces the edges a-b and c-d by a-c and b-d. Both must point the same way: b after a and d after c, or b before a and d before c. */
  exchange(a: number, b: number, c: number, d: number): void;
  /** Forgets what could be taken back. */
  keep(): void;
  /** Takes back every exchange since `keep`. */
  undo(): void;
}

/** A ring through the nodes in `order`. Cost of an exchange: the shorter of the two stretches that could be turned round. */
export function createRing(order: ArrayLike<number>): Ring {
  const n = order.length;
  const at = Int32Array.from(order);
  const place = new Int32Array(n);
  for (let i = 0; i < n; i++) place[at[i]!] = i;
  const log: number[] = [];

  function reverse(from: number, to: number): void {
    let i = from;
    let j = to;
    const inside = j - i + 1 + (j < i ? n : 0);
    for (let left = inside >> 1; left > 0; left--) {
      const a = at[i]!;
      const b = at[j]!;
      at[i] = b;
      place[b] = i;
      at[j] = a;
      place[a] = j;
      i = i + 1 === n ? 0 : i + 1;
      j = j === 0 ? n - 1 : j - 1;
    }
  }

  /** Turns round the stretch between two places or, which is the same round trip, all the rest. */
  function turn(from: number, to: number): void {
    const inside = to - from + 1 + (to < from ? n : 0);
    const shorter = 2 * inside <= n;
    const i = shorter ? from : to + 1 === n ? 0 : to + 1;
    const j = shorter ? to : from === 0 ? n - 1 : from - 1;
    reverse(i, j);
    log.push(i, j);
  }

  const next = (node: number): number => at[place[node]! + 1 === n ? 0 : place[node]! + 1]!;
  return {
    at,
    next,
    previous: (node) => at[place[node] === 0 ? n - 1 : place[node]! - 1]!,
    exchange(a, b, c, d) {
      if (next(a) === b) turn(place[b]!, place[c]!);
      else turn(place[a]!, place[d]!);
    },
    keep() {
      log.length = 0;
    },
    undo() {
      while (log.length > 0) {
        const to = log.pop()!;
        reverse(log.pop()!, to);
      }
    },
  };
}
