import { medianEstimate } from "../../math/median-estimate.js";
import type { TimeOnTarget } from "../types.js";
import { staysOf } from "./stays.js";
import type { Piece, Stretch } from "./stretch.js";
import { ratioOverUnits, sumUp } from "./units.js";

/** Time on target, stays and absences over the samples used; the first entry over the whole trial, from the target's appearance at `shown`. */
export function timeOnTarget(stretch: Stretch, units: readonly Piece[], shown: number, level: number): TimeOnTarget {
  const { inside, known, rate, t0, pieces } = stretch;
  const runs = pieces.map(({ start, end }) => staysOf(inside, start, end, rate));
  const stays = runs.flatMap((run) => run.stays);
  const absences = runs.flatMap((run) => run.absences);
  const first = inside.findIndex((value, i) => value === 1 && known[i] === 1);
  return {
    share: ratioOverUnits(
      sumUp(stretch, units, (i) => inside[i]!),
      undefined,
      "share",
      "1",
      level,
    ),
    entries: stays.length,
    medianStay: medianEstimate(stays, "s", level),
    longestStay: stays.length === 0 ? null : stays.reduce((most, stay) => Math.max(most, stay)),
    medianAbsence: medianEstimate(absences, "s", level),
    timeToFirstEntry: first < 0 ? null : Math.max(0, t0 + first / rate - shown),
  };
}
