// Where the moving target is: a sum of sinusoids on each axis, the usual input of a laboratory's tracking task, which nobody can foresee.
import { createRandom } from "../../src/math/random.js";
import type { Point, Size } from "./layout.js";

/** Frequencies on each axis, Hz: multiples of 0.05, so that the way repeats itself every 20 s, and no two axes share one. */
export const LINES = { x: [0.1, 0.25, 0.55, 0.85], y: [0.15, 0.35, 0.65, 0.95] } as const;
/** Diameter of the moving target, CSS pixels. */
export const FOLLOWED = 48;
const MARGIN = 16;
/** Farthest from the middle on each axis: about 190 px/s, four target widths a second. */
const FARTHEST = { x: 260, y: 180 } as const;

export interface PursuitPath {
  /** Place at a time after the start, seconds. */
  readonly at: (t: number) => Point;
}

/** The path in a field, drawn by `seed`. Every line has the same highest speed, so that slow ones are wide. It begins at rest. */
export function pursuitPath(field: Size, seed: number): PursuitPath {
  const random = createRandom(seed);
  const x = axis(LINES.x, field.width, FARTHEST.x, random.pick);
  const y = axis(LINES.y, field.height, FARTHEST.y, random.pick);
  return { at: (t) => ({ x: x(t), y: y(t) }) };
}

function axis(lines: readonly number[], extent: number, farthest: number, pick: <T>(of: readonly T[]) => T): (t: number) => number {
  const reach = Math.min(farthest, extent / 2 - FOLLOWED / 2 - MARGIN);
  const slowness = lines.reduce((sum, hz) => sum + 1 / hz, 0);
  // cosines: none of them moves at the start, and the sign is what is drawn
  const waves = lines.map((hz) => ({ hz, amplitude: (pick([-1, 1]) * reach) / (hz * slowness) }));
  return (t) => waves.reduce((sum, { hz, amplitude }) => sum + amplitude * Math.cos(2 * Math.PI * hz * t), extent / 2);
}
