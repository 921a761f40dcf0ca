import { createRandom, type Random } from "../../math/random.js";
import { improveAt, type SearchSpace } from "./local-search.js";
import { createPointTree } from "./point-tree.js";
import { createRing, type Ring } from "./ring.js";
import type { TourKind } from "./visiting-order.js";

/** New edges are sought to this many nearest points. */
const NEAREST = 8;
/** Disturbances per point, and at most: what more of them gain is small against the time they take. */
const KICKS_PER_POINT = 10;
const MOST_KICKS = 30_000;
/** Longest stretches that a disturbance swaps: near each other, so that the repair stays local. */
const LONGEST_STRETCH = 30;
const SEED = 1;

/**
 * A short order, found from `start` by local search (2-opt and Or-opt, to a local optimum), and then by disturbing it in one place after another:
 * two neighbouring stretches are swapped, the search repairs what it can, and the change stays when the way got no longer.
 *
 * An open way is a round trip with one more node, at no distance from anything; where the start is fixed, its edge to that node is kept.
 */
export function nearOrder(x: Float64Array, y: Float64Array, start: readonly number[], kind: TourKind): number[] {
  const m = x.length;
  const ring = createRing(kind === "closed" ? start : [...start, m]);
  const space = createSpace(x, y, kind);
  const queue = createQueue(ring.at);
  const touched: number[] = [];
  const settle = (): number => {
    let gained = 0;
    for (let node = queue.take(); node >= 0; node = queue.take()) {
      for (let gain = improveAt(ring, space, node, touched); gain > 0; gain = improveAt(ring, space, node, touched)) {
        gained += gain;
        touched.forEach(queue.add);
      }
    }
    return gained;
  };
  settle();
  const random = createRandom(SEED);
  for (let kick = Math.min(MOST_KICKS, KICKS_PER_POINT * m); kick > 0; kick--) {
    ring.keep();
    const lost = swapStretches(ring, space, random, touched);
    touched.forEach(queue.add);
    if (settle() - lost < -space.noise) ring.undo();
  }
  return unroll(ring, m, kind);
}

/** Distances and candidates; the node `m` stands for the break of an open way. */
function createSpace(x: Float64Array, y: Float64Array, kind: TourKind): SearchSpace {
  const m = x.length;
  const nearest = Math.min(NEAREST, m - 1);
  const stride = nearest + 1;
  const candidates = new Int32Array((m + 1) * stride).fill(-1);
  const tree = createPointTree(x, y);
  let size = 0;
  for (let i = 0; i < m; i++) {
    size = Math.max(size, Math.abs(x[i]! - x[0]!), Math.abs(y[i]! - y[0]!));
    // the break is the nearest of all; a fixed start has it for a neighbour already
    const open = kind === "open" || (kind === "fromFirst" && i > 0);
    if (open) candidates[i * stride] = m;
    tree.neighbours(i, nearest, candidates, i * stride + (open ? 1 : 0));
  }
  // so short an edge that no change that takes it out gains
  const bond = kind === "fromFirst" ? -16 * size : 0;
  return {
    candidates,
    stride,
    noise: 1e-12 * size,
    distance(a, b) {
      if (a === m || b === m) return a === 0 || b === 0 ? bond : 0;
      const dx = x[a]! - x[b]!;
      const dy = y[a]! - y[b]!;
      return Math.sqrt(dx * dx + dy * dy);
    },
  };
}

/** Nodes that wait for a look, each at most once, first come first served. */
function createQueue(nodes: Int32Array): { add(node: number): void; take(): number } {
  const room = nodes.length;
  const waiting = nodes.slice();
  const isWaiting = new Uint8Array(room).fill(1);
  let head = 0;
  let count = room;
  return {
    add(node) {
      if (isWaiting[node] === 1) return;
      isWaiting[node] = 1;
      waiting[(head + count++) % room] = node;
    },
    take() {
      if (count === 0) return -1;
      const node = waiting[head]!;
      head = (head + 1) % room;
      count--;
      isWaiting[node] = 0;
      return node;
    },
  };
}

/** Swaps two neighbouring stretches at a random place, and gives the length lost by it; nothing happens where a bond would break. */
function swapStretches(ring: Ring, { distance }: SearchSpace, random: Random, touched: number[]): number {
  touched.length = 0;
  const room = ring.at.length;
  const longest = Math.min(LONGEST_STRETCH, (room - 2) >> 1);
  const first = Math.floor(random.uniform(0, room));
  const middle = first + 1 + Math.floor(random.uniform(0, longest));
  const end = middle + 1 + Math.floor(random.uniform(0, longest));
  const node = (place: number): number => ring.at[place % room]!;
  // p [a..b] [c..d] q  ->  p [c..d] [a..b] q
  const p = node(first);
  const a = node(first + 1);
  const b = node(middle);
  const c = node(middle + 1);
  const d = node(end);
  const q = node(end + 1);
  if (distance(p, a) < 0 || distance(b, c) < 0 || distance(d, q) < 0) return 0;
  ring.exchange(p, a, d, q);
  ring.exchange(p, d, c, b);
  ring.exchange(d, b, a, q);
  touched.push(p, a, b, c, d, q);
  return distance(p, c) + distance(d, a) + distance(b, q) - distance(p, a) - distance(b, c) - distance(d, q);
}

/** The ring as a list, opened at the break. */
function unroll(ring: Ring, m: number, kind: TourKind): number[] {
  const order = Array.from(ring.at);
  if (kind === "closed") return order;
  const gap = order.indexOf(m);
  const path = [...order.slice(gap + 1), ...order.slice(0, gap)];
  return kind === "fromFirst" && path[0] !== 0 ? path.reverse() : path;
}
