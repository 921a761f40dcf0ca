import type { Trace } from "../types.js";
import type { UniformSegment } from "../uniform.js";
import { BLOCK } from "./block.js";
import { fillLinear, type Grid } from "./fill-linear.js";
import { fillMonotone } from "./fill-monotone.js";
import type { Break } from "./gaps.js";
import { placeKnots } from "./knots.js";

/** More grid points than this in one segment are a mistake in the times (two clocks, milliseconds) and not a recording. */
const MOST_POINTS = 2e8;

/** What the grid is laid by. */
export interface GridPlan {
  readonly sampleRateHz: number;
  /** Rate of the recording itself: a hold ends one of its intervals before the next sample. */
  readonly nominalHz: number;
  readonly start: number;
  readonly breaks: readonly Break[];
  readonly method: "linear" | "monotone";
}

/** One segment for each stretch between missing samples that holds a grid point at all. */
export function evenSegments(where: string, trace: Trace, plan: GridPlan): UniformSegment[] {
  const segments: UniformSegment[] = [];
  let from = 0;
  let firstBreak = 0;
  for (let b = 0; b <= plan.breaks.length; b++) {
    const end = plan.breaks[b];
    if (end !== undefined && end.kind === "hold") continue;
    const segment = fillPiece(where, trace, plan, from, end === undefined ? trace.t.length - 1 : end.before, firstBreak, b);
    if (segment !== undefined) segments.push(segment);
    if (end !== undefined) from = end.after;
    firstBreak = b + 1;
  }
  return segments;
}

/** The samples `from`..`to`, both included, on the grid; the breaks `firstBreak`..`endBreak` (exclusive) are the holds among them. */
function fillPiece(
  where: string,
  trace: Trace,
  plan: GridPlan,
  from: number,
  to: number,
  firstBreak: number,
  endBreak: number,
): UniformSegment | undefined {
  const { t } = trace;
  const { start, sampleRateHz } = plan;
  // times are doubles: near 1.7e9 s their last digit is 0.2 microseconds, and a sample meant for a grid point may lie that much off
  const slack = 1e-6 + 2 ** -51 * sampleRateHz * Math.max(Math.abs(t[from]!), Math.abs(t[to]!), Math.abs(start));
  const first = Math.ceil((t[from]! - start) * sampleRateHz - slack);
  const n = Math.floor((t[to]! - start) * sampleRateHz + slack) - first + 1;
  if (n < 1) return undefined;
  if (n > MOST_POINTS) {
    throw new RangeError(
      `${where}: trace must span at most ${MOST_POINTS} grid points, got ${n} (${t[to]! - t[from]!} s at ${sampleRateHz} Hz)`,
    );
  }
  const grid = { start, sampleRateHz, first, x: new Float64Array(n), y: new Float64Array(n) };
  const holds = plan.breaks.slice(firstBreak, endBreak);
  const leaveTimes = holds.map((hold) => hold.to - 1 / plan.nominalHz);
  if (plan.method === "monotone") {
    const knots = placeKnots(trace, from, to, holds, leaveTimes, start);
    fillMonotone(knots.t, knots.x, first, sampleRateHz, grid.x);
    fillMonotone(knots.t, knots.y, first, sampleRateHz, grid.y);
  } else {
    fillLines(trace, from, to, grid, holds, leaveTimes);
  }
  return { t0: start + first / sampleRateHz, sampleRateHz, x: grid.x, y: grid.y };
}

/** Straight lines between samples, and in each hold its position until it is left, then a straight line to the next sample. */
function fillLines(trace: Trace, from: number, to: number, grid: Grid, holds: readonly Break[], leaveTimes: readonly number[]): void {
  const { x, y } = trace;
  const n = grid.x.length;
  const pointFrom = (time: number, least: number): number =>
    Math.min(n, Math.max(least, Math.ceil((time - grid.start) * grid.sampleRateHz) - grid.first));
  let begin = 0;
  let sample = from;
  for (let h = 0; h < holds.length; h++) {
    const hold = holds[h]!;
    const leave = leaveTimes[h]!;
    const held = pointFrom(hold.from, begin);
    const left = pointFrom(leave, held);
    const end = pointFrom(hold.to, left);
    fillBlocks(trace, sample, hold.before, grid, begin, held);
    const heldX = x[hold.before]!;
    const heldY = y[hold.before]!;
    grid.x.fill(heldX, held, left);
    grid.y.fill(heldY, held, left);
    for (let o = left; o < end; o++) {
      const share = (grid.start + (grid.first + o) / grid.sampleRateHz - leave) / (hold.to - leave);
      grid.x[o] = heldX + share * (x[hold.after]! - heldX);
      grid.y[o] = heldY + share * (y[hold.after]! - heldY);
    }
    sample = hold.after;
    begin = end;
  }
  fillBlocks(trace, sample, to, grid, begin, n);
}

function fillBlocks(trace: Trace, from: number, to: number, grid: Grid, begin: number, end: number): void {
  let sample = from;
  for (let o = begin; o < end; o += BLOCK) sample = fillLinear(trace, sample, to, grid, o, Math.min(o + BLOCK, end));
}
