// The three shapes of scatter by which every interval is tried, fixed before any result was seen: each with mean 0 and standard deviation 1.
import type { Random } from "../../src/math/random.js";

export type ScatterShape = "normal" | "skewed" | "heavyTailed";
export const SHAPES: readonly ScatterShape[] = ["normal", "skewed", "heavyTailed"];

/** `skewed`: gamma of shape 2 (skewness 1.41); `heavyTailed`: Student's t with 3 degrees of freedom. */
export function drawShape(shape: ScatterShape, random: Random): number {
  if (shape === "normal") return random.normal();
  if (shape === "skewed") return (random.exponential(1) + random.exponential(1) - 2) / Math.SQRT2;
  return studentThree(random.normal(), random);
}

/** Two such values with correlation 0 that share their tails where the shape has tails: a two-dimensional Student t. */
export function drawPoint(shape: ScatterShape, random: Random): readonly [number, number] {
  if (shape !== "heavyTailed") return [drawShape(shape, random), drawShape(shape, random)];
  const scale = chi3(random);
  return [random.normal() / scale, random.normal() / scale];
}

/** sqrt(chi-squared with 3 degrees of freedom): a normal variable over it is t/sqrt(3), whose standard deviation is 1. */
function chi3(random: Random): number {
  const [a, b, c] = [random.normal(), random.normal(), random.normal()];
  return Math.sqrt(a * a + b * b + c * c);
}

function studentThree(normal: number, random: Random): number {
  return normal / chi3(random);
}
