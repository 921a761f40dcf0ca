import type { SessionSummary } from "../report/types.js";

/** What tells a session from others, and the file it came from. */
export interface Identity {
  readonly name: string;
  readonly person: string;
  readonly startedAt: string;
  /** Whether its date is its own; else it is a stand-in, and says nothing about order or twins. */
  readonly isDated: boolean;
}

/** A session that is read. */
export interface NamedSession extends Identity {
  /** Space and unit in one word. */
  readonly space: string;
  /** Its summary, which may have to be read again. */
  readonly recall: () => SessionSummary;
}

/** One person's sessions, in the order they were read; a review puts them into that of time. */
export interface Person {
  readonly person: string;
  readonly sessions: readonly NamedSession[];
}

/** Sessions seen so far: names the twin of a session that was read before, so that nothing counts twice. */
export function createRegister(): (session: Identity) => string | undefined {
  const seen = new Map<string, string>();
  return ({ name, person, startedAt, isDated }) => {
    if (!isDated) return undefined;
    const key = `${Date.parse(startedAt)} ${person}`;
    const twin = seen.get(key);
    if (twin === undefined) seen.set(key, name);
    return twin && `${name}: the session of ${JSON.stringify(person)} at ${startedAt} was read from ${twin} already, and counts once`;
  };
}

/** Everybody in order of name, and who cannot be put together. */
export function groupPeople(all: readonly NamedSession[]): { readonly people: readonly Person[]; readonly errors: readonly string[] } {
  const byPerson = new Map<string, NamedSession[]>();
  for (const session of all) {
    const own = byPerson.get(session.person);
    if (own === undefined) byPerson.set(session.person, [session]);
    else own.push(session);
  }
  const errors: string[] = [];
  const people = [...byPerson].flatMap(([person, found]): Person[] => {
    // one session needs no date; of several, those without stand nowhere in the order
    const sessions = found.length === 1 ? found : found.filter(({ isDated }) => isDated);
    for (const { name, isDated } of found.length === 1 ? [] : found) {
      if (!isDated)
        errors.push(
          `${name}: no date is stated, so that it has no place among the sessions of ${JSON.stringify(person)}; left out of the review`,
        );
    }
    if (sessions.length === 0) return [];
    const conflict = otherSpace(sessions);
    if (conflict === undefined) return [{ person, sessions }];
    errors.push(`${conflict}; ${JSON.stringify(person)} is left out of the review`);
    return [];
  });
  return { people: people.sort((a, b) => (a.person < b.person ? -1 : 1)), errors };
}

/** Two sessions of one person whose lengths have two meanings. */
function otherSpace(sessions: readonly NamedSession[]): string | undefined {
  const first = sessions[0]!;
  const other = sessions.find(({ space }) => space !== first.space);
  return other && `${other.name}: ${other.space} cannot be put together with ${first.space} of ${first.name}`;
}
