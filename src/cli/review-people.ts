import { type PracticeReview, reviewPractice, type SessionSummary } from "../report/index.js";
import type { Person } from "./group-people.js";
import type { Settings } from "./parse-arguments.js";

/** What the recordings of one person say. */
export interface ReviewedPerson {
  readonly person: string;
  readonly summaries: readonly SessionSummary[];
  readonly review: PracticeReview;
}

/** Reviews one person; among others, if asked for and there are others on like terms. */
export function reviewPerson(person: Person, everybody: readonly Person[], settings: Settings): ReviewedPerson {
  const { minutes, wanted, seed, among } = settings;
  const summaries = summariesOf(person);
  const group = among ? everybody.filter((other) => other !== person && spaceOf(other) === spaceOf(person)).map(summariesOf) : [];
  const review = reviewPractice(summaries, { minutes, wanted, seed, ...(group.length > 0 && { group }) });
  return { person: person.person, summaries, review };
}

function summariesOf({ sessions }: Person): SessionSummary[] {
  return sessions.map(({ recall }) => recall());
}

function spaceOf({ sessions }: Person): string {
  return sessions[0]!.space;
}
