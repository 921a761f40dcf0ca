import { requireInteger, requireObject, requireOneOf, show } from "../../math/require.js";
import { requireLevelOf, requireSettings } from "./require-settings.js";
import type { StaircaseState } from "./staircase-state.js";

/** Throws unless `state` is what a staircase hands out; a state may have been kept as text. Looks at the last trial only: the others were looked at when they were last. */
export function requireState(where: string, state: StaircaseState): void {
  requireObject(where, "state", state);
  const { settings, level, row, direction, levels, hits, reversals, cut } = state;
  requireObject(where, "state.settings", settings);
  requireSettings(where, "state.settings.", settings);
  requireLevelOf(where, "state.level", level, settings.scale);
  requireInteger(where, "state.row", row, 0, settings.inARow - 1);
  if (direction !== null) requireOneOf(where, "state.direction", direction, ["harder", "easier"]);
  for (const [name, list] of Object.entries({ levels, hits, reversals, cut })) {
    if (!Array.isArray(list)) throw new TypeError(`${where}: state.${name} must be a list, got ${show(list)}`);
  }
  if (levels.length !== hits.length) {
    throw new RangeError(`${where}: state.hits must have ${levels.length} entries like state.levels, got ${hits.length}`);
  }
  const last = levels.length - 1;
  if (last < 0) return;
  requireLevelOf(where, `state.levels[${last}]`, levels[last]!, settings.scale);
  requireInteger(where, `state.hits[${last}]`, hits[last]!, 0, 1);
}
