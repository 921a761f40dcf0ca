import { minimumJerkPosition } from "../../math/minimum-jerk.js";
import type { Random } from "../../math/random.js";
import type { Vector } from "../truth.js";
import { bandNoise } from "./band-noise.js";
import type { PursuitSettings } from "./options.js";

/** Step of the simulation, seconds. */
export const STEP = 0.001;
/** The same as steps per second: whole, so that times are exact. */
export const STEPS_PER_SECOND = 1000;

/** One catch-up movement as it was drawn; times in seconds from the start of the trial, lengths in simulated units. */
export interface DrawnBell {
  readonly onset: number;
  readonly duration: number;
  readonly displacement: Vector;
  /** Pointer minus target at the onset. */
  readonly error: Vector;
}

/** A pointer's path on the steps of one trial, and what it is made of. */
export interface Following {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly bells: readonly DrawnBell[];
  /** Start and end of the first reach, seconds from the start of the trial. */
  readonly reachStart: number;
  readonly reachEnd: number;
  /** The noise's own standard deviation after the reach, on both axes together. */
  readonly noiseSd: number;
}

/** The target's place and scale on the steps of one trial. */
export interface Steps {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly scale: Float64Array;
}

/**
 * A pointer that rests (at `restAt(step)` of the field, which a view's frame moves about) until it reaches for the target, and then follows it `seen` seconds late, with a
 * gain and a first-order lag, catches up what it sees to be off, and is noisy. Noise and bells draw from sources of their own.
 */
export function follow(
  target: Steps,
  restAt: (k: number) => Vector,
  settings: PursuitSettings,
  seen: number,
  noise: Random,
  bells: Random,
): Following {
  const { follower, catchUp, reach } = settings;
  const n = target.x.length;
  const reachAt = Math.round(noise.uniform(...reach.latency) / STEP);
  const reachFor = Math.round(noise.uniform(...reach.duration) / STEP);
  const noiseX = bandNoise(noise, n, STEP, settings.noise.sd, settings.noise.bandHz);
  const noiseY = bandNoise(noise, n, STEP, settings.noise.sd, settings.noise.bandHz);
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const drawn: DrawnBell[] = [];
  const keep = follower.timeConstant > 0 ? Math.exp(-STEP / follower.timeConstant) : 0;
  const originX = target.x[0]!;
  const originY = target.y[0]!;
  let smoothX = originX;
  let smoothY = originY;
  let beforeX = originX;
  let beforeY = originY;
  // offset taken off by the reach, sum of the bells begun, and the one or two that are still under way
  let offX = 0;
  let offY = 0;
  let caughtX = 0;
  let caughtY = 0;
  let active = 0;
  let next = reachAt + reachFor;
  let squares = 0;
  for (let k = 0; k < n; k++) {
    const inputX = originX + follower.gain * (late(target.x, k, seen) - originX);
    const inputY = originY + follower.gain * (late(target.y, k, seen) - originY);
    // over the step the input runs in a straight line: its middle stands for it
    smoothX = follower.timeConstant > 0 ? keep * smoothX + (1 - keep) * ((inputX + beforeX) / 2) : inputX;
    smoothY = follower.timeConstant > 0 ? keep * smoothY + (1 - keep) * ((inputY + beforeY) / 2) : inputY;
    beforeX = inputX;
    beforeY = inputY;
    if (k < reachAt) {
      const rest = restAt(k);
      x[k] = rest.x;
      y[k] = rest.y;
      continue;
    }
    const size = target.scale[k]! ** settings.noise.sizeExponent;
    const steadyX = smoothX + size * noiseX[k]!;
    const steadyY = smoothY + size * noiseY[k]!;
    if (k === reachAt) {
      const rest = restAt(k);
      offX = rest.x - steadyX;
      offY = rest.y - steadyY;
    }
    if (k >= reachAt + reachFor) squares += size * size * (noiseX[k]! ** 2 + noiseY[k]! ** 2);
    const left = 1 - minimumJerkPosition((k - reachAt) / reachFor);
    let openX = 0;
    let openY = 0;
    while (active < drawn.length && k * STEP >= drawn[active]!.onset + drawn[active]!.duration) active++;
    for (let b = active; b < drawn.length; b++) {
      const bell = drawn[b]!;
      const open = 1 - minimumJerkPosition((k * STEP - bell.onset) / bell.duration);
      openX += open * bell.displacement.x;
      openY += open * bell.displacement.y;
    }
    x[k] = steadyX + left * offX + caughtX - openX;
    y[k] = steadyY + left * offY + caughtY - openY;
    if (catchUp.deadZone === null || k < next) continue;
    // what is seen: the old target, and the pointer where the bells begun will have put it
    const errorX = steadyX + caughtX - late(target.x, k, seen);
    const errorY = steadyY + caughtY - late(target.y, k, seen);
    if (errorX * errorX + errorY * errorY <= catchUp.deadZone * catchUp.deadZone) continue;
    const share = -bells.normal(catchUp.gain, catchUp.gainSd);
    const displacement = { x: share * errorX, y: share * errorY };
    const error = { x: x[k]! - target.x[k]!, y: y[k]! - target.y[k]! };
    drawn.push({ onset: k * STEP, duration: bells.uniform(...catchUp.duration), displacement, error });
    caughtX += displacement.x;
    caughtY += displacement.y;
    next = k + Math.round(catchUp.refractory / STEP);
  }
  const counted = Math.max(1, n - reachAt - reachFor);
  return {
    x,
    y,
    bells: drawn,
    reachStart: reachAt * STEP,
    reachEnd: (reachAt + reachFor) * STEP,
    noiseSd: Math.sqrt(squares / (2 * counted)),
  };
}

/** A series `seconds` before step `k`, on the straight line between steps; its first value before it began. */
function late(series: Float64Array, k: number, seconds: number): number {
  const at = k - seconds / STEP;
  if (at <= 0) return series[0]!;
  const i = Math.floor(at);
  return i + 1 < series.length ? series[i]! + (at - i) * (series[i + 1]! - series[i]!) : series[i]!;
}
