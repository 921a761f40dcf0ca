import type { Estimate, Reason } from "../math/estimate.js";
import { requireNumber, requireOneOf } from "../math/require.js";
import { requireShape } from "../trace/shape/require-shape.js";
import type { Shape } from "../trace/types.js";
import { type AcrossSpread, spreadOfSamples, spreadOverPath } from "./path/across-spread.js";
import { countReentries } from "./path/count-reentries.js";
import { countCrossings, countReversals } from "./path/count-turns.js";
import { type PointColumns, requirePoint, requirePoints } from "./path/require-points.js";

/** Options of `pathAccuracy`. */
export interface PathAccuracyOptions {
  /** Outline of the target about `to`; absent means that re-entries are not counted. */
  readonly shape?: Shape;
  /** What the three distances average over: `"time"` (default) counts every sample alike, so that slow phases weigh more where samples are even in time; `"distance"` counts the way alike. */
  readonly spacing?: "time" | "distance";
  /** Wobbles up to this length make no crossing, direction change or re-entry; at least 0, default 0. One and a half quanta silence the jitter of a rounded position; raised further, small real corrections vanish. */
  readonly deadBand?: number;
  /** Name of the length unit, default `"px"`; it only labels the result. */
  readonly unit?: string;
}

/** How a path kept to the straight line from start to target. Lower is better for all but `pathEfficiency`. */
export interface PathAccuracy {
  /** Entries into the target after the first; `null` without a shape. A path that begins inside has entered once. */
  readonly targetReentry: number | null;
  /** Passages from one side of the task axis to the other; a touch is none. This and the next two are `null` without an axis. */
  readonly taskAxisCrossing: number | null;
  /** Turns in the movement across the axis: the path runs parallel to the axis there. */
  readonly movementDirectionChange: number | null;
  /** Turns in the movement along the axis: the path runs at a right angle to the axis there. */
  readonly orthogonalDirectionChange: number | null;
  /** Standard deviation of the distance across (n - 1): how wavy the path is, parallel or not. */
  readonly movementVariability: Estimate;
  /** Mean size of the distance across: how far off the axis. */
  readonly movementError: Estimate;
  /** Mean distance across with its sign, positive to the left of travel as seen on the screen: to which side. */
  readonly movementOffset: Estimate;
  /** Length of the path. */
  readonly pathLength: number;
  /** Distance from start to target centre over the length of the path. Above 1 where the path ends before the centre; `null` without an axis or a path. */
  readonly pathEfficiency: number | null;
  /** Samples. */
  readonly n: number;
}

const WHERE = "pathAccuracy";
/** Eight times 2^-52: turning a path onto its axis leaves errors of a few last digits of its coordinates; they are no wobble. */
const ROUNDING = 1.7763568394002505e-15;

/**
 * Seven measures of how the pointer went to the target, and the length of its way.
 *
 * The path is turned onto the axis from start to target centre. A sample on the target's edge is inside, steps without movement are
 * skipped, and a sample on the axis belongs to the side it came from. The three distances have no interval: samples of one path depend on each
 * other, so take intervals over paths. Give the movement alone, without the wait before and the press after. Cost O(n).
 *
 * @param path - positions in order of time, x to the right and y downward; a trace will do
 * @param from - start of the task axis
 * @param to - centre of the target, its end
 * @param options - see `PathAccuracyOptions`
 * @returns counts, distances and lengths; a distance is not ok without an axis (`noAxis`), with too few samples (`tooFew`: variability two, the others one) or with `"distance"` on a path of no length (`noSpread`)
 * @throws TypeError if an argument is of another kind; RangeError if a column, a coordinate or an option is out of range
 * @see MacKenzie, Kauppinen and Silfverberg 2001 (abstract read; formulas recalled)
 * @example
 * ```ts
 * const path = { x: Float64Array.of(0, 50, 95, 115, 104, 100), y: Float64Array.of(1, 3, 2, -1, -2, 1) };
 * const found = pathAccuracy(path, { x: 0, y: 0 }, { x: 100, y: 0 }, { shape: { kind: "circle", diameter: 20 } });
 * found.targetReentry; // => 1
 * found.taskAxisCrossing; // => 2
 * found.movementOffset; // => { ok: true, value: -0.6667, unit: "px", n: 6 }
 * ```
 */
