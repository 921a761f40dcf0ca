import { countEntries } from "../path/count-entries.js";
import { countReversals } from "../path/count-reversals.js";
import { excessByPhase } from "../path/excess-by-phase.js";
import { pathLength } from "../path/path-length.js";
import type { Economy } from "../types.js";
import { type CoarsePath, coarsePath } from "./coarse-path.js";
import type { Axis, Point } from "./local-frame.js";
import { alongColumn, type Motion, samplesWithin } from "./motion.js";
import { smoothnessOf } from "./smoothness-of.js";

/** A reversal counts beyond this many quanta, and beyond this share of the path, which the filter's own ringing does not reach. */
const QUANTA = 2;
const RINGING_SHARE = 0.005;

/** The instants of a movement; `until` is the first press, or the end without one. */
export interface EconomyInstants {
  readonly onset: number;
  readonly primaryEnd: number;
  readonly stop: number;
  readonly until: number;
  readonly end: number;
}

/** The economy of a movement, and the length of its path from the end of the primary to the stop. */
export function describeEconomy(
  motion: Motion,
  { onset, primaryEnd, stop, until, end }: EconomyInstants,
  axis: Axis | undefined,
  quantum: number,
  lies: (t: number, p: Point) => boolean,
): { readonly economy: Economy; readonly correctionPath: number } {
  // a press in motion ends the phases that it interrupts
  const stopped = Math.min(stop, until);
  const landed = Math.min(primaryEnd, stopped);
  const path = coarsePath(motion, [onset, landed, stopped, until, end], quantum);
  const { x, y, at } = path;
  const [primary, correction, verification, recovery] = excessByPhase(x, y, at) as [number, number, number, number];
  const length = pathLength(x, y, 0, x.length);
  const last = x.length - 1;
  const straight = Math.sqrt((x[last]! - x[0]!) ** 2 + (y[last]! - y[0]!) ** 2);
  return {
    correctionPath: pathLength(x, y, at[1]!, at[2]! + 1),
    economy: {
      pathLength: length,
      ...(length > 0 && { efficiency: Math.min(1, straight / length) }),
      excess: { primary, correction, verification, recovery },
      ...(axis && deviations(path, axis)),
      ...(axis && { reversals: reversalsAlong(motion, axis, onset, end, Math.max(QUANTA * quantum, RINGING_SHARE * length)) }),
      entries: entriesOf(motion, onset, end, lies),
      ...smoothnessOf(motion.segment, onset, stopped),
    },
  };
}

/** Distances from the axis, which leads through the centre in the origin; each stretch of the path counts by its length. */
function deviations({ x, y }: CoarsePath, { ux, uy }: Axis): { largestDeviation: number; meanDeviation: number } {
  const across = x.map((value, i) => Math.abs(value * uy - y[i]! * ux));
  let sum = 0;
  let length = 0;
  for (let i = 1; i < x.length; i++) {
    const step = Math.sqrt((x[i]! - x[i - 1]!) ** 2 + (y[i]! - y[i - 1]!) ** 2);
    sum += (step * (across[i]! + across[i - 1]!)) / 2;
    length += step;
  }
  return { largestDeviation: across.reduce((most, value) => Math.max(most, value), 0), meanDeviation: length > 0 ? sum / length : 0 };
}

function reversalsAlong({ segment }: Motion, axis: Axis, from: number, to: number, deadBand: number): number {
  const along = alongColumn(segment, samplesWithin(segment, from, to), axis);
  return countReversals(along, 0, along.length, deadBand);
}

function entriesOf(motion: Motion, from: number, to: number, lies: (t: number, p: Point) => boolean): number {
  const { x, y, t0, sampleRateHz } = motion.segment;
  const { start, end } = samplesWithin(motion.segment, from, to);
  return countEntries(x, y, start, end, (px, py, i) => lies(t0 + i / sampleRateHz, { x: px, y: py }), true);
}
