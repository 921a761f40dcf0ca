import type { Vector } from "../truth.js";
import type { Steps } from "./follow.js";
import type { PursuitSettings } from "./options.js";

/** Beyond this a view's tangent plane turns too fast, degrees. */
const STEEPEST = 80;

/** How the flat field of one trial lies in the recording's space, step by step. */
export interface TrialFrame {
  /** The space's units in one simulated unit. */
  readonly scale: number;
  /** A point of the field at step `k`. */
  readonly toSpace: (k: number, point: Vector) => Vector;
  /** The other way. */
  readonly toField: (k: number, point: Vector) => Vector;
  /** The target's own place, `share` of the way from step `k` to the next, given its place in the field. */
  readonly targetAt: (k: number, share: number, point: Vector) => Vector;
}

/**
 * The frame of one trial. In a plane the field's corner is (0, 0). In a view the target's azimuth is the sum of its steps over the cosine of its elevation, and
 * the pointer lies in the tangent plane at the target.
 */
export function trialFrame(where: string, { space, target: { bounds } }: PursuitSettings, target: Steps): TrialFrame {
  if (space.kind === "plane") {
    const x = bounds.width / 2;
    const y = bounds.height / 2;
    const toSpace = (_: number, point: Vector): Vector => ({ x: point.x + x, y: point.y + y });
    return {
      scale: 1,
      toSpace,
      toField: (_, point) => ({ x: point.x - x, y: point.y - y }),
      targetAt: (_, __, point) => toSpace(0, point),
    };
  }
  const { degreesPerUnit: scale, elevation } = space;
  const n = target.x.length;
  const cosine = new Float64Array(n);
  const azimuth = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const height = elevation + scale * target.y[k]!;
    if (Math.abs(height) > STEEPEST) {
      throw new RangeError(`${where}: a view's target must stay within ${STEEPEST} degrees of elevation, got ${height}`);
    }
    cosine[k] = Math.cos((height * Math.PI) / 180);
    azimuth[k] =
      k === 0
        ? (scale * target.x[0]!) / cosine[0]!
        : azimuth[k - 1]! + (scale * (target.x[k]! - target.x[k - 1]!) * 2) / (cosine[k]! + cosine[k - 1]!);
  }
  return {
    scale,
    toSpace: (k, point) => ({
      x: azimuth[k]! + (scale * (point.x - target.x[k]!)) / cosine[k]!,
      y: elevation + scale * point.y,
    }),
    toField: (k, point) => ({
      x: target.x[k]! + ((point.x - azimuth[k]!) * cosine[k]!) / scale,
      y: (point.y - elevation) / scale,
    }),
    targetAt: (k, share, point) => ({
      x: azimuth[k]! + share * ((azimuth[k + 1] ?? azimuth[k]!) - azimuth[k]!),
      y: elevation + scale * point.y,
    }),
  };
}
