import type { Estimate } from "../../math/estimate.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import { PART_NAMES, partVerb } from "../part-names.js";
import { capital, sayMilliseconds } from "../say.js";
import type { Part, Ruling } from "../types.js";
import type { EquipmentBurden } from "./equipment-burden.js";
import { PARTS } from "./row-excess.js";

/** What was found before and after the equipment's share was taken off. */
export interface EquipmentInput {
  readonly found: EquipmentBurden;
  readonly worth: number;
  readonly level: number;
  readonly sessions: number;
  /** The part that stands out as measured, and the one that does with the equipment's share taken off. */
  readonly measured: Part | undefined;
  readonly corrected: Part | undefined;
}

/** Whether a later display explains what is seen, or an earlier one hides it: second in the order of exclusion. */
export function ruleOnEquipment({ found, worth, level, sessions, measured, corrected }: EquipmentInput): Ruling {
  const factor = "equipment";
  if (found.kind === "same")
    return { factor, ruling: "ruledOut", reason: "The records of the equipment are the same on both sides.", parts: [] };
  if (found.kind === "unknown") {
    const reason = `The equipment differs in a way that cannot be taken off: ${found.reason}`;
    return { factor, ruling: "cannotTell", reason, parts: PARTS };
  }
  const { delay, burden, waits } = found;
  const effect = delay * waits;
  // one delay goes into every part, so that its errors add up; whether the press waits for the stop to be seen is known by a bound only
  const error = PARTS.reduce((sum, part) => sum + Math.sqrt(burden[part].variance), 0);
  const half = normalQuantile((1 + level) / 2) * error + PARTS.reduce((sum, part) => sum + burden[part].slack, 0);
  const estimate: Estimate = { ok: true, value: effect, unit: "s", n: sessions, interval: [effect - half, effect + half], level };
  const figures = `The equipment shows the scene ${sayMilliseconds(Math.abs(delay))} ${delay < 0 ? "earlier" : "later"} than the reference's; leaving, correcting and pressing wait for it ${waits.toFixed(2)} times, which makes ${sayMilliseconds(effect)} an acquisition and is taken off`;
  if (Math.abs(effect) <= worth) {
    return {
      factor,
      ruling: "ruledOut",
      reason: `${figures}: less than the ${sayMilliseconds(worth)} worth naming.`,
      parts: [],
      effect: estimate,
    };
  }
  const left =
    corrected === undefined
      ? "no part stands out any more"
      : `${PART_NAMES[corrected]} ${partVerb(corrected, "stands", "stand")} out all the same`;
  const before = `${measured === undefined ? "Nothing" : capital(PART_NAMES[measured])} stood out`;
  return {
    factor,
    ruling: "limits",
    reason: `${figures}. ${before} as measured; with it taken off ${measured === undefined && corrected === undefined ? "that stays so" : left}.`,
    parts: ["nextTarget", "correction", "stopAndPress"],
    effect: estimate,
  };
}
