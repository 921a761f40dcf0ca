import { medianInPlace } from "../../math/median.js";
import { sayPercent } from "../say.js";
import type { Ruling } from "../types.js";
import { PARTS } from "./row-excess.js";
import type { Sitting } from "./sitting.js";

/** Share of rows without boundaries beyond which the rest is no fair sample. */
const MOST_UNRESOLVED = 0.1;
/** Below this rate boundaries lie up to 10 ms off and short corrections run into the primary; it matters where the two sides differ. */
const FAIR_HZ = 100;
/** Below this one a correction of 0.1 s holds fewer than five samples, whatever the other side has. */
const LEAST_HZ = 50;
/** Rates closer than this factor shift both sides alike. */
const LIKE_RATES = 1.5;

/** Whether the sampling of either side hides or feigns what the parts take: first in the order of exclusion, since nothing else can be read without it. */
export function ruleOnSampling(now: readonly Sitting[], reference: readonly Sitting[]): Ruling {
  const [one, other] = [sidesOf(now), sidesOf(reference)];
  const unresolved = Math.max(one.unresolved, other.unresolved);
  const rule = (ruling: Ruling["ruling"], reason: string): Ruling => ({
    factor: "sampling",
    ruling,
    reason,
    parts: ruling === "ruledOut" ? [] : PARTS,
  });
  if (unresolved > MOST_UNRESOLVED) {
    return rule(
      "limits",
      `${sayPercent(unresolved)} of the acquisitions were sampled too sparsely to find where one part ends and the next begins.`,
    );
  }
  if (one.rateHz === undefined || other.rateHz === undefined) return rule("cannotTell", "The rows do not say how they were sampled.");
  const rates = `${Math.round(one.rateHz)} samples a second against ${Math.round(other.rateHz)} in the reference`;
  const [low, high] = [Math.min(one.rateHz, other.rateHz), Math.max(one.rateHz, other.rateHz)];
  if (low < LEAST_HZ)
    return rule("limits", `${rates}: below ${LEAST_HZ} a second, short corrections cannot be told from the movement before them.`);
  if (low < FAIR_HZ && high > LIKE_RATES * low) {
    return rule(
      "limits",
      `${rates}: the sparser side loses short corrections and dates the ends of movements by up to ${Math.round(1000 / low)} ms.`,
    );
  }
  return rule(
    "ruledOut",
    `${rates}: an event is dated to ${((1000 / low) * 0.2887).toFixed(1)} ms (standard error), the same way on both sides.`,
  );
}

function sidesOf(sittings: readonly Sitting[]): { readonly unresolved: number; readonly rateHz?: number } {
  const given = sittings.reduce((sum, sitting) => sum + sitting.given, 0);
  const unresolved = sittings.reduce((sum, sitting) => sum + sitting.unresolved, 0);
  const rates = Float64Array.from(sittings.flatMap(({ rateHz }) => (rateHz === undefined ? [] : [rateHz])));
  return { unresolved: given === 0 ? 0 : unresolved / given, ...(rates.length > 0 && { rateHz: medianInPlace(rates) }) };
}
