// Where the targets of a tapping task stand, and in which order they are pressed.
import type { Random } from "../../src/math/random.js";

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Distance from each target to the next, and diameter of the targets, CSS pixels. */
export interface Condition {
  readonly amplitude: number;
  readonly width: number;
}

/** Targets of a round: odd, so that "across" names each of them once before the first comes again. */
export const TARGETS = 11;
/** Free space at the edge of the field: a pointer held by an edge looks like a pointer at rest. */
const MARGIN = 16;
const LONGEST = 360;
/** The longer distance is a multiple of this; half of it is the shorter one. */
const STEP = 20;
/** Longer distance over the wide target, and over the narrow one: 2.5, 3.3, 3.6 and 4.5 bit where the field has room for the longest. */
const WIDE_SHARE = 9;
const NARROW_SHARE = 22.5;
/** A target below this is hardly seen, and a finger hides it. */
const NARROWEST = 16;

/** Diameter of the circle on which `count` targets stand when each next one is `amplitude` away: the chord to the place across is a little shorter than the diameter. */
export function circleDiameter(amplitude: number, count: number): number {
  if (!(Number.isInteger(count) && count >= 3 && count % 2 === 1))
    throw new RangeError(`circleDiameter: count must be an odd whole number from 3 on, got ${count}`);
  return amplitude / Math.cos(Math.PI / (2 * count));
}

/** The places on the circle in the order in which they are pressed, from the top, each next one across; after the last comes the first again. */
export function placesInOrder(amplitude: number, count: number, centre: Point): Point[] {
  const radius = circleDiameter(amplitude, count) / 2;
  return Array.from({ length: count }, (_, k) => {
    const angle = 2 * Math.PI * (((k * (count + 1)) / 2 / count) % 1) - Math.PI / 2;
    return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
  });
}

/** Two distances crossed with two widths, as large as the field allows. */
export function conditionsFor({ width, height }: Size): Condition[] {
  const room = Math.min(width, height) - 2 * MARGIN;
  const needed = circleDiameter(1, TARGETS) + 1 / WIDE_SHARE;
  const far = Math.min(LONGEST, STEP * Math.floor(room / needed / STEP));
  if (far < STEP * 6) throw new RangeError(`conditionsFor: the field must be at least 170 px wide and high, got ${width} by ${height}`);
  const wide = Math.round(far / WIDE_SHARE);
  const narrow = Math.min(Math.max(NARROWEST, Math.round(far / NARROW_SHARE)), wide - 4);
  return [far / 2, far].flatMap((amplitude) => [wide, narrow].map((size) => ({ amplitude, width: size })));
}

/** The entries in any order, all equally likely (Fisher and Yates). */
export function shuffled<T>(entries: readonly T[], random: Random): T[] {
  const order = [...entries];
  for (let i = order.length - 1; i > 0; i--) {
    const j = Math.floor(random.uniform(0, i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}
