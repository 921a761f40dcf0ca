import { quantileInPlace } from "../../math/quantile.js";
import type { Trace } from "../types.js";
import type { SamplingSteps } from "./sampling-steps.js";

/** A step is far when it is this many times the step that 90 % of the steps in motion stay below. */
const FAR = 50;
/** A far step spans at least this many quanta, whatever the other steps. */
const FAR_QUANTA = 100;
/** The way there and back must end within this share of the shorter of its two steps. */
const RETURN = 0.25;
/** Longest stay at the far position, samples. */
const LONGEST_STAY = 3;

/**
 * Samples at a position that the pointer cannot have visited: one far step leads there, another far step leads back to where it was, and
 * the stay is at most three samples at that one position. A code for "no position" looks like that; so does a fault of the link. A fast
 * movement does not: it takes several steps or does not come back. Indices into the trace, in order.
 */
export function implausibleJumps(trace: Trace, steps: SamplingSteps, quantum: number): number[] {
  const { x, y } = trace;
  const { distance, movingDistance } = steps;
  const jumps: number[] = [];
  if (movingDistance.length === 0) return jumps;
  const far = Math.max(FAR * quantileInPlace(movingDistance, 0.9), FAR_QUANTA * quantum);
  for (let i = 0; i < distance.length; i++) {
    if (distance[i]! <= far) continue;
    let last = i + 1;
    while (last < distance.length && distance[last] === 0) last++;
    if (last === distance.length || last - i > LONGEST_STAY || distance[last]! <= far) continue;
    const dx = x[last + 1]! - x[i]!;
    const dy = y[last + 1]! - y[i]!;
    if (Math.sqrt(dx * dx + dy * dy) > RETURN * Math.min(distance[i]!, distance[last]!)) continue;
    for (let k = i + 1; k <= last; k++) jumps.push(k);
    // the step back may not count as the way to another jump
    i = last;
  }
  return jumps;
}
