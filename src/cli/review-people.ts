import { type PracticeReview, reviewPractice, type SessionSummary } from "../report/index.js";
import { spaceName } from "../report/session/space-name.js";
import type { Person } from "./group-people.js";
import type { Settings } from "./parse-arguments.js";

/** One person with what their recordings say. */
export interface ReviewedPerson extends Person {
  readonly review: PracticeReview;
}

/** Reviews one person; among others, if asked for and there are others on like terms. */
export function reviewPerson(person: Person, everybody: readonly Person[], settings: Settings): ReviewedPerson {
  const { minutes, wanted, seed, among } = settings;
  const sessions = summaries(person);
  const group = everybody.filter((other) => other !== person && spaceOf(other) === spaceOf(person)).map(summaries);
  const review = reviewPractice(sessions, { minutes, wanted, seed, ...(among && group.length > 0 && { group }) });
  return { ...person, review };
}

function summaries({ sessions }: Person): SessionSummary[] {
  return sessions.map(({ summary }) => summary);
}

function spaceOf({ sessions }: Person): string {
  return spaceName(sessions[0]!.summary.space);
}
