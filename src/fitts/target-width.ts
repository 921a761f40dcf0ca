import { requireNumber, requireOneOf } from "../math/require.js";
import { requireShape } from "../trace/shape/require-shape.js";
import { widthAlong } from "../trace/shape/target-shape.js";
import type { Shape } from "../trace/types.js";

/** Options of `targetWidth`. */
export interface TargetWidthOptions {
  /** What becomes of the two sides of a target, default `"along"`; the function's text has the formulas. */
  readonly rule?: "along" | "smaller" | "width" | "euclidean" | "sum" | "area";
  /** Direction of travel for `"along"`, RADIANS in the screen's frame: 0 to the right, positive toward down, default 0. Opposite directions give the same width. */
  readonly approach?: number;
  /** Weight of the height in `"euclidean"`, at least 0, default 1. Higher makes a low target harder; 0 leaves the width alone. */
  readonly heightWeight?: number;
}

const WHERE = "targetWidth";

/**
 * The one width of a two-dimensional target that goes into the index of difficulty.
 *
 * `along`: length of the chord through the centre in the direction of travel, for a rectangle min(W/|cos t|, H/|sin t|) with t measured from its
 * own sides. `smaller`: min(W, H). `width`: W whatever H is. `euclidean`: 1/sqrt(1/W^2 + eta/H^2), so that the Shannon index becomes
 * log2(sqrt((A/W)^2 + eta (A/H)^2) + 1). `sum`: W + H. `area`: W H, which is no length: its index changes with the length unit, so it can
 * only be compared within one unit. `along` uses the rectangle's `angle` (DEGREES, clockwise on the screen); the other rules take its own sides
 * as they are. A circle is its diameter under `along`, and under the others the square of that side, so that it ranks with squares.
 *
 * @param shape - the target's outline
 * @param options - see `TargetWidthOptions`
 * @returns the width, in the unit of the shape; with `area` that unit squared
 * @throws TypeError if an argument is of another kind; RangeError if a size or an option is out of range
 * @see MacKenzie and Buxton 1992 (opening read: smaller, along, sum, area), Accot and Zhai 2003 (euclidean; recalled)
 * @example
 * ```ts
 * const key = { kind: "rect", width: 60, height: 20 } as const;
 * targetWidth(key, { approach: Math.PI / 4 }); // => 28.2843
 * targetWidth(key, { rule: "smaller" }); // => 20
 * ```
 */
export function targetWidth(shape: Shape, options: TargetWidthOptions = {}): number {
  const { rule = "along", approach = 0, heightWeight = 1 } = options;
  requireShape(WHERE, "shape", shape);
  requireOneOf(WHERE, "options.rule", rule, ["along", "smaller", "width", "euclidean", "sum", "area"]);
  requireNumber(WHERE, "options.approach", approach);
  requireNumber(WHERE, "options.heightWeight", heightWeight, 0);
  if (rule === "along") return widthAlong(shape, Math.cos(approach), Math.sin(approach), 1);
  const { width, height } = shape.kind === "rect" ? shape : { width: shape.diameter, height: shape.diameter };
  if (rule === "width") return width;
  if (rule === "smaller") return Math.min(width, height);
  if (rule === "sum") return width + height;
  if (rule === "area") return width * height;
  return width / Math.hypot(1, (Math.sqrt(heightWeight) * width) / height);
}
