import { compareEquipment } from "../../equipment/index.js";
import type { EquipmentSpell, SessionSummary } from "../types.js";

/** Stretches of neighbouring sessions on the same equipment; sessions in order. */
export function equipmentSpells(sessions: readonly SessionSummary[]): SessionSummary[][] {
  const spells: SessionSummary[][] = [];
  for (const session of sessions) {
    const spell = spells[spells.length - 1];
    if (spell !== undefined && compareEquipment(spell[0]!.equipment, session.equipment).verdict === "same") spell.push(session);
    else spells.push([session]);
  }
  return spells;
}

/** A stretch in dates and its equipment. */
export function describeSpell(spell: readonly SessionSummary[]): EquipmentSpell {
  return { equipment: spell[0]!.equipment, from: spell[0]!.startedAt, to: spell[spell.length - 1]!.startedAt, sessions: spell.length };
}
