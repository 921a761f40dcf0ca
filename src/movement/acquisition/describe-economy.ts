import type { SpeedSegment } from "../../trace/condition/speed-segment.js";
import { countEntries } from "../path/count-entries.js";
import { countReversals } from "../path/count-reversals.js";
import { deviations } from "../path/deviations.js";
import { excessByPhase } from "../path/excess-by-phase.js";
import { pathLength } from "../path/path-length.js";
import type { Economy, PathExcess } from "../row-parts.js";
import { type CoarsePath, coarsePath } from "./coarse-path.js";
import type { Axis } from "./local-frame.js";
import { alongColumn, samplesWithin } from "./motion.js";
import { smoothnessOf } from "./smoothness-of.js";

/** A reversal counts beyond this many quanta, and beyond this share of the path, which the filter's own ringing does not reach. */
const QUANTA = 2;
const RINGING_SHARE = 0.005;
/** On the edge a pointer has left beyond a quantum, and beyond this share of the path. */
const EDGE_SHARE = 0.001;

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
  profile: SpeedSegment,
  { onset, primaryEnd, stop, until, end }: EconomyInstants,
  axis: Axis | undefined,
  quantum: number,
  lies: (t: number, x: number, y: number, margin: number) => boolean,
): { readonly economy: Economy; readonly correctionPath: number } {
  // a press in motion ends the phases that it interrupts
  const stopped = Math.min(stop, until);
  const landed = Math.min(primaryEnd, stopped);
  const path = coarsePath(profile, [onset, landed, stopped, until, end], quantum);
  const { x, y, at } = path;
  const length = pathLength(x, y, 0, x.length);
  const last = x.length - 1;
  const straight = Math.sqrt((x[last]! - x[0]!) ** 2 + (y[last]! - y[0]!) ** 2);
  return {
    correctionPath: pathLength(x, y, at[1]!, at[2]! + 1),
    economy: {
      pathLength: length,
      ...(length > 0 && { efficiency: Math.min(1, straight / length) }),
      ...(axis && { excess: excessOf(path, axis) }),
      ...(axis && deviations(x, y, axis)),
      ...(axis && { reversals: reversalsAlong(profile, axis, onset, end, Math.max(QUANTA * quantum, RINGING_SHARE * length)) }),
      entries: entriesOf(profile, onset, end, Math.max(quantum, EDGE_SHARE * length), lies),
      ...smoothnessOf(profile, onset, stopped),
    },
  };
}

function excessOf({ x, y, at }: CoarsePath, { ux, uy }: Axis): PathExcess {
  const along = new Float64Array(x.length);
  for (let i = 0; i < along.length; i++) along[i] = x[i]! * ux + y[i]! * uy;
  const [primary, correction, verification, recovery] = excessByPhase(x, y, along, at) as [number, number, number, number];
  return { primary, correction, verification, recovery };
}

function reversalsAlong(profile: SpeedSegment, axis: Axis, from: number, to: number, deadBand: number): number {
  const along = alongColumn(profile, samplesWithin(profile, from, to), axis);
  return countReversals(along, 0, along.length, deadBand);
}

function entriesOf(
  profile: SpeedSegment,
  from: number,
  to: number,
  slack: number,
  lies: (t: number, x: number, y: number, margin: number) => boolean,
): number {
  const { x, y, t0, sampleRateHz } = profile;
  const { start, end } = samplesWithin(profile, from, to);
  return countEntries(x, y, start, end, (px, py, i, beyond) => lies(t0 + i / sampleRateHz, px, py, -beyond), slack, true);
}
