import type { LearnerSettings } from "./options.js";

/** Factor on the level of each session that nights, breaks and equipment leave behind, each by itself. */
export interface CarriedOver {
  readonly nights: number;
  readonly forgotten: number;
  readonly equipment: number;
}

/** What comes between the sessions: nights multiply and stay, losses in breaks add up and are won back, equipment changes once. */
export function carriedOver({ sessions, days, overnight, forgetting, equipmentChange }: LearnerSettings): CarriedOver[] {
  let nights = 1;
  let lost = 0;
  return Array.from({ length: sessions }, (_, j) => {
    if (j > 0) {
      const away = Math.floor(days[j]!) - Math.floor(days[j - 1]!);
      if (away > 0) nights *= 1 + overnight;
      lost = lost * (1 - forgetting.recovery) + forgetting.loss * Math.max(0, away - 1);
    }
    const changed = equipmentChange !== null && j + 1 >= equipmentChange.session;
    return { nights, forgotten: 1 + lost, equipment: changed ? equipmentChange.factor : 1 };
  });
}
