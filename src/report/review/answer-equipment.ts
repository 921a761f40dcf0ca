import type { Diagnosis } from "../../practice/types.js";
import type { EquipmentSpell, SessionSummary, SessionsComparison } from "../types.js";
import { sayDate, sayEquipment } from "./say.js";

/** Whether display, delay or sampling are the limit. */
export function answerEquipment(
  spells: readonly EquipmentSpell[],
  diagnosis: Diagnosis,
  comparison: SessionsComparison | undefined,
  sessions: readonly SessionSummary[],
): string[] {
  const ruled = diagnosis.rulings.filter(({ factor }) => factor === "equipment" || factor === "sampling").map(({ reason }) => reason);
  const displays = sessions.flatMap(({ display }) => display ?? []);
  const unsteady = displays.filter(({ verdict }) => verdict !== "steady");
  return [
    ...ruled,
    ...(spells.length > 1
      ? [
          `The equipment changed: ${spells.map(({ equipment, from }) => `${sayEquipment(equipment)} from ${sayDate(from)}`).join("; ")}. Only sessions on the present one are taken as one course.`,
        ]
      : []),
    ...(comparison?.equipment.verdict === "differs" || comparison?.equipment.verdict === "unknown" ? [comparison.equipment.reason] : []),
    ...(displays.length > 0
      ? [
          `Frames were recorded in ${displays.length} of ${sessions.length} sessions; the display was steady in ${displays.length - unsteady.length}.`,
        ]
      : []),
  ];
}
