import { sayCount, sayPercent } from "../say.js";
import type { PracticePlan } from "../types.js";
import { MIXED_HIT_SHARE, MIXED_SESSIONS, RETENTION_HOURS, TEST_DAYS } from "./limits.js";

/** Blocked while new or while many presses miss, then mixed; what is not known counts as new. */
export function practiceOrder(sessions: number | undefined, hitShare: number | undefined): PracticePlan["order"] {
  const still = "What helps in the laboratory has helped little in the gymnasium.";
  const blocked = (why: string): PracticePlan["order"] => ({
    kind: "blocked",
    reason: `One part after the other: ${why} Mixing comes later. ${still}`,
    evidence: "weak",
  });
  if (sessions === undefined && hitShare === undefined) return blocked("neither sessions nor hits so far are known.");
  if (sessions !== undefined && sessions < MIXED_SESSIONS) return blocked(`with ${sayCount(sessions, "session")} the tasks are still new.`);
  if (hitShare !== undefined && hitShare < MIXED_HIT_SHARE) return blocked(`only ${sayPercent(hitShare)} of first presses hit.`);
  return { kind: "mixed", reason: `Changing between parts every few minutes is kept somewhat better. ${still}`, evidence: "weak" };
}

export function practiceSpacing(days: number): PracticePlan["spacing"] {
  return {
    what: `${sayCount(days, "day")} a week, each with its own short sitting, rather than the same minutes on fewer days.`,
    reason: "Practice that is spread over days and broken by rests is learned and kept better than practice in one go.",
    evidence: "moderate",
  };
}

export function practiceTests(days: number): PracticePlan["tests"] {
  return {
    everyDays: Math.max(TEST_DAYS, Math.round(7 / days)),
    retentionHours: RETENTION_HOURS,
    reason: "A test that stays the same, before practice and after a night at least, shows what was learned and not what was warm.",
    evidence: "moderate",
  };
}
