import { NODES, WEIGHTS } from "../../math/gauss-legendre.js";
import type { TailsAt } from "../../math/positive-quantile.js";
import { addNode, type Contour, emptyContour, panelsFor, REACH, tailsOf } from "./contour.js";
import { type Chord, insideChord, LINE } from "./inside-chord.js";
import type { PrincipalNormal } from "./principal-normal.js";

/** A rectangle about the target's centre, its first side turned by `angle` degrees from +x toward +y. */
export interface Rectangle {
  readonly width: number;
  readonly height: number;
  readonly angle: number;
}

/**
 * Probability that a normal endpoint lies in a rectangle, its complement, and its growth with the logarithm of the rectangle's size. The
 * integral along the four sides (see contour.ts) takes the stretches within 8.8 standard deviations of the mean only. Absolute error below
 * 1e-13 for any tilt and correlation; a scatter without width is a line, of which the rectangle cuts out a stretch.
 */
export function insideRectangle(normal: PrincipalNormal, { width, height, angle }: Rectangle): TailsAt {
  // sides of the rectangle in the frame of the scatter
  const [c, s] = turnOf(angle);
  const cos = c * normal.cos + s * normal.sin;
  const sin = s * normal.cos - c * normal.sin;
  const w = width / 2;
  const h = height / 2;
  const { along, across, long, short } = normal;
  if (short <= LINE * Math.max(long, w, h)) return onLine(normal, cos, sin, w, h);
  const sums = emptyContour();
  const flow = 1 / (long * short);
  let px = (w * cos + h * sin - along) / long;
  let py = (w * sin - h * cos - across) / short;
  const walk = (x: number, y: number, area: number) => {
    const qx = (x * cos - y * sin - along) / long;
    const qy = (x * sin + y * cos - across) / short;
    addSide(sums, px, py, qx, qy, area * flow);
    px = qx;
    py = qy;
  };
  // distance of each side from the centre times its length: the area by which it sweeps when the rectangle grows
  walk(w, h, 2 * w * h);
  walk(-w, h, 2 * w * h);
  walk(-w, -h, 2 * w * h);
  walk(w, -h, 2 * w * h);
  const u = along * cos + across * sin;
  const v = across * cos - along * sin;
  return tailsOf(sums, Math.abs(u) < w && Math.abs(v) < h);
}

/** One straight side from p to q, in standard deviations from the mean. */
function addSide(sums: Contour, px: number, py: number, qx: number, qy: number, flow: number): void {
  const dx = qx - px;
  const dy = qy - py;
  const length = Math.sqrt(dx * dx + dy * dy);
  const ex = dx / length;
  const ey = dy / length;
  // signed distance of the side from the mean, and the positions of its ends from the foot of the perpendicular
  const distance = px * ey - py * ex;
  const from = px * ex + py * ey;
  const to = qx * ex + qy * ey;
  const reach = Math.sqrt(Math.max(0, REACH * REACH - distance * distance));
  const start = Math.max(from, -reach);
  const end = Math.min(to, reach);
  if (!(end > start)) {
    sums.swept += angleBetween(distance, from, to);
    return;
  }
  sums.swept += angleBetween(distance, from, start) + angleBetween(distance, end, to);
  const panels = panelsFor(end - start);
  const half = (end - start) / (2 * panels);
  const density = flow / length;
  for (let panel = 0; panel < panels; panel++) {
    const middle = start + (2 * panel + 1) * half;
    for (let k = 0; k < 20; k++) {
      const at = middle + half * (k < 10 ? NODES[k]! : -NODES[k - 10]!);
      addNode(sums, (distance * distance + at * at) / 2, distance, density, half * WEIGHTS[k % 10]!);
    }
  }
}

/** Angle under which the mean sees the stretch between two positions on a line at this signed distance. */
function angleBetween(distance: number, from: number, to: number): number {
  return Math.atan2(distance * (to - from), distance * distance + from * to);
}

/** The stretch of the scatter's line inside the rectangle. */
function onLine({ along, across, long }: PrincipalNormal, cos: number, sin: number, w: number, h: number): TailsAt {
  // the point at position t of the line has the coordinates t cos + across sin and across cos - t sin in the rectangle
  const one = stretch(across * sin, cos, w);
  const other = stretch(across * cos, -sin, h);
  if (one === undefined || other === undefined) return insideChord(along, long, undefined);
  const [low, high] = [one.low > other.low ? one : other, one.high < other.high ? one : other];
  return insideChord(along, long, { low: low.low, high: high.high, lowSpeed: low.lowSpeed, highSpeed: high.highSpeed });
}

/** Positions t with |offset + t slope| at most `half`. */
function stretch(offset: number, slope: number, half: number): Chord | undefined {
  if (slope === 0) {
    if (Math.abs(offset) > half) return undefined;
    return { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY, lowSpeed: 0, highSpeed: 0 };
  }
  const speed = half / Math.abs(slope);
  const middle = -offset / slope;
  return { low: middle - speed, high: middle + speed, lowSpeed: -speed, highSpeed: speed };
}

/** Cosine and sine of an angle in degrees; exact at quarter turns, which a narrow scatter would magnify otherwise. */
function turnOf(angle: number): readonly [number, number] {
  const quarter = angle / 90;
  if (!Number.isInteger(quarter)) return [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
  const turns = [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ] as const;
  return turns[((quarter % 4) + 4) % 4]!;
}
