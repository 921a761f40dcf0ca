import type { Mark } from "../../trace/types.js";
import type { Submovement } from "../types.js";
import type { Aim } from "./aim.js";

/** A stop this long on the way, followed by motion the same way, is a device put back, not a correction (common practice, no source). */
const LONGEST_NATURAL_STOP = 0.08;
/** It happens on the way: more than this share of the distance still lies ahead. */
const SHARE_AHEAD = 0.5;
/** The stroke after it is a main one: it covers at least this share of the distance, within 45 degrees of the axis. */
const SHARE_OF_NEXT = 0.25;

/** A stretch of time, seconds. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Stretches in which the device was lifted and put down again: as marked, or as the strokes themselves show. */
export function clutchStretches(strokes: readonly Submovement[], { axis, amplitude = 0 }: Aim, marks: readonly Mark[]): Stretch[] {
  const stretches: Stretch[] = [];
  let covered = 0;
  for (let k = 0; k + 1 < strokes.length; k++) {
    const from = strokes[k]!.end;
    const to = strokes[k + 1]!.start;
    const marked = marks.some((mark) => mark.kind === "lift" && mark.t < to && (mark.tEnd ?? mark.t) > from);
    if (marked) stretches.push({ from, to });
    if (axis === undefined) continue;
    covered += strokes[k]!.dx * axis.ux + strokes[k]!.dy * axis.uy;
    const next = strokes[k + 1]!;
    const ahead = next.dx * axis.ux + next.dy * axis.uy;
    const aside = Math.abs(next.dx * axis.uy - next.dy * axis.ux);
    const onTheWay = covered < (1 - SHARE_AHEAD) * amplitude && ahead >= SHARE_OF_NEXT * amplitude && aside <= ahead;
    if (!marked && to - from >= LONGEST_NATURAL_STOP && onTheWay) stretches.push({ from, to });
  }
  return stretches;
}

/** Seconds that the stretches share with `[from, to]`. */
export function overlap(stretches: readonly Stretch[], from: number, to: number): number {
  return stretches.reduce((sum, stretch) => sum + Math.max(0, Math.min(stretch.to, to) - Math.max(stretch.from, from)), 0);
}
