import type { Ring } from "./ring.js";

/** Longest piece that is moved elsewhere as a whole. */
const LONGEST_PIECE = 3;

/** Where a search takes its edges from. */
export interface SearchSpace {
  readonly distance: (a: number, b: number) => number;
  /** For each node the nodes it may be joined to, `stride` entries each, nearest first, ended early by -1. */
  readonly candidates: Int32Array;
  readonly stride: number;
  /** Gains up to this are rounding. */
  readonly noise: number;
}

/**
 * Improves the ring at one node by the first change found, and gives the length gained (0: none) with the nodes it touched in `touched`.
 * Two changes are tried: exchange two edges (2-opt), and move a piece of up to three nodes that starts at this node (Or-opt). Only edges to near
 * nodes come in question, for a change that gains has a new edge shorter than the old one at one of its ends.
 */
export function improveAt(ring: Ring, space: SearchSpace, node: number, touched: number[]): number {
  touched.length = 0;
  return exchangeEdges(ring, space, node, touched) || movePiece(ring, space, node, touched);
}

function exchangeEdges(ring: Ring, space: SearchSpace, a: number, touched: number[]): number {
  const { distance, candidates, stride, noise } = space;
  for (let side = 0; side < 2; side++) {
    const step = side === 0 ? ring.next : ring.previous;
    const b = step(a);
    const removed = distance(a, b);
    for (let i = a * stride; i < (a + 1) * stride; i++) {
      const c = candidates[i]!;
      if (c < 0) break;
      const gain = removed - distance(a, c);
      if (gain <= noise) break;
      const d = step(c);
      if (d === a) continue;
      const total = gain + distance(c, d) - distance(b, d);
      if (total <= noise) continue;
      ring.exchange(a, b, c, d);
      touched.push(a, b, c, d);
      return total;
    }
  }
  return 0;
}

function movePiece(ring: Ring, space: SearchSpace, first: number, touched: number[]): number {
  const { distance, candidates, stride, noise } = space;
  for (let side = 0; side < 2; side++) {
    const onward = side === 0 ? ring.next : ring.previous;
    const back = side === 0 ? ring.previous : ring.next;
    const before = back(first);
    let last = first;
    let second = -1;
    for (let size = 1; size <= LONGEST_PIECE; size++, last = onward(last)) {
      if (size === 2) second = last;
      const after = onward(last);
      const freed = distance(before, first) + distance(last, after) - distance(before, after);
      for (let i = first * stride; i < (first + 1) * stride; i++) {
        const c = candidates[i]!;
        if (c < 0 || freed - distance(first, c) <= noise) break;
        if (c === last || c === second) continue;
        for (let end = 0; end < 2; end++) {
          const e = end === 0 ? onward(c) : back(c);
          if (e === first || e === last) continue;
          const total = freed - distance(first, c) - distance(last, e) + distance(c, e);
          if (total <= noise) continue;
          if (side === 0) insert(ring, before, first, last, after, end === 0 ? c : e, end === 0 ? e : c, end === 0);
          else insert(ring, after, last, first, before, end === 0 ? e : c, end === 0 ? c : e, end === 0);
          touched.push(before, first, last, after, c, e);
          return total;
        }
      }
    }
  }
  return 0;
}

/** Takes the piece a..b from between p and n, and puts it between u and v, the same way round when `same`; all told in the ring's direction. */
function insert(ring: Ring, p: number, a: number, b: number, n: number, u: number, v: number, same: boolean): void {
  // p [a..b] [n..u] v  ->  p [u..n] [b..a] v  ->  p [n..u] [b..a] v  ->  p [n..u] [a..b] v
  ring.exchange(p, a, u, v);
  ring.exchange(p, u, n, b);
  if (same) ring.exchange(u, b, a, v);
}
