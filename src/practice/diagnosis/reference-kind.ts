import { requireObject, show } from "../../math/require.js";
import type { PractisedSession } from "../types.js";
import { fullSittings, readSittings, type Sitting } from "./sitting.js";

/** Fewest sessions that are judged, and that are judged against. */
export const LEAST_SESSIONS = 3;

/** Whom a person is set against: their own best earlier sessions, an earlier period, or the people of a group. */
export type DiagnoseReference =
  | "ownBest"
  /** An earlier period of the same person. */
  | { readonly earlier: readonly PractisedSession[] }
  /** The sessions of each person of a group, the person in question not among them. */
  | { readonly group: readonly (readonly PractisedSession[])[] };

/** The sessions that are judged and the units they are judged against: sessions, or people with their sessions. */
export interface Sides {
  readonly kind: "ownBest" | "earlier" | "group";
  readonly now: readonly Sitting[];
  readonly units: readonly (readonly Sitting[])[];
  /** Every session as given, full or not, for what is said of the sampling. */
  readonly given: { readonly now: readonly Sitting[]; readonly reference: readonly Sitting[] };
}

/** Reads the sessions of both sides. With `ownBest` the later half (at least three) is judged, and the reference lies in what came before it. */
export function readSides(where: string, sessions: readonly PractisedSession[], reference: DiagnoseReference): Sides {
  const own = readSittings(where, "sessions", sessions);
  if (reference === "ownBest") {
    const judged = Math.max(LEAST_SESSIONS, Math.ceil(own.length / 2));
    const [history, now] = [own.slice(0, Math.max(0, own.length - judged)), own.slice(-judged)];
    return {
      kind: "ownBest",
      now: fullSittings(now),
      units: fullSittings(history).map((one) => [one]),
      given: { now, reference: history },
    };
  }
  requireObject(where, "options.reference", reference);
  if ("earlier" in reference) {
    const before = readSittings(where, "options.reference.earlier", reference.earlier);
    const units = fullSittings(before).map((one) => [one]);
    return { kind: "earlier", now: fullSittings(own), units, given: { now: own, reference: before } };
  }
  if (!Array.isArray(reference.group)) {
    throw new TypeError(`${where}: options.reference.group must be an array of people's sessions, got ${show(reference.group)}`);
  }
  const group: readonly (readonly PractisedSession[])[] = reference.group;
  const people = group.map((person, i) => readSittings(where, `options.reference.group[${i}]`, person));
  const units = people.map(fullSittings).filter((person) => person.length > 0);
  return { kind: "group", now: fullSittings(own), units, given: { now: own, reference: people.flat() } };
}
