import { arSlope } from "../trend/ar-slope.js";
import type { AlongsideEvidence, PlateauSeries } from "./types.js";

/** Chance of a better trend, two-sided 5 %, shared among the measures (Bonferroni). */
const TAIL = 0.025;
/** A line and its scatter. */
const FEWEST = 4;

/** Whether other measures of the recent sessions are still getting better. */
export function alongsideEvidence(alongside: PlateauSeries["alongside"], day: Float64Array, from: number): AlongsideEvidence[] {
  const measures = Object.entries(alongside ?? {});
  return measures.map(([name, { value, better }]) => {
    const recent = Float64Array.from(value).subarray(from);
    const days = day.subarray(from);
    const moves = recent.length >= FEWEST && days[days.length - 1]! > days[0]!;
    const slope = moves ? arSlope(days, recent) : undefined;
    if (slope === undefined) return { name, speaks: "silent", chanceBetter: null };
    const rising = slope.above(0);
    const chanceBetter = better === "higher" ? rising : 1 - rising;
    return { name, speaks: chanceBetter >= 1 - TAIL / measures.length ? "against" : "silent", chanceBetter };
  });
}
