import { fc } from "@fast-check/vitest";
import type { MovementTimeCell } from "../../src/fitts/models/movement-time.js";
import { createRandom } from "../../src/math/random.js";

/** Cells of a crossed design, their times by a law. */
export function cellsBy(
  law: (amplitude: number, width: number) => number,
  amplitudes: readonly number[] = [60, 120, 240, 480],
  widths: readonly number[] = [8, 16, 32, 64],
): MovementTimeCell[] {
  return widths.flatMap((width) => amplitudes.map((amplitude) => ({ amplitude, width, movementTime: law(amplitude, width) })));
}

/** Cells of a crossed design about a rising line, with noise of 5 to 60 ms; some with several people. */
export const noisyCells: fc.Arbitrary<MovementTimeCell[]> = fc
  .record({
    seed: fc.integer({ min: 0, max: 1e6 }),
    amplitudes: fc.uniqueArray(fc.integer({ min: 40, max: 900 }), { minLength: 2, maxLength: 4 }),
    widths: fc.uniqueArray(fc.integer({ min: 5, max: 90 }), { minLength: 2, maxLength: 4 }),
    people: fc.integer({ min: 1, max: 3 }),
    slope: fc.integer({ min: 5, max: 30 }),
    noise: fc.integer({ min: 5, max: 60 }),
  })
  .map(({ seed, amplitudes, widths, people, slope, noise }) => {
    const random = createRandom(seed);
    return Array.from({ length: people }, (_, person) =>
      cellsBy((a, w) => 0.35 + 0.01 * slope * Math.log2(a / w + 1) + random.normal(0, noise / 1000), amplitudes, widths).map((cell) => ({
        ...cell,
        movementTime: Math.max(0.05, cell.movementTime),
        effectiveWidth: cell.width * random.uniform(0.7, 1.3),
        person: `p${person}`,
      })),
    ).flat();
  });
