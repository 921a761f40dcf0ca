import { compareEquipment, type EquipmentComparison } from "../../equipment/index.js";
import type { SessionSummary } from "../types.js";

/** The equipment of two periods: their first records where each period kept to one; else two records of the period that did not, which nothing can correct. */
export function periodEquipment(
  before: readonly SessionSummary[],
  after: readonly SessionSummary[],
  waits: { readonly loops: number; readonly responses: number },
): { readonly comparison: EquipmentComparison; readonly mixed: boolean } {
  for (const period of [before, after]) {
    for (const { equipment } of period) {
      const within = compareEquipment(period[0]!.equipment, equipment, waits);
      if (within.verdict !== "same") return { comparison: within, mixed: true };
    }
  }
  return { comparison: compareEquipment(before[0]!.equipment, after[0]!.equipment, waits), mixed: false };
}
