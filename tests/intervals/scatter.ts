// Endpoint scatter of the three shapes: tilted, narrow and biased, the same for every trial; and its true figures, from one large sample.
import { createRandom, type Random } from "../../src/math/random.js";
import { drawPoint, type ScatterShape, SHAPES } from "./shapes.js";

/** Standard deviations 6 and 4, correlation 0.3, bias (2, -1): px. */
const SD = [6, 4] as const;
const CORRELATION = 0.3;
export const BIAS = [2, -1] as const;

export interface Columns {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

export function drawScatter(shape: ScatterShape, n: number, random: Random, bias: readonly [number, number] = BIAS): Columns {
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const [u, v] = drawPoint(shape, random);
    x[i] = bias[0] + SD[0] * u;
    y[i] = bias[1] + SD[1] * (CORRELATION * u + Math.sqrt(1 - CORRELATION ** 2) * v);
  }
  return { x, y };
}

/** Round scatter without bias, standard deviation 5. */
export function drawRound(shape: ScatterShape, n: number, random: Random): Columns {
  const points = Array.from({ length: n }, () => drawPoint(shape, random));
  return { x: Float64Array.from(points, ([u]) => 5 * u), y: Float64Array.from(points, ([, v]) => 5 * v) };
}

const MANY = 2_000_000;

/** A figure of each shape's endless scatter, computed once from two million endpoints: its sampling error is a fiftieth of that of 800 and less. */
export function truthOf(
  figure: (scatter: Columns) => number,
  draw: typeof drawScatter | typeof drawRound = drawScatter,
): (shape: ScatterShape) => number {
  const known = new Map<ScatterShape, number>();
  return (shape) => {
    const found = known.get(shape) ?? figure(draw(shape, MANY, createRandom(99, SHAPES.indexOf(shape))));
    known.set(shape, found);
    return found;
  };
}

/** Distance that holds a share of the endpoints. */
export function radiusOf(share: number): (scatter: Columns) => number {
  return ({ x, y }) => {
    const distances = x.map((value, i) => Math.sqrt(value * value + y[i]! * y[i]!)).sort();
    return distances[Math.floor(share * distances.length)]!;
  };
}

export function shareWithin(radius: number, bias: readonly [number, number] = [0, 0], spread = 1): (scatter: Columns) => number {
  return ({ x, y }) => {
    let inside = 0;
    for (let i = 0; i < x.length; i++) {
      const dx = bias[0] + spread * (x[i]! - bias[0]);
      const dy = bias[1] + spread * (y[i]! - bias[1]);
      if (dx * dx + dy * dy <= radius * radius) inside++;
    }
    return inside / x.length;
  };
}
