import { isTrack } from "../../movement/acquisition/target-position.js";
import type { Target, Trial } from "../../trace/types.js";
import type { SequenceTrial } from "../steps/sequence-trials.js";
import type { Repeat } from "./consistency.js";

/** Places that differ by less than this are the same, in the space's unit. */
const SAME_PLACE = 1e-3;

/**
 * The layout of a finished sequence and the order in which it was taken. Targets are named alike in all repeats of a layout: by their place and
 * size, or, where the caller names the layout, by their place among the goals.
 */
export function repeatOf({ open, visits, trial }: SequenceTrial, name: ((trial: Trial) => string) | undefined): Repeat {
  const key = ({ id, at, shape }: Target): string => {
    if (name !== undefined) return String(trial.goals.indexOf(id));
    return isTrack(at) ? id : `${Math.round(at.x / SAME_PLACE)} ${Math.round(at.y / SAME_PLACE)} ${JSON.stringify(shape)}`;
  };
  const keys = new Map(open.map(({ target }) => [target.id, key(target)]));
  const order = visits.flatMap(({ target }) => keys.get(target.id) ?? []);
  const layout = name === undefined ? [...keys.values()].sort().join("; ") : name(trial);
  return { layout, order: order.join("; "), first: order[0]! };
}
