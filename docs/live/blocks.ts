// The two tasks, laid out for the field as it is.
import { createRandom } from "../../src/math/random.js";
import { createFollowing } from "./following.js";
import { conditionsFor, placesInOrder, type Size, shuffled, TARGETS } from "./layout.js";
import { FOLLOWED, pursuitPath } from "./pursuit-path.js";
import { createTapping } from "./tapping.js";
import type { Task } from "./task.js";

/** Rounds of tapping in an order drawn by `seed`, `times` of each condition. */
export function tappingFor(field: Size, times: number, seed: number): Task {
  const centre = { x: field.width / 2, y: field.height / 2 };
  const random = createRandom(seed);
  const conditions = Array.from({ length: times }, () => shuffled(conditionsFor(field), random)).flat();
  return createTapping(conditions.map((condition) => ({ ...condition, places: placesInOrder(condition.amplitude, TARGETS, centre) })));
}

export function followingFor(field: Size, seconds: number, seed: number): Task {
  return createFollowing({ path: pursuitPath(field, seed), diameter: FOLLOWED, seconds, seed });
}
