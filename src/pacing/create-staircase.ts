import { requireObject } from "../math/require.js";
import { requireSettings } from "./staircase/require-settings.js";
import type { StaircaseSettings, StaircaseState } from "./staircase/staircase-state.js";

const WHERE = "createStaircase";
const TARGET = 0.8;
/** Steps to easier on the log scale: 20 %, then 10 %. At 0.8 the steps to harder are a quarter of them. */
const STEPS = [0.2, 0.1] as const;
const STEP_REVERSALS = 4;

/** Options of `createStaircase`. */
export interface CreateStaircaseOptions {
  /** Level of the first trial, in the unit of the difficulty (width, time limit, speed, distance); above 0 on the log scale. Choose an easy one. */
  readonly start: number;
  /** Which way difficulty grows: `"down"` (default) where a smaller level is harder (width, time limit), `"up"` where a larger one is (speed, distance). */
  readonly harder?: "down" | "up";
  /** `"log"` (default): steps are shares of the level. `"linear"`: steps are differences, and must be given. */
  readonly scale?: "log" | "linear";
  /** Hits in a row that make it harder, 1 to 13, default 1; a single miss makes it easier. Raised, the level rests longer between moves. */
  readonly inARow?: number;
  /** Share of hits to hold, 0.5 to 0.95. Default 0.8; where only `inARow` is given, 0.5^(1/inARow), which makes both steps equal. Raised, it is easier. */
  readonly target?: number;
  /** Sizes of a step to easier, above 0, applied one after another, the last one to the end: shares of the level (0.2 is a factor of 1.2; at most 4), default [0.2, 0.1]; or differences. Raised, the level finds its way sooner and scatters more. */
  readonly steps?: readonly number[];
  /** Reversals after which the next of `steps` applies, 1 to 1000, default 4. Raised, coarse steps last longer. */
  readonly stepReversals?: number;
  /** Smallest level that can be shown; absent means no bound. Steps beyond are cut short and noted. */
  readonly lowest?: number;
  /** Largest level that can be shown; absent means no bound. */
  readonly highest?: number;
}

/**
 * A staircase before its first trial: difficulty that follows the person, harder after hits, easier after a miss.
 *
 * With P = target^inARow, the chance of a full row of hits, the step to harder is (1 - P)/P of the step to easier, so that the level has no drift where the share of hits is `target`:
 * equal steps hold 0.5^(1/inARow), that is .5, .707, .794, .841 for 1 to 4 in a row; with one hit in a row the steps are 3:1, 4:1 and 5.67:1 at .75, .80 and .85.
 * Exact for small steps. Until the first reversal a step to harder is no smaller than one to easier, so that an easy start is soon left. Show `level`, hand the outcome to `stepStaircase`, read the end by `staircaseThreshold`. Cost O(1).
 *
 * @param options - where to start and the rule; see `CreateStaircaseOptions`
 * @returns the state, plain data
 * @throws TypeError or RangeError if an option is not as described
 * @see Levitt 1971 (transformed rule), Kaernbach 1991 (weighted rule): from memory, agreeing with the closed form
 * @example
 * ```ts
 * const widths = createStaircase({ start: 80, lowest: 8 });
 * widths.level; // => 80
 * stepStaircase(widths, false).level; // => 96.00
 * stepStaircase(widths, true).level; // => 66.67
 * createStaircase({ start: 80, inARow: 3 }).settings.target; // => 0.7937
 * ```
 */
export function createStaircase(options: CreateStaircaseOptions): StaircaseState {
  requireObject(WHERE, "options", options);
  const { start, harder = "down", scale = "log", inARow, lowest = null, highest = null, stepReversals = STEP_REVERSALS } = options;
  const row = inARow ?? 1;
  const settings: StaircaseSettings = {
    start,
    harder,
    scale,
    inARow: row,
    target: options.target ?? (inARow === undefined ? TARGET : 0.5 ** (1 / inARow)),
    steps: options.steps ?? (scale === "log" ? STEPS : []),
    stepReversals,
    lowest,
    highest,
  };
  requireSettings(WHERE, "options.", settings);
  return {
    settings: { ...settings, steps: [...settings.steps] },
    level: start,
    row: 0,
    direction: null,
    levels: [],
    hits: [],
    reversals: [],
    cut: [],
  };
}
