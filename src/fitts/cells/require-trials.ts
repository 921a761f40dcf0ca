import { requireColumn, show } from "../../math/require.js";
import type { PointingTrials } from "../types.js";

const POSITIVE = ["amplitude", "width", "movementTime"] as const;

/** Throws unless the columns of `trials` are equally long and hold what they may hold. */
export function requireTrials(where: string, trials: PointingTrials): void {
  requireColumn(where, "trials.along", trials?.along);
  const { along, travelled, hit, person } = trials;
  const n = along.length;
  const requireEach = <T>(name: string, list: ArrayLike<T>, holds: (value: T) => boolean, what: string): void => {
    for (let i = 0; i < n; i++) {
      if (!holds(list[i]!)) throw new RangeError(`${where}: trials.${name}[${i}] must be ${what}, got ${show(list[i])}`);
    }
  };
  for (const name of POSITIVE) {
    requireColumn(where, `trials.${name}`, trials[name], n);
    requireEach(name, trials[name], (value) => value > 0, "above 0");
  }
  if (travelled) requireColumn(where, "trials.travelled", travelled, n);
  if (hit) {
    requireColumn(where, "trials.hit", hit, n);
    requireEach("hit", hit, (value) => value === 0 || value === 1, "0 or 1");
  }
  if (!person) return;
  if (!Array.isArray(person) || person.length !== n) {
    throw new TypeError(`${where}: trials.person must be an array of ${n} names, got ${show(person)}`);
  }
  requireEach("person", person, (name) => typeof name === "string", "a name");
}
