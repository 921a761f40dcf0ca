import { markEnd } from "../../movement/acquisition/held-entries.js";
import { targetAt } from "../../movement/acquisition/target-position.js";
import { differentiate } from "../../trace/differentiate.js";
import { lowpass } from "../../trace/lowpass.js";
import { isInside, shorterSide } from "../../trace/shape/target-shape.js";
import type { Mark, Recording, Target, Trial } from "../../trace/types.js";
import type { UniformSegment } from "../../trace/uniform.js";
import { emptyPair, type FlatPair, flatten, mapPair, setPair } from "./flatten.js";

/** The target counts as acquired when the pointer has been on it this long, seconds. */
const HELD = 0.1;
/** And at the latest after this, seconds. */
const LATEST = 1;
/** Room for the rounding of times in grid steps. */
const SLACK = 1e-4;

/** A run of neighbouring samples `[start, end)`. */
export interface Piece {
  readonly start: number;
  readonly end: number;
}

/** One trial with one target on an even grid: sample `i` lies at `t0 + i / rate`. Where `known` is 0 the columns hold nothing of worth. */
export interface Stretch {
  readonly t0: number;
  readonly rate: number;
  /** Filtered, target and pointer alike: filtering only one would make a lag of its own. */
  readonly smooth: FlatPair;
  /** Velocities of `smooth`, unit/s. */
  readonly velocity: FlatPair;
  /** Unfiltered. */
  readonly raw: FlatPair;
  /** The target's width (diameter or shorter side) at each sample. */
  readonly width: Float64Array;
  readonly inside: Uint8Array;
  readonly known: Uint8Array;
  /** Runs of samples that are used: known, unmarked, after the first phase. */
  readonly pieces: readonly Piece[];
  /** First sample after the target was acquired. */
  readonly acquired: number;
  readonly acquisition: "inside" | "time";
}

/** The recording on its grid, filtered and not. */
export interface Conditioned {
  readonly rate: number;
  readonly cutoffHz: number;
  readonly filtered: readonly UniformSegment[];
  readonly unfiltered: readonly UniformSegment[];
}

/** Brings target and pointer of one trial onto the recording's grid; `undefined` when the two have no time in common. */
export function stretchOf(recording: Recording, trial: Trial, target: Target, grid: Conditioned): Stretch | undefined {
  const { rate, filtered, unfiltered } = grid;
  const from = Math.max(trial.tStart, target.tShown);
  const to = Math.min(trial.tEnd ?? Number.POSITIVE_INFINITY, target.tGone ?? Number.POSITIVE_INFINITY, recording.trace.t.at(-1) ?? from);
  const base = filtered[0]?.t0;
  if (base === undefined || !(to > from)) return undefined;
  // all segments lie on one grid
  const first = Math.ceil((from - base) * rate - SLACK);
  const n = Math.floor((to - base) * rate + SLACK) - first + 1;
  if (n < 2) return undefined;
  const t0 = base + first / rate;
  const smooth = emptyPair(n);
  const velocity = emptyPair(n);
  const raw = emptyPair(n);
  const width = new Float64Array(n);
  const inside = new Uint8Array(n);
  const known = new Uint8Array(n);
  const side = shorterSide(target.shape);
  for (const [s, segment] of filtered.entries()) {
    const offset = Math.round((segment.t0 - t0) * rate);
    const start = Math.max(0, offset);
    const end = Math.min(n, offset + segment.x.length);
    if (end - start < 2) continue;
    const qx = new Float64Array(end - start);
    const qy = new Float64Array(end - start);
    const scale = new Float64Array(end - start);
    for (let i = start; i < end; i++) {
      const at = targetAt(target, t0 + i / rate);
      qx[i - start] = at.x;
      qy[i - start] = at.y;
      scale[i - start] = at.scale;
    }
    const cut = (column: Float64Array): Float64Array => column.subarray(start - offset, end - offset);
    const filter = (column: Float64Array): Float64Array => lowpass(column, { sampleRateHz: rate, cutoffHz: grid.cutoffHz });
    const clean = flatten(recording.space, { qx: filter(qx), qy: filter(qy), px: cut(segment.x), py: cut(segment.y) });
    setPair(smooth, clean, start);
    setPair(
      velocity,
      mapPair(clean, (column) => differentiate(column, { sampleRateHz: rate })),
      start,
    );
    setPair(raw, flatten(recording.space, { qx, qy, px: cut(unfiltered[s]!.x), py: cut(unfiltered[s]!.y) }), start);
    for (let i = start; i < end; i++) {
      const size = scale[i - start]!;
      width[i] = side * size;
      known[i] = 1;
      inside[i] = Number(isInside(target.shape, smooth.px[i]! - smooth.qx[i]!, smooth.py[i]! - smooth.qy[i]!, size));
    }
  }
  for (const mark of recording.marks) unmark(known, mark, t0, rate);
  const { acquired, acquisition } = acquire(inside, known, rate);
  return { t0, rate, smooth, velocity, raw, width, inside, known, pieces: runsOf(known, acquired), acquired, acquisition };
}

/** The longest piece, the first of several; `undefined` when there is none. */
export function longestPiece(pieces: readonly Piece[]): Piece | undefined {
  return pieces.reduce<Piece | undefined>((a, b) => (a !== undefined && a.end - a.start >= b.end - b.start ? a : b), undefined);
}

/** Number of samples used. */
export function countOf({ pieces }: Stretch): number {
  return pieces.reduce((sum, { start, end }) => sum + end - start, 0);
}

/** A change of gain is an instant that leaves the positions as they are; all other marks take their samples out. */
function unmark(known: Uint8Array, mark: Mark, t0: number, rate: number): void {
  if (mark.kind === "gain") return;
  const from = Math.max(0, Math.ceil((mark.t - t0) * rate));
  const to = Math.min(known.length - 1, Math.floor((markEnd(mark) - t0) * rate));
  if (from <= to) known.fill(0, from, to + 1);
}

/** The first sample after the pointer has been on the target for a while, or after the time given for that. */
function acquire(inside: Uint8Array, known: Uint8Array, rate: number): { acquired: number; acquisition: "inside" | "time" } {
  const held = Math.ceil(HELD * rate);
  const latest = Math.ceil(LATEST * rate);
  let run = 0;
  for (let i = 0; i < Math.min(latest, inside.length); i++) {
    run = inside[i] === 1 && known[i] === 1 ? run + 1 : 0;
    if (run === held) return { acquired: i + 1, acquisition: "inside" };
  }
  return { acquired: Math.min(latest, inside.length), acquisition: "time" };
}

function runsOf(known: Uint8Array, from: number): Piece[] {
  const runs: Piece[] = [];
  for (let i = from; i < known.length; i++) {
    if (known[i] === 0) continue;
    const start = i;
    while (i < known.length && known[i] === 1) i++;
    runs.push({ start, end: i });
  }
  return runs;
}
