import { VERSION } from "../math/version.js";
import { type Found, findInputs, type Input } from "./find-inputs.js";
import { createRegister, groupPeople, type NamedSession } from "./group-people.js";
import { HELP } from "./help-text.js";
import { parseArguments, type Settings, UsageError } from "./parse-arguments.js";
import { MOST_BYTES, type ReadOutcome, readSessions } from "./read-sessions.js";
import { messageOf, type Streams, send } from "./streams.js";
import { createTeller, type Teller } from "./tell.js";
import { createSessionWriter, type SessionWriter } from "./write-sessions.js";

const DONE = 0;
const SOME_FAILED = 1;
const NOTHING_DONE = 2;

/**
 * Runs the command: gives its exit code, and throws nothing that a wrong file or option can cause. `mostBytes` is what one session may have; only tests set
 * it.
 */
export async function main(argv: readonly string[], streams: Streams, mostBytes: number = MOST_BYTES): Promise<number> {
  try {
    return await run(parseArguments(argv), streams, mostBytes);
  } catch (error) {
    const advice = error instanceof UsageError ? " (see --help)" : "";
    await createTeller(streams.stderr, false).say(`aimed-movement: ${messageOf(error)}${advice}`);
    return NOTHING_DONE;
  }
}

async function run(settings: Settings, streams: Streams, mostBytes: number): Promise<number> {
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
  const read: Reader = (input, onBytes) => readSessions(input, streams.stdin, { repair: settings.repair, mostBytes, onBytes });
  const writer = createSessionWriter(settings, found.inputs, streams, teller);
  try {
    const { failed, others } = await readAll(found, settings.people, read, teller, writer);
    await teller.rest();
    if (writer.count() === 0) {
      writer.abandon();
      await teller.say(others > 0 ? `none of the ${others} sessions read is of ${names(settings.people)}` : "no session could be read");
      return NOTHING_DONE;
    }
    const { errors, people } = groupPeople(writer.kept);
    const ending = await writer.end(people);
    const wrong = [...errors, ...ending.errors];
    for (const error of wrong) await teller.say(error);
    if (!ending.isWritten) return NOTHING_DONE;
    return failed || wrong.length > 0 ? SOME_FAILED : DONE;
  } catch (error) {
    await teller.rest();
    writer.abandon();
    throw error;
  }
}

/** Reads the sessions of one input. */
type Reader = (input: Input, onBytes: (bytes: number) => Promise<void>) => AsyncGenerator<ReadOutcome>;

/** Reads every input and hands on every session; tells whether anything went wrong, and how many sessions were somebody else's. */
async function readAll(
  found: Found,
  wanted: readonly string[],
  read: Reader,
  teller: Teller,
  writer: SessionWriter,
): Promise<{ readonly failed: boolean; readonly others: number }> {
  const twinOf = createRegister();
  let failed = found.errors.length > 0;
  let others = 0;
  let bytes = 0;
  for (const error of found.errors) await teller.say(error);
  for (const { paths, why } of [
    { paths: found.skipped, why: "no .jsonl or .csv of ours" },
    { paths: found.again, why: "given before" },
  ]) {
    if (paths.length > 0) await teller.note(skippedWords(paths, why));
  }
  for (const [i, input] of found.inputs.entries()) {
    const onBytes = (more: number): Promise<void> => {
      bytes += more;
      return teller.at(i + 1, found.inputs.length, bytes);
    };
    for await (const outcome of read(input, onBytes)) {
      if (!outcome.ok) {
        failed = true;
        await teller.say(outcome.message);
        continue;
      }
      const { name, summary, isDated } = outcome;
      if (wanted.length > 0 && !wanted.includes(summary.person)) {
        others++;
        continue;
      }
      for (const note of outcome.notes) await teller.note(note);
      const session: NamedSession = { name, summary, isDated };
      const twin = twinOf(session);
      if (twin === undefined) await writer.take(session);
      else {
        failed = true;
        await teller.say(twin);
      }
    }
  }
  return { failed, others };
}

function skippedWords(skipped: readonly string[], why: string): string {
  const [first] = skipped;
  return skipped.length === 1 ? `${first}: skipped, ${why}` : `${skipped.length} files skipped, ${why}; first: ${first}`;
}

function names(people: readonly string[]): string {
  return people.map((person) => JSON.stringify(person)).join(" or ");
}
