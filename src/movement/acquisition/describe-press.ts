import type { SpeedSegment } from "../../trace/condition/speed-segment.js";
import type { Displacement, Pressing } from "../row-parts.js";
import { departureAfter } from "./departure.js";
import type { Axis, Point } from "./local-frame.js";
import { meanSpeedOver, pointAt, samplesWithin } from "./motion.js";

/** The pointer just before the press is taken this long before it; its disturbance is looked for up to this long after, seconds. */
const BEFORE = 0.02;
const AFTER = 0.08;

/** What is needed to describe a press. */
export interface PressSetting {
  /** The first press and its release. */
  readonly press: number;
  readonly up: number | undefined;
  /** When the last submovement ended, found without regard to the press. */
  readonly stop: number | undefined;
  /** When positions ended to be recorded after the press, if anything says so. */
  readonly lost: number | undefined;
  readonly pressedInMotion: boolean;
  readonly axis: Axis | undefined;
  readonly peakSpeed: number;
  readonly noise: number;
  /** Nothing later is looked at. */
  readonly until: number;
  /** Whether the press lay on the target, `undefined` when nobody knows. */
  readonly inside: boolean | undefined;
  /** Whether a point at this distance from the target's centre lies on it. */
  readonly lies: (t: number, x: number, y: number) => boolean;
}

/** What the first press was and did; `profile` is absent where none covers it. */
export function describePress(profile: SpeedSegment | undefined, setting: PressSetting): Pressing {
  const { press, up, stop, pressedInMotion, axis, until } = setting;
  const departure = profile && departureAfter(profile, press, until, setting.peakSpeed, setting.noise);
  // where it goes after it has left is not the press's doing
  const over = departure ?? until;
  const seen = setting.lost === undefined || setting.lost >= Math.min(press + AFTER, over);
  const still = profile !== undefined && !pressedInMotion;
  const last = up === undefined ? undefined : Math.min(up, over);
  const left = still && last !== undefined ? { t: last, ...pointAt(profile, last) } : undefined;
  return {
    ...(stop !== undefined && { afterStop: press - stop }),
    ...(profile && seen && { speed: meanSpeedOver(profile, press - BEFORE, press) }),
    ...(up !== undefined && { duration: up - press }),
    ...(departure !== undefined && { departure: departure - press }),
    ...(still && left && { slip: displacement(pointAt(profile, press), left, axis) }),
    ...(left && setting.inside && { releasedInside: setting.lies(left.t, left.x, left.y) }),
    ...(still && seen && { disturbance: farthest(profile, press - BEFORE, Math.min(press + AFTER, over)) }),
  };
}

function displacement(from: Point, to: Point, axis: Axis | undefined): Displacement {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const length = Math.sqrt(dx * dx + dy * dy);
  return axis === undefined ? { length } : { along: dx * axis.ux + dy * axis.uy + 0, across: dx * axis.uy - dy * axis.ux + 0, length };
}

/** Largest distance from where the pointer was at `from`, up to `to`. */
function farthest(profile: SpeedSegment, from: number, to: number): number {
  const { x, y } = profile;
  const before = pointAt(profile, from);
  const { start, end } = samplesWithin(profile, from, to);
  let most = 0;
  for (let i = start; i < end; i++) {
    const dx = x[i]! - before.x;
    const dy = y[i]! - before.y;
    most = Math.max(most, dx * dx + dy * dy);
  }
  return Math.sqrt(most);
}
