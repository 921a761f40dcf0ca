import { spaceName } from "../report/session/space-name.js";
import type { SessionSummary } from "../report/types.js";
import type { Found } from "./find-inputs.js";
import { createRegister, type NamedSession } from "./group-people.js";
import type { Entry } from "./journal.js";
import type { Settings } from "./parse-arguments.js";
import type { SessionWriter } from "./session-writer.js";
import type { Teller } from "./tell.js";

/** Tells of every input and hands on every session; says whether anything went wrong, and how many sessions were somebody else's. */
export async function takeSessions(
  found: Found,
  outcomes: AsyncIterable<Entry>,
  { people: wanted, among }: Settings,
  teller: Teller,
  writer: SessionWriter,
): Promise<{ readonly failed: boolean; readonly others: number }> {
  const twinOf = createRegister();
  let failed = found.errors.length > 0;
  let others = 0;
  for (const error of found.errors) await teller.say(error);
  for (const { paths, why } of [
    { paths: found.skipped, why: "no .jsonl or .csv of ours" },
    { paths: found.again, why: "given before" },
  ]) {
    if (paths.length > 0) await teller.note(skippedWords(paths, why));
  }
  for await (const { outcome, recall } of outcomes) {
    if (!outcome.ok) {
      failed = true;
      await teller.say(outcome.message);
      continue;
    }
    const { name, summary, isDated, notes } = outcome;
    const { person, startedAt, space } = summary;
    if (wanted.length > 0 && !wanted.includes(person)) {
      others++;
      continue;
    }
    for (const note of notes) await teller.note(note);
    // each person is held against all others: read again for every one of them they would cost more than they take
    const summaryAgain = among ? () => summary : () => summaryOf(recall);
    const session: NamedSession = { name, person, startedAt, space: spaceName(space), isDated, recall: summaryAgain };
    const twin = twinOf(session);
    if (twin === undefined) await writer.take(session, summary);
    else {
      failed = true;
      await teller.say(twin);
    }
  }
  return { failed, others };
}

function summaryOf(recall: Entry["recall"]): SessionSummary {
  const outcome = recall();
  if (!outcome.ok) throw new Error("the journal has changed while it was read");
  return outcome.summary;
}

function skippedWords(skipped: readonly string[], why: string): string {
  const [first] = skipped;
  return skipped.length === 1 ? `${first}: skipped, ${why}` : `${skipped.length} files skipped, ${why}; first: ${first}`;
}
