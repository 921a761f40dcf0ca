import { medianInPlace } from "../../math/median.js";
import type { Endpoints } from "../types.js";

/** The point with the smallest mean distance to the endpoints. */
export interface GeometricMedian {
  /** `null` when a stretch of a line has it, or when the search did not settle. */
  readonly point: readonly [number, number] | null;
  /** Smallest mean distance, length unit. */
  readonly meanDistance: number;
}

/** The sum of distances to all endpoints at one place, and how it changes there. */
interface Slope {
  readonly sum: number;
  /** Gradient, without the endpoints at this very place. */
  readonly gx: number;
  readonly gy: number;
  /** Second derivatives. */
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
  /** Sum of 1/distance. */
  readonly pull: number;
  /** Endpoints at this very place. */
  readonly here: number;
  readonly nearest: number;
}

const MOST_STEPS = 200;
/** A step this small, in units of the scatter, leaves nothing but rounding: each step squares the error. */
const SETTLED = 1e-10;

/**
 * Geometric median of at least one endpoint, from the `start` on, lengths counted in `scale`. Newton's steps on the convex sum of distances,
 * halved while they do not lower it. The sum has a kink at each endpoint: the nearest one is tested in its own right (it is the median when the
 * pull of the others is no stronger than the number of endpoints there) and, if not it but lower, left by a step after Vardi and Zhang 2000
 * (recalled). On a line the median of the positions has the smallest sum, of which an even number leaves a whole stretch.
 */
export function geometricMedian(
  endpoints: Endpoints,
  start: readonly [number, number],
  scale: number,
  lineAngle: number | null,
): GeometricMedian {
  const n = endpoints.x.length;
  if (scale === 0) return { point: [endpoints.x[0]! + 0, endpoints.y[0]! + 0], meanDistance: 0 };
  if (lineAngle !== null) return medianOnLine(endpoints, start, scale, lineAngle);
  const x = endpoints.x.map((value) => (value - start[0]) / scale);
  const y = endpoints.y.map((value) => (value - start[1]) / scale);
  let px = 0;
  let py = 0;
  let at = slopeAt(x, y, px, py);
  let tested = -1;
  for (let step = 0; step < MOST_STEPS; step++) {
    if (at.nearest !== tested) {
      tested = at.nearest;
      const there = slopeAt(x, y, x[tested]!, y[tested]!);
      const strength = Math.sqrt(there.gx * there.gx + there.gy * there.gy);
      if (strength <= there.here) {
        return { point: [endpoints.x[tested]! + 0, endpoints.y[tested]! + 0], meanDistance: (there.sum / n) * scale };
      }
      if (there.sum <= at.sum) {
        const share = (1 - there.here / strength) / there.pull;
        px = x[tested]! - share * there.gx;
        py = y[tested]! - share * there.gy;
        at = slopeAt(x, y, px, py);
        continue;
      }
    }
    const det = at.xx * at.yy - at.xy * at.xy;
    const sound = det > 1e-14 * (at.xx + at.yy) ** 2;
    let dx = sound ? (at.xy * at.gy - at.yy * at.gx) / det : -at.gx / at.pull;
    let dy = sound ? (at.xy * at.gx - at.xx * at.gy) / det : -at.gy / at.pull;
    const length = Math.sqrt(dx * dx + dy * dy);
    if (length <= SETTLED)
      return { point: [start[0] + (px + dx) * scale, start[1] + (py + dy) * scale], meanDistance: (at.sum / n) * scale };
    let next = slopeAt(x, y, px + dx, py + dy);
    // below a millionth the change of the sum drowns in rounding
    for (let halved = 0; next.sum > at.sum && length > 1e-6 && halved < 40; halved++) {
      dx /= 2;
      dy /= 2;
      next = slopeAt(x, y, px + dx, py + dy);
    }
    px += dx;
    py += dy;
    at = next;
  }
  return { point: null, meanDistance: (at.sum / n) * scale };
}

function slopeAt(x: Float64Array, y: Float64Array, px: number, py: number): Slope {
  let sum = 0;
  let gx = 0;
  let gy = 0;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  let pull = 0;
  let here = 0;
  let nearest = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < x.length; i++) {
    const dx = px - x[i]!;
    const dy = py - y[i]!;
    const square = dx * dx + dy * dy;
    if (square < least) {
      least = square;
      nearest = i;
    }
    if (square === 0) {
      here++;
      continue;
    }
    const distance = Math.sqrt(square);
    const inverse = 1 / distance;
    const ux = dx * inverse;
    const uy = dy * inverse;
    sum += distance;
    gx += ux;
    gy += uy;
    xx += uy * uy * inverse;
    xy -= ux * uy * inverse;
    yy += ux * ux * inverse;
    pull += inverse;
  }
  return { sum, gx, gy, xx, xy, yy, pull, here, nearest };
}

/** The middle endpoint on a line in direction `angle`, degrees, or of the two middle ones, should they coincide. */
function medianOnLine({ x, y }: Endpoints, [cx, cy]: readonly [number, number], scale: number, angle: number): GeometricMedian {
  const n = x.length;
  const cos = Math.cos((angle * Math.PI) / 180);
  const sin = Math.sin((angle * Math.PI) / 180);
  const along = new Float64Array(n);
  for (let i = 0; i < n; i++) along[i] = ((x[i]! - cx) / scale) * cos + ((y[i]! - cy) / scale) * sin;
  const middle = medianInPlace(along.slice());
  let sum = 0;
  for (let i = 0; i < n; i++) sum += Math.abs(along[i]! - middle);
  // with two middle endpoints apart, no endpoint lies where their mean does unless endpoints coincide there
  const index = along.indexOf(middle);
  return { point: index < 0 ? null : [x[index]! + 0, y[index]! + 0], meanDistance: (sum / n) * scale };
}
