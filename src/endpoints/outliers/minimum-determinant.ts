import { createRandom, type Random } from "../../math/random.js";
import { concentrate, type Workspace, workspace } from "./concentrate.js";
import { countOnLine } from "./count-on-line.js";
import { elementalStart } from "./elemental-start.js";
import type { LocationScatter } from "./location-scatter.js";

/** The h points whose covariance has the smallest determinant. */
export interface MinimumDeterminant {
  /** Their mean and covariance with 1/h. */
  readonly raw: LocationScatter;
  /** Their indices, ascending. */
  readonly support: Int32Array;
}

/** Random starts; with as few as 15 points that is every triple. */
const STARTS = 500;
/** Concentration steps before the poor starts are given up. */
const FIRST_STEPS = 2;
/** Starts followed to the end. */
const KEPT = 10;
const MOST_STEPS = 200;
/** More points than this are searched by way of parts. */
const SMALL = 600;
const PART = 300;
const MOST_PARTS = 5;
/** Above this many points, only the best starts are followed to the end: each step goes through all points. */
const LARGE = 5000;
const KEPT_LARGE = 2;

/**
 * Minimum covariance determinant of points in the plane by the fast algorithm of Rousseeuw and Van Driessen 1999 (recalled): concentration steps
 * from triples of points; of many points, first within up to five random parts of 300, then within their union, then on all. The least found,
 * not proven to be the least of all. Cost O(n). `undefined` when at least `h` points lie on a line.
 */
export function minimumDeterminant(x: Float64Array, y: Float64Array, h: number, seed: number): MinimumDeterminant | undefined {
  const n = x.length;
  const random = createRandom(seed);
  const starts = n > SMALL ? searchParts(x, y, h, random) : searchStarts(x, y, h, STARTS, random);
  if (starts === undefined) return undefined;
  const work = workspace(n);
  let best: MinimumDeterminant | undefined;
  for (const start of starts) {
    const raw = concentrate(x, y, h, start, MOST_STEPS, work);
    if (raw === undefined) {
      // a line, or a point so far out among them that all others look like one
      if (countOnLine(x, y, work.indices, h) >= h) return undefined;
      continue;
    }
    if (best === undefined || raw.det < best.raw.det) best = { raw, support: work.indices.slice(0, h).sort() };
  }
  return best;
}

/** The best places to begin with, from triples within the points given. */
function searchStarts(x: Float64Array, y: Float64Array, h: number, count: number, random: Random): LocationScatter[] | undefined {
  const n = x.length;
  const work = workspace(n);
  const found: LocationScatter[] = [];
  for (const triple of triples(n, count, random)) {
    const start = elementalStart(x, y, triple, h, random);
    if (start === "onLine") return undefined;
    const end = start && concentrate(x, y, h, start, FIRST_STEPS, work);
    if (end !== undefined) found.push(end);
    else if (start !== undefined && countOnLine(x, y, work.indices, h) >= h) return undefined;
  }
  return bestOf(found, KEPT);
}

function searchParts(x: Float64Array, y: Float64Array, h: number, random: Random): LocationScatter[] | undefined {
  const n = x.length;
  const parts = Math.min(MOST_PARTS, Math.floor(n / PART));
  const chosen = draw(n, parts * PART, random);
  const take = (column: Float64Array, from: number, to: number): Float64Array =>
    Float64Array.from(chosen.subarray(from, to), (i) => column[i]!);
  const candidates: LocationScatter[] = [];
  for (let part = 0; part < parts; part++) {
    const [from, to] = [part * PART, (part + 1) * PART];
    // a part may lie on a line by chance where the whole does not
    const found = searchStarts(take(x, from, to), take(y, from, to), Math.ceil((h / n) * PART), Math.ceil(STARTS / parts), random);
    candidates.push(...(found ?? []));
  }
  const [ux, uy] = [take(x, 0, chosen.length), take(y, 0, chosen.length)];
  const unionH = Math.ceil((h / n) * chosen.length);
  const work = workspace(chosen.length);
  const followed = follow(ux, uy, unionH, candidates, FIRST_STEPS, work);
  if (n <= LARGE) return bestOf(followed, KEPT);
  return bestOf(follow(ux, uy, unionH, bestOf(followed, KEPT) ?? [], MOST_STEPS, work), KEPT_LARGE);
}

function follow(x: Float64Array, y: Float64Array, h: number, starts: LocationScatter[], steps: number, work: Workspace): LocationScatter[] {
  return starts.flatMap((start) => concentrate(x, y, h, start, steps, work) ?? []);
}

/** Those with the smallest determinants, each of them once; `undefined` without any. */
function bestOf(found: readonly LocationScatter[], count: number): LocationScatter[] | undefined {
  if (found.length === 0) return undefined;
  const sorted = found.slice().sort((a, b) => a.det - b.det);
  return sorted.filter((one, i) => one.det !== sorted[i - 1]?.det).slice(0, count);
}

/** Every triple of `n` indices when there are no more than `count`, else so many at random. */
function triples(n: number, count: number, random: Random): (readonly [number, number, number])[] {
  const all = (n * (n - 1) * (n - 2)) / 6;
  if (all > count) return Array.from({ length: count }, () => [...draw(n, 3, random)] as unknown as [number, number, number]);
  const found: [number, number, number][] = [];
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) for (let k = j + 1; k < n; k++) found.push([i, j, k]);
  return found;
}

/** `count` different indices below `n`. */
function draw(n: number, count: number, random: Random): Int32Array {
  const moved = new Map<number, number>();
  return Int32Array.from({ length: count }, (_, k) => {
    // a shuffle of all indices, of which only the entries that moved are kept
    const other = k + Math.floor(random.uniform(0, n - k));
    const index = moved.get(other) ?? other;
    moved.set(other, moved.get(k) ?? k);
    return index;
  });
}
