import type { PlateauReport } from "../../learning/index.js";
import { sayCount, sayList } from "../../practice/say.js";
import type { MeasureComparison, MeasureCourse, SessionsComparison } from "../types.js";
import { sayChange, sayDate, sayReason } from "./say.js";

/** Sessions from which on two periods can be set against each other. */
export const SESSIONS_TO_COMPARE = 4;

/** Measures of the whole acquisition: what cannot be told of them is worth saying. */
const WHOLE: readonly string[] = ["acquisitionTime", "hitShare"];

/** Whether practice changed anything, and whether it still does. */
export function answerChange(sessions: number, comparison: SessionsComparison | undefined, courses: readonly MeasureCourse[]): string[] {
  if (comparison === undefined) {
    return [
      `With ${sayCount(sessions, "session")} no change can be told from chance; ${SESSIONS_TO_COMPARE} are the least, ten the usual need.`,
    ];
  }
  const { before, after, measures } = comparison;
  const named = (skill: MeasureComparison["skill"]): string[] => measures.filter((one) => one.skill === skill).map(({ label }) => label);
  const whole = measures.filter(({ part }) => part === undefined).flatMap(changeSentence);
  const summary = [
    ["better", "Better for real"],
    ["worse", "Worse for real"],
    ["equivalent", "Shown to be unchanged"],
    ["cannotTell", "Cannot be told"],
  ] as const;
  return [
    `Compared: ${sayCount(before.sessions, "session")} from ${sayDate(before.from)} with ${sayCount(after.sessions, "session")} to ${sayDate(after.to)}, at the same difficulty.`,
    ...whole,
    ...summary.flatMap(([skill, words]) => (named(skill).length > 0 ? [`${words}: ${sayList(named(skill))}.`] : [])),
    ...(comparison.warnings.includes("otherPace")
      ? ["Speed was traded for accuracy between the two periods: read time and hits together."]
      : []),
    ...courses.flatMap(({ measure, label, plateau }) =>
      plateau === undefined || (plateau.verdict === "cannotTell" && !WHOLE.includes(measure)) ? [] : [plateauSentence(label, plateau)],
    ),
  ];
}

function changeSentence({ label, comparison }: MeasureComparison): string[] {
  if (comparison === null) return [`No comparison of the ${label}: too few sessions with it.`];
  if (!comparison.change.ok) return [`No comparison of the ${label}: ${sayReason(comparison.change.why)}.`];
  return [`Change of the ${label}: ${sayChange(comparison.change)}.`];
}

const PLATEAU_WORDS: Readonly<Record<PlateauReport["verdict"], string>> = {
  improving: "still improving",
  plateau: "on a plateau",
  declining: "getting worse",
  cannotTell: "flat or not: cannot be told yet",
};

function plateauSentence(label: string, { verdict, evidence, horizon, sessionsNeeded }: PlateauReport): string {
  const rate = evidence.trend.improvement.ok ? `, ${sayChange(evidence.trend.improvement)} improvement in ${horizon} days` : "";
  const more =
    verdict === "cannotTell" && sessionsNeeded !== null
      ? `; about ${sayCount(sessionsNeeded, "more session", "more sessions")} would tell`
      : "";
  return `The ${label} is ${PLATEAU_WORDS[verdict]}${rate}${more}.`;
}
