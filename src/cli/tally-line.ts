import { show } from "../math/require.js";
import type { SessionSummary } from "../report/types.js";
import { mergeTallies, type Tally, tally } from "../tally/index.js";

/** Whose a tally is: the labels of every line. */
export interface Whose {
  readonly person: string;
  readonly session: string;
}

/** The tally of one session. Without acquisitions it has no group. */
export function tallySession({ rows, space, person, startedAt }: SessionSummary): Tally {
  return tallyRows(rows, space.unit, person, startedAt);
}

/** Its line: a tally for whoever reads it as JSON, and told from other lines by its kind. */
export function tallyLine({ header, groups }: Tally): string {
  return JSON.stringify({ kind: "tally", header, groups });
}

/** The tally in a line, in the one form that depends on its rows alone; throws unless it could come from this version of the command. */
export function readTallyLine(text: string): Tally {
  const given = objectIn(text);
  if (given.kind !== "tally") throw new RangeError(`kind must be "tally" where the first line is one, got ${show(given.kind)}`);
  const unit = (given as Partial<Tally>).header?.options?.unit;
  const nothing = tallyRows([], typeof unit === "string" ? unit : "px", "", "");
  const merged = merge(nothing, given as unknown as Tally);
  const [group, ...more] = (given as unknown as Tally).groups;
  if (group === undefined || more.length > 0)
    throw new RangeError(`must be the tally of one session, got ${more.length + (group ? 1 : 0)} groups`);
  if (Number.isNaN(Date.parse(whoseTally(merged).session))) {
    throw new RangeError(`groups[0].labels.session must be the date and time of a session, got ${show(whoseTally(merged).session)}`);
  }
  return merged;
}

/** Whose a tally of one session is. */
export function whoseTally({ groups: [group] }: Tally): Whose {
  return group!.labels as unknown as Whose;
}

function tallyRows(rows: SessionSummary["rows"], unit: string, person: string, session: string): Tally {
  return tally(rows, { unit, by: { person, session } });
}

function objectIn(text: string): Readonly<Record<string, unknown>> {
  let given: unknown;
  try {
    given = JSON.parse(text);
  } catch (error) {
    throw new RangeError(`must be a tally as JSON: ${(error as Error).message}`);
  }
  if (typeof given !== "object" || given === null) throw new RangeError(`must be a tally as JSON, got ${show(given)}`);
  return given as Readonly<Record<string, unknown>>;
}

/** Says what is wrong in terms of the line: nobody has seen the list. */
function merge(nothing: Tally, given: Tally): Tally {
  try {
    return mergeTallies([nothing, given]);
  } catch (error) {
    const words = (error as Error).message.replace(/^mergeTallies: /, "");
    throw new RangeError(words.replaceAll("tallies[1].", "").replaceAll("tallies[1]", "this line").replaceAll("tallies[0]", "this run"));
  }
}
