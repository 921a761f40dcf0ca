import type { Break } from "../condition/gaps.js";
import type { SamplingSteps } from "./sampling-steps.js";

/** A rest this long ends a stretch of motion, seconds. */
const REST = 0.1;
/** A gap this long ends it too: what came before and after it belongs to different movements. */
const OUTAGE = 1;
/** A jump up to this many times the larger step beside it is the first report after a rest, or the last before one. */
const LIKELY = 2;

/** Stretches of motion, and how many contain a gap with unexplained motion; `gaps` in order of time. */
export function samplingBouts(steps: SamplingSteps, gaps: readonly Break[]): { count: number; broken: number } {
  const { dt, distance } = steps;
  let count = 0;
  let broken = 0;
  let resting = Number.POSITIVE_INFINITY;
  let thisBroken = false;
  let next = 0;
  for (let i = 0; i < dt.length; i++) {
    while (next < gaps.length && gaps[next]!.after <= i) next++;
    const gap = gaps[next];
    const inGap = gap !== undefined && gap.before <= i && i < gap.after;
    const rests = dt[i]! >= OUTAGE || (inGap ? gap.kind === "hold" || likelyRest(gap, steps) : distance[i] === 0);
    if (rests) {
      resting += dt[i]!;
      continue;
    }
    if (resting >= REST) {
      count++;
      thisBroken = false;
    }
    resting = 0;
    if (inGap && !thisBroken) {
      thisBroken = true;
      broken++;
    }
  }
  return { count, broken };
}

/** Whether the jump across a gap is no larger than motion that starts or stops there explains. */
function likelyRest(gap: Break, steps: SamplingSteps): boolean {
  const beside = Math.max(steps.distance[gap.before - 1] ?? 0, steps.distance[gap.after] ?? 0);
  return gap.jump <= LIKELY * beside;
}
