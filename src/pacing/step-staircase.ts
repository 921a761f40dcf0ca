import { moveLevel } from "./staircase/level-steps.js";
import { requireState } from "./staircase/require-state.js";
import type { StaircaseReversal, StaircaseState } from "./staircase/staircase-state.js";

const WHERE = "stepStaircase";

/**
 * The staircase after one more trial: the outcome noted, and the level of the next.
 *
 * A miss makes it easier by one step; `inARow` hits in a row at one level make it harder by one. A reversal is the level whose outcome turned the direction.
 * The state given is left as it is, so that a trial can be taken back; a state kept as JSON goes on as if nothing had been between. A trial that should not count
 * (interrupted, no press made by mistake) is left out by not handing it over. Cost O(trials so far), for the new record.
 *
 * @param state - from `createStaircase` or from here
 * @param hit - whether the first press hit; `false` also where the time ran out
 * @returns the new state
 * @throws TypeError or RangeError if the state is not one, or the outcome is not true or false
 * @see Levitt 1971 (from memory)
 * @example
 * ```ts
 * let state = createStaircase({ start: 10, scale: "linear", steps: [1], inARow: 2 });
 * for (const hit of [true, true, false]) state = stepStaircase(state, hit);
 * state.levels; // => [10, 10, 9]
 * state.level; // => 10
 * state.reversals; // => [{ trial: 2, level: 9, toward: "easier" }]
 * ```
 */
export function stepStaircase(state: StaircaseState, hit: boolean): StaircaseState {
  requireState(WHERE, state);
  if (typeof hit !== "boolean") throw new TypeError(`${WHERE}: hit must be true or false, got ${hit}`);
  const { settings, level, direction, reversals } = state;
  const trial = state.levels.length;
  const record = { settings, levels: [...state.levels, level], hits: [...state.hits, hit ? 1 : 0] };
  const row = hit ? state.row + 1 : 0;
  if (hit && row < settings.inARow) return { ...record, level, row, direction, reversals, cut: state.cut };
  const toward = hit ? "harder" : "easier";
  const turned: readonly StaircaseReversal[] =
    direction === null || direction === toward ? reversals : [...reversals, { trial, level, toward }];
  const moved = moveLevel(level, toward, turned.length, settings);
  return {
    ...record,
    level: moved.level,
    row: 0,
    direction: toward,
    reversals: turned,
    cut: moved.cut ? [...state.cut, trial] : state.cut,
  };
}
