import type { SpeedSegment } from "../../trace/condition/speed-segment.js";
import type { Stop } from "../row-parts.js";
import { dampingRatio } from "../stop/damping-ratio.js";
import { overshoot } from "../stop/overshoot.js";
import { settlingTime } from "../stop/settling-time.js";
import { speedSkew } from "../stop/speed-skew.js";
import type { Aim } from "./aim.js";
import { alongColumn, pointAt, samplesWithin } from "./motion.js";
import { steepest } from "./steepest.js";

/** With fewer samples from onset to stop their differences blunt the peak of deceleration (by 10 % and more for a minimum-jerk movement, computed). */
const LEAST_SAMPLES = 20;
/** The pointer has settled once it stays within this share of the target's width: a quarter, so that both halves of the target are beyond it. */
const BAND_SHARE = 0.25;
/** A swing about the end point counts beyond half of that; the filter's own ringing stays below it. */
const SWING_SHARE = 0.125;
/** Less than this many quanta is no swing and no band. */
const QUANTA = 2;

/** The instants of a movement; `until` is the first press, or the end without one. */
export interface StopInstants {
  readonly onset: number;
  /** Start and largest speed of the primary submovement. */
  readonly primaryStart: number;
  readonly peak: number;
  readonly primaryEnd: number;
  readonly stop: number;
  readonly until: number;
}

/** How a movement came to rest. */
export function describeStop(profile: SpeedSegment, instants: StopInstants, { axis, width }: Aim, quantum: number): Stop {
  const { onset, primaryStart, peak, primaryEnd, stop, until } = instants;
  const { sampleRateHz, speed } = profile;
  const rest = Math.max(stop, until);
  const final = pointAt(profile, rest);
  const whole = samplesWithin(profile, onset, rest);
  const braking = (stop - onset) * sampleRateHz < LEAST_SAMPLES ? undefined : steepest(profile, peak, stop, -1);
  const passed = axis && alongColumn(profile, samplesWithin(profile, peak, rest), axis);
  const settled = settlingTime(profile, whole.start, whole.end, final, Math.max(BAND_SHARE * width, QUANTA * quantum), primaryEnd);
  const least = Math.max(SWING_SHARE * width, QUANTA * quantum);
  const damping = passed && dampingRatio(passed, 0, passed.length, final.x * axis.ux + final.y * axis.uy, least);
  const moving = samplesWithin(profile, onset, stop);
  const skew = speedSkew(speed, moving.start, moving.end);
  const held = braking && pointAt(profile, braking.t);
  const left = held && pointAt(profile, stop);
  return {
    decelerationShare: share(stop - peak, stop - onset),
    primaryDecelerationShare: share(primaryEnd - peak, primaryEnd - primaryStart),
    ...(skew !== undefined && { speedSkew: skew }),
    ...(braking && { peakDeceleration: -braking.slope + 0, stoppingTime: stop - braking.t }),
    ...(held && left && { stoppingDistance: Math.sqrt((left.x - held.x) ** 2 + (left.y - held.y) ** 2) }),
    ...(passed && { overshoot: overshoot(passed, 0, passed.length).farthest }),
    settlingTime: settled,
    ...(damping !== undefined && { damping }),
  };
}

function share(part: number, whole: number): number {
  return whole > 0 ? Math.max(0, part) / whole : 0;
}
