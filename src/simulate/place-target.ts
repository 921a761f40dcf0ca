import type { Random } from "../math/random.js";
import type { TargetModel } from "./options.js";
import type { Vector } from "./truth.js";

/** Draws before the field is taken to be full. */
const MOST_DRAWS = 1000;

/** A standing target's disc in the flat field, whose middle is (0, 0); simulated units. */
export interface Disc extends Vector {
  readonly width: number;
}

/**
 * Draws the next target from `from`, inside the bounds and clear of the discs in `taken`. A direction that leads outside is mirrored: each
 * half of the field is as likely as the other by symmetry, so directions stay uniform overall.
 */
export function placeTarget(where: string, random: Random, model: TargetModel, from: Vector, taken: readonly Disc[]): Disc {
  const halfWidth = model.bounds.width / 2;
  const halfHeight = model.bounds.height / 2;
  const width = random.pick(model.widths);
  for (let draw = 0; draw < MOST_DRAWS; draw++) {
    const amplitude = random.uniform(model.amplitude[0], model.amplitude[1]);
    const direction = random.uniform(0, 2 * Math.PI);
    const x = mirrored(from.x, amplitude * Math.cos(direction), halfWidth);
    const y = mirrored(from.y, amplitude * Math.sin(direction), halfHeight);
    if (x === undefined || y === undefined) continue;
    if (taken.every((disc) => (disc.x - x) ** 2 + (disc.y - y) ** 2 > ((disc.width + width) / 2) ** 2)) return { x, y, width };
  }
  throw new RangeError(
    `${where}: options.targets must leave room for ${taken.length + 1} separate targets in bounds of ` +
      `${model.bounds.width} by ${model.bounds.height}, got none in ${MOST_DRAWS} draws`,
  );
}

function mirrored(from: number, step: number, half: number): number | undefined {
  if (Math.abs(from + step) <= half) return from + step;
  return Math.abs(from - step) <= half ? from - step : undefined;
}
