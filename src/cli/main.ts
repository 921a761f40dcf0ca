import { VERSION } from "../math/version.js";
import { findInputs } from "./find-inputs.js";
import { bytesOf, fingerprint } from "./fingerprint.js";
import { groupPeople } from "./group-people.js";
import { HELP } from "./help-text.js";
import { keepJournal } from "./keep-journal.js";
import { LIMITS, type Limits } from "./limits.js";
import { parseArguments, type Settings, UsageError } from "./parse-arguments.js";
import { readOutcomes } from "./read-outcomes.js";
import type { SessionWriter } from "./session-writer.js";
import { messageOf, type Streams, send } from "./streams.js";
import { takeSessions } from "./take-sessions.js";
import { createTeller } from "./tell.js";
import { createSessionWriter, requireOutput } from "./write-sessions.js";

const DONE = 0;
const SOME_FAILED = 1;
const NOTHING_DONE = 2;

/** Runs the command: gives its exit code, and throws nothing that a wrong file or option can cause. */
export async function main(argv: readonly string[], streams: Streams, limits: Partial<Limits> = {}): Promise<number> {
  try {
    return await run(parseArguments(argv), streams, { ...LIMITS, ...limits });
  } catch (error) {
    const advice = error instanceof UsageError ? " (see --help)" : "";
    await createTeller(streams.stderr, false).say(`aimed-movement: ${messageOf(error)}${advice}`);
    return NOTHING_DONE;
  }
}

async function run(settings: Settings, streams: Streams, limits: Limits): Promise<number> {
  if (settings.show !== undefined) {
    await send(streams.stdout, settings.show === "help" ? HELP : `${VERSION}\n`);
    return DONE;
  }
  if (settings.paths.length === 0 && streams.stdin.isTTY === true) {
    await send(streams.stderr, HELP);
    return NOTHING_DONE;
  }
  const found = findInputs(settings.paths.length === 0 ? ["-"] : settings.paths);
  const teller = createTeller(streams.stderr, settings.quiet);
  requireOutput(settings, found.inputs, streams);
  const prints = found.inputs.map(fingerprint);
  const keeping = keepJournal(settings, limits.mostBytes, found.inputs, prints);
  let writer: SessionWriter | undefined;
  try {
    writer = await createSessionWriter(settings, found.inputs, streams, teller);
    const outcomes = readOutcomes(found.inputs, { settings, limits, streams, teller, bytes: bytesOf(prints), journal: keeping?.journal });
    const { failed, others } = await takeSessions(found, outcomes, settings, teller, writer);
    await teller.rest();
    if (writer.count() === 0) {
      writer.abandon();
      keeping?.finish();
      await teller.say(others > 0 ? `none of the ${others} sessions read is of ${names(settings.people)}` : "no session could be read");
      return NOTHING_DONE;
    }
    const { errors, people } = groupPeople(writer.kept);
    const ending = await writer.end(people);
    keeping?.finish();
    const wrong = [...errors, ...ending.errors];
    for (const error of wrong) await teller.say(error);
    if (!ending.isWritten) return NOTHING_DONE;
    return failed || wrong.length > 0 ? SOME_FAILED : DONE;
  } catch (error) {
    await teller.rest();
    writer?.abandon();
    const rest = keeping?.stop();
    if (rest !== undefined) await teller.say(rest);
    throw error;
  }
}

function names(people: readonly string[]): string {
  return people.map((person) => JSON.stringify(person)).join(" or ");
}
