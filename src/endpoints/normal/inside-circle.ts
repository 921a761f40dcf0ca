import { NODES, WEIGHTS } from "../../math/gauss-legendre.js";
import type { TailsAt } from "../../math/positive-quantile.js";
import { addNode, type Contour, emptyContour, panelsFor, REACH, tailsOf } from "./contour.js";
import { insideChord, LINE } from "./inside-chord.js";
import type { PrincipalNormal } from "./principal-normal.js";

/** A stretch of the circle near the mean: the points (side cos t, sin t), -pi/2 <= t <= pi/2. */
interface Arc {
  readonly side: 1 | -1;
  readonly from: number;
  readonly to: number;
}

/**
 * Probability that a normal endpoint lies within `radius` of the target's centre, its complement, and its growth with the logarithm of the
 * radius. The integral along the circle (see contour.ts) takes the stretches within 8.8 standard deviations of the mean only, at most four.
 * Absolute error below 1e-12 down to an aspect of 1e-4, 1e-14 at 0.01; a scatter without width is a line, which the circle cuts in a chord.
 */
export function insideCircle(normal: PrincipalNormal, radius: number): TailsAt {
  const { along, across, long, short } = normal;
  if (short <= LINE * Math.max(long, radius)) {
    const half = Math.sqrt(Math.max(0, (radius - across) * (radius + across)));
    // half^2 = radius^2 - across^2
    const speed = half > 0 ? (radius / half) * radius : 0;
    const met = Math.abs(across) <= radius;
    return insideChord(along, long, met ? { low: -half, high: half, lowSpeed: -speed, highSpeed: speed } : undefined);
  }
  const sums = emptyContour();
  const edge = { a: radius / long, b: radius / short, x: along / long, y: across / short };
  const arcs = nearArcs(edge);
  for (const arc of arcs) addArc(sums, edge, arc);
  const inside = along * along + across * across < radius * radius;
  if (arcs.length === 0) return tailsOf({ ...sums, nearest: REACH * REACH }, inside);
  for (let k = 0; k < arcs.length; k++) addSweep(sums, edge, inside, arcs[k]!, arcs[(k + 1) % arcs.length]!);
  return tailsOf(sums, inside);
}

/** The circle as an ellipse with semi-axes a <= b, in standard deviations, about minus the mean (x, y). */
interface Ellipse {
  readonly a: number;
  readonly b: number;
  readonly x: number;
  readonly y: number;
}

/** Stretches within reach of the mean along both axes, in counter-clockwise order. */
function nearArcs({ a, b, x, y }: Ellipse): Arc[] {
  const low = (y - REACH) / b;
  const high = (y + REACH) / b;
  if (low >= 1 || high <= -1) return [];
  const from = Math.asin(Math.max(-1, low));
  const to = Math.asin(Math.min(1, high));
  const arcs: Arc[] = [];
  for (const side of [1, -1] as const) {
    const least = (side * x - REACH) / a;
    const most = (side * x + REACH) / a;
    if (least >= 1 || most <= 0) continue;
    const outer = Math.acos(Math.max(0, least));
    const inner = most >= 1 ? 0 : Math.acos(most);
    const pieces =
      inner === 0
        ? [[-outer, outer]]
        : [
            [-outer, -inner],
            [inner, outer],
          ];
    const kept = pieces.flatMap(([start, end]): Arc[] => {
      const piece = { side, from: Math.max(from, start!), to: Math.min(to, end!) };
      return piece.to > piece.from ? [piece] : [];
    });
    arcs.push(...(side === 1 ? kept : kept.reverse()));
  }
  return arcs;
}

function addArc(sums: Contour, { a, b, x, y }: Ellipse, { side, from, to }: Arc): void {
  const panels = panelsFor(b * (to - from));
  const half = (to - from) / (2 * panels);
  for (let panel = 0; panel < panels; panel++) {
    const middle = from + (2 * panel + 1) * half;
    for (let k = 0; k < 20; k++) {
      const node = k < 10 ? NODES[k]! : -NODES[k - 10]!;
      const t = middle + half * node;
      const cos = side * Math.cos(t);
      const sin = Math.sin(t);
      const z1 = a * cos - x;
      const z2 = b * sin - y;
      addNode(sums, (z1 * z1 + z2 * z2) / 2, z1 * b * cos + z2 * a * sin, a * b, half * WEIGHTS[k % 10]!);
    }
  }
}

/** Angle swept from the end of one near stretch to the start of the next. */
function addSweep(sums: Contour, { a, b, x, y }: Ellipse, inside: boolean, arc: Arc, next: Arc): void {
  const end = arc.side === 1 ? arc.to : arc.from;
  const start = next.side === 1 ? next.from : next.to;
  const gap = turnTo(next.side, start) - turnTo(arc.side, end);
  const open = gap < 0 || arc === next ? gap + 2 * Math.PI : gap;
  if (open === 0) return;
  const z1 = a * arc.side * Math.cos(end) - x;
  const z2 = b * Math.sin(end) - y;
  const w1 = a * next.side * Math.cos(start) - x;
  const w2 = b * Math.sin(start) - y;
  const angle = Math.atan2(z1 * w2 - z2 * w1, z1 * w1 + z2 * w2);
  // around a mean inside the way leads counter-clockwise throughout; a hair below 0 is rounding of a stretch without length
  sums.swept += inside && angle < 0 && open > 1e-6 ? angle + 2 * Math.PI : angle;
}

/** Position on the circle, counter-clockwise from its lowest point, 0 to 2 pi. */
function turnTo(side: 1 | -1, t: number): number {
  return side === 1 ? t + Math.PI / 2 : (3 * Math.PI) / 2 - t;
}
