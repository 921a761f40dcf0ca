import { VERSION } from "../math/version.js";
import { type Found, findInputs } from "./find-inputs.js";
import { createRegister, groupPeople, type NamedSession } from "./group-people.js";
import { HELP } from "./help-text.js";
import { parseArguments, type Settings, UsageError } from "./parse-arguments.js";
import { readSessions } from "./read-sessions.js";
import { messageOf, type Streams, send } from "./streams.js";
import { createSessionWriter, type SessionWriter } from "./write-sessions.js";

const DONE = 0;
const SOME_FAILED = 1;
const NOTHING_DONE = 2;

/** Runs the command: gives its exit code, and throws nothing that a wrong file or option can cause. */
export async function main(argv: readonly string[], streams: Streams): Promise<number> {
  try {
    return await run(parseArguments(argv), streams);
  } catch (error) {
    const advice = error instanceof UsageError ? " (see --help)" : "";
    await send(streams.stderr, `aimed-movement: ${messageOf(error)}${advice}\n`);
    return NOTHING_DONE;
  }
}

async function run(settings: Settings, streams: Streams): Promise<number> {
  if (settings.show !== undefined) {
    await send(streams.stdout, settings.show === "help" ? HELP : `${VERSION}\n`);
    return DONE;
  }
  if (settings.paths.length === 0 && streams.stdin.isTTY === true) {
    await send(streams.stderr, HELP);
    return NOTHING_DONE;
  }
  const found = findInputs(settings.paths.length === 0 ? ["-"] : settings.paths);
  const writer = createSessionWriter(settings, found.inputs, streams);
  try {
    const failed = await readAll(found, settings, streams, writer);
    const { errors, people } = groupPeople(writer.kept);
    if (writer.count() === 0) {
      writer.abandon();
      await tell(streams, "no session could be read");
      return NOTHING_DONE;
    }
    const wrong = [...errors, ...(await writer.end(people))];
    for (const error of wrong) await tell(streams, error);
    return failed || wrong.length > 0 ? SOME_FAILED : DONE;
  } catch (error) {
    writer.abandon();
    throw error;
  }
}

/** Reads every input and hands on every session; tells whether anything went wrong. */
async function readAll(found: Found, settings: Settings, streams: Streams, writer: SessionWriter): Promise<boolean> {
  const twinOf = createRegister();
  let failed = found.errors.length > 0;
  for (const error of found.errors) await tell(streams, error);
  if (found.skipped.length > 0 && !settings.quiet) await tell(streams, skippedWords(found.skipped));
  for (const [i, input] of found.inputs.entries()) {
    await progress(settings, streams, i + 1, found.inputs.length);
    for await (const outcome of readSessions(input, settings.repair, streams.stdin)) {
      if (!outcome.ok) {
        failed = true;
        await tell(streams, outcome.message);
        continue;
      }
      if (!settings.quiet) for (const note of outcome.notes) await tell(streams, note);
      const session: NamedSession = { name: outcome.name, summary: outcome.summary };
      if (settings.people.length > 0 && !settings.people.includes(session.summary.person)) continue;
      const twin = twinOf(session);
      if (twin === undefined) await writer.take(session);
      else {
        failed = true;
        await tell(streams, twin);
      }
    }
  }
  return failed;
}

function skippedWords(skipped: readonly string[]): string {
  const [first] = skipped;
  return skipped.length === 1
    ? `${first}: skipped, no .jsonl or .csv`
    : `${skipped.length} files skipped, no .jsonl or .csv; first: ${first}`;
}

/** One line on standard error; a name from a file cannot do anything to the terminal. */
async function tell(streams: Streams, message: string): Promise<void> {
  await send(streams.stderr, `${message.replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu, "\ufffd")}\n`);
}

async function progress({ quiet }: Settings, { stderr }: Streams, k: number, n: number): Promise<void> {
  if (quiet || stderr.isTTY !== true || n < 2) return;
  await send(stderr, `\rreading ${k} of ${n}${k === n ? "\n" : ""}`);
}
