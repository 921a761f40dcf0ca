// Endpoints for the tests of comparisons: random ones of known scatter, and any that a person could make.
import { fc } from "@fast-check/vitest";
import type { Endpoints } from "../../src/endpoints/types.js";
import type { Random } from "../../src/math/random.js";

/** Draws about a mean of 0: bell-shaped, skewed (gamma of shape 2) and heavy-tailed (Student's t with 3 degrees of freedom). */
export const DRAWS = {
  normal: (random: Random) => random.normal(),
  skewed: (random: Random) => random.exponential(1) + random.exponential(1) - 2,
  heavyTailed: (random: Random) => {
    const square = random.normal() ** 2 + random.normal() ** 2 + random.normal() ** 2;
    return random.normal() / Math.sqrt(square / 3);
  },
} as const;

/** `n` endpoints with independent axes, each draw times its factor and moved. */
export function drawEndpoints(
  random: Random,
  n: number,
  draw: (random: Random) => number,
  factors: readonly [number, number] = [1, 1],
  mean: readonly [number, number] = [0, 0],
): Endpoints {
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    x[i] = mean[0] + factors[0] * draw(random);
    y[i] = mean[1] + factors[1] * draw(random);
  }
  return { x, y };
}

export const endpointsOf = (points: readonly (readonly [number, number])[]): Endpoints => ({
  x: Float64Array.from(points, ([x]) => x),
  y: Float64Array.from(points, ([, y]) => y),
});

const coordinate = fc.integer({ min: -800, max: 800 }).map((k) => k / 8);

/** Endpoints in eighths up to 100 either side, ties and coinciding ones included. */
export const endpointsArb = (minLength: number, maxLength = 40): fc.Arbitrary<Endpoints> =>
  fc.array(fc.tuple(coordinate, coordinate), { minLength, maxLength }).map(endpointsOf);

/** Every endpoint through a linear map and a shift. */
export function mapped({ x, y }: Endpoints, [a, b, c, d]: readonly number[], [dx, dy]: readonly number[] = [0, 0]): Endpoints {
  return {
    x: x.map((value, i) => a! * value + b! * y[i]! + dx!),
    y: y.map((value, i) => c! * x[i]! + d! * value + dy!),
  };
}
export const turn = (degrees: number): readonly number[] => {
  const angle = (degrees * Math.PI) / 180;
  return [Math.cos(angle), -Math.sin(angle), Math.sin(angle), Math.cos(angle)];
};

/** Places in a result where a number is not finite, which JSON would lose. */
export function notFinite(value: unknown, path = ""): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [`${path} = ${value}`];
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([key, part]) => notFinite(part, `${path}.${key}`));
}
