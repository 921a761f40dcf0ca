import { requireInteger, requireNumber, requireObject, requireOneOf, show } from "../../math/require.js";
import type { StaircaseSettings } from "./staircase-state.js";

/** Shares of hits that practice and measurement ask for. */
const LEAST_TARGET = 0.5;
const LARGEST_TARGET = 0.95;
/** Of equal steps, more hits in a row hold a share above 0.95. */
const LONGEST_ROW = 13;
/** A level larger than this, or on logarithms smaller than its inverse, leaves no room for steps in a double. */
const LARGEST_LEVEL = 1e100;

/** Throws unless these are the settings of a staircase; `name` is where they stand, with its dot. */
export function requireSettings(where: string, name: string, settings: StaircaseSettings): void {
  const { start, harder, scale, inARow, target, steps, stepReversals, lowest, highest } = settings;
  requireOneOf(where, `${name}harder`, harder, ["down", "up"]);
  requireOneOf(where, `${name}scale`, scale, ["log", "linear"]);
  requireLevelOf(where, `${name}start`, start, scale);
  requireInteger(where, `${name}inARow`, inARow, 1, LONGEST_ROW);
  requireNumber(where, `${name}target`, target, LEAST_TARGET, LARGEST_TARGET);
  requireSteps(where, `${name}steps`, steps, scale);
  requireInteger(where, `${name}stepReversals`, stepReversals, 1, 1000);
  if (lowest !== null) requireLevelOf(where, `${name}lowest`, lowest, scale);
  if (highest !== null) requireLevelOf(where, `${name}highest`, highest, scale);
  if (lowest !== null && start < lowest)
    throw new RangeError(`${where}: ${name}lowest must be at most ${name}start, ${start}, got ${lowest}`);
  if (highest !== null && start > highest) {
    throw new RangeError(`${where}: ${name}highest must be at least ${name}start, ${start}, got ${highest}`);
  }
  if (lowest !== null && highest !== null && lowest >= highest) {
    throw new RangeError(`${where}: ${name}highest must be above ${name}lowest, ${lowest}, got ${highest}`);
  }
}

/** Throws unless `level` can stand on the scale. */
export function requireLevelOf(where: string, name: string, level: number, scale: "log" | "linear"): void {
  if (scale === "log") requireNumber(where, name, level, 1 / LARGEST_LEVEL, LARGEST_LEVEL);
  else requireNumber(where, name, level, -LARGEST_LEVEL, LARGEST_LEVEL);
}

function requireSteps(where: string, name: string, steps: readonly number[], scale: "log" | "linear"): void {
  requireObject(where, name, steps);
  if (!Array.isArray(steps) || steps.length === 0)
    throw new TypeError(`${where}: ${name} must be a list of one or more steps, got ${show(steps)}`);
  for (const [i, step] of steps.entries()) requireNumber(where, `${name}[${i}]`, step, 0, scale === "log" ? 4 : LARGEST_LEVEL, true);
}