export function pathAccuracy(
  path: PointColumns,
  from: { readonly x: number; readonly y: number },
  to: { readonly x: number; readonly y: number },
  options: PathAccuracyOptions = {},
): PathAccuracy {
  const { shape, spacing = "time", deadBand = 0, unit = "px" } = options;
  requirePoints(WHERE, "path", path);
  requirePoint(WHERE, "from", from);
  requirePoint(WHERE, "to", to);
  if (shape !== undefined) requireShape(WHERE, "options.shape", shape);
  requireOneOf(WHERE, "options.spacing", spacing, ["time", "distance"]);
  requireNumber(WHERE, "options.deadBand", deadBand, 0);
  const n = path.x.length;
  const ax = to.x - from.x;
  const ay = to.y - from.y;
  const amplitude = Math.sqrt(ax * ax + ay * ay);
  const pathLength = lengthOf(path);
  requireNumber(WHERE, "length of the axis and the path", amplitude + pathLength);
  const targetReentry = shape === undefined ? null : countReentries(path, to, shape, deadBand);
  if (amplitude === 0) {
    const none: Estimate = { ok: false, why: "noAxis", unit, n };
    return {
      targetReentry,
      taskAxisCrossing: null,
      movementDirectionChange: null,
      orthogonalDirectionChange: null,
      movementVariability: none,
      movementError: none,
      movementOffset: none,
      pathLength,
      pathEfficiency: null,
      n,
    };
  }
  const { along, across, largest } = turn(path, from, ax / amplitude, ay / amplitude);
  const band = Math.max(deadBand, ROUNDING * Math.max(largest, Math.abs(from.x), Math.abs(from.y)));
  const spread = spacing === "time" ? spreadOfSamples(across) : spreadOverPath(along, across);
  const distance = (name: keyof AcrossSpread, least: number): Estimate => {
    const why: Reason | undefined = n < least ? "tooFew" : spacing === "distance" && pathLength === 0 ? "noSpread" : undefined;
    // plus 0: a negative zero would not survive JSON
    return why ? { ok: false, why, unit, n } : { ok: true, value: spread[name] + 0, unit, n };
  };
  return {
    targetReentry,
    taskAxisCrossing: countCrossings(across, band),
    movementDirectionChange: countReversals(across, band),
    orthogonalDirectionChange: countReversals(along, band),
    movementVariability: distance("sd", 2),
    movementError: distance("meanSize", 1),
    movementOffset: distance("mean", 1),
    pathLength,
    pathEfficiency: pathLength === 0 ? null : amplitude / pathLength,
    n,
  };
}

function lengthOf({ x, y }: PointColumns): number {
  let length = 0;
  for (let i = 1; i < x.length; i++) {
    const dx = x[i]! - x[i - 1]!;
    const dy = y[i]! - y[i - 1]!;
    length += Math.sqrt(dx * dx + dy * dy);
  }
  return length;
}

/** The path along and across the axis (ux, uy) from its start, across positive to the left where y points down, and its largest coordinate. */
function turn({ x, y }: PointColumns, from: { readonly x: number; readonly y: number }, ux: number, uy: number) {
  const n = x.length;
  const along = new Float64Array(n);
  const across = new Float64Array(n);
  let largest = 0;
  for (let i = 0; i < n; i++) {
    const dx = x[i]! - from.x;
    const dy = y[i]! - from.y;
    along[i] = dx * ux + dy * uy;
    across[i] = dx * uy - dy * ux;
    largest = Math.max(largest, Math.abs(x[i]!), Math.abs(y[i]!));
  }
  return { along, across, largest };
}
