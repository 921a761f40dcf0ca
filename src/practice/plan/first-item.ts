import type { Reason } from "../../math/estimate.js";
import type { Diagnosis, PlanItem, Ruling } from "../types.js";
import { TEST_MINUTES } from "./limits.js";

/** What the plan needs of a diagnosis. */
export type PlanDiagnosis = Pick<Diagnosis, "verdict" | "parts" | "rulings" | "hitShare" | "sessions">;

const RECORD_FINER =
  "First record with a device and a program that report at least 125 positions a second without gaps: the recordings are too coarse for a verdict.";

/** What to mend or to record before any part can be named. */
const TO_MEND: Readonly<Record<Ruling["factor"], string>> = {
  sampling: RECORD_FINER,
  equipment:
    "First mend the equipment: use the display, the device and the settings of the reference, or record the reference anew on the present ones.",
  pace: "First record sessions at the pace of the reference: other pace alone explains what is seen.",
  fatigue: "First record rested: shorter sittings, the test at the start, at the same time of day.",
};

const TO_RECORD: Partial<Readonly<Record<Reason, string>>> = {
  tooFew: "First record more: at least three sessions and a hundred acquisitions, one sitting a day.",
  mixedEquipment: "First record three sessions or more on one and the same equipment.",
  belowResolution: RECORD_FINER,
  missingData: "First record what was missing: equipment, targets and presses of every session.",
  noPress: "First record the presses, too.",
  noAxis: "First record movements from a known start to a target some way off.",
};
const RECORD_ANYWAY = "First record more sessions at one pace, on one equipment, with the same distances and sizes.";

/** The fixed test that opens the day, with what has to be mended or recorded before it. */
export function firstItem(diagnosis: PlanDiagnosis | undefined, everyDays: number): PlanItem {
  const before = beforeTest(diagnosis);
  const test = `A fixed test every ${everyDays} days, before any practice: the same distances, sizes and pace each time, no drill of its own.`;
  return {
    kind: "test",
    minutes: TEST_MINUTES,
    what: before === undefined ? test : `${before.what} ${test}`,
    reason: before?.reason ?? "How it goes during practice is not what has been learned; a short test that stays the same shows that.",
    evidence: before === undefined ? "moderate" : "commonPractice",
  };
}

function beforeTest(diagnosis: PlanDiagnosis | undefined): { what: string; reason: string } | undefined {
  if (diagnosis === undefined) return undefined;
  const { verdict, rulings } = diagnosis;
  if (verdict.kind === "limitedBy") {
    const ruling = rulings.find(({ factor, ruling: kind }) => factor === verdict.factor && kind === "limits");
    return {
      what: TO_MEND[verdict.factor],
      reason: ruling?.reason ?? "It explains what is seen, or hides it, so that no part can be named.",
    };
  }
  if (verdict.kind === "cannotTell") {
    return { what: TO_RECORD[verdict.why] ?? RECORD_ANYWAY, reason: "The recordings so far do not tell which part costs most." };
  }
  return undefined;
}
