import type { SessionSummary } from "../report/index.js";
import type { Tally } from "../tally/types.js";
import type { NamedSession, Person } from "./group-people.js";

/** Takes sessions as they are read, and people at the end. */
export interface SessionWriter {
  readonly take: (session: NamedSession, summary: SessionSummary) => Promise<void>;
  /** Takes a session of which only the tally is there; absent where that is not enough. */
  readonly takeTally?: (tally: Tally) => void;
  /** Sessions that the end still needs. */
  readonly kept: readonly NamedSession[];
  /** Sessions taken. */
  readonly count: () => number;
  /** Writes what takes all sessions of a person. */
  readonly end: (people: readonly Person[]) => Promise<Ending>;
  /** Leaves no half file. */
  readonly abandon: () => void;
}

/** What came of the whole run. */
export interface Ending {
  /** Whether there is anything to read in the end. */
  readonly isWritten: boolean;
  readonly errors: readonly string[];
}
