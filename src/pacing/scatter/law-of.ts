import type { SpeedAccuracyLaw } from "../types.js";
import type { AxisFit } from "./fit-law.js";

/** The law of a fit, with the movement times it was seen at. */
export function lawOf(
  { along, across }: { readonly along?: AxisFit; readonly across?: AxisFit },
  times: readonly [number, number],
): SpeedAccuracyLaw {
  return { along: along!.law, ...(across && { across: across.law }), times };
}
