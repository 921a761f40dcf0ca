import { spaceName } from "../report/session/space-name.js";
import type { SessionSummary } from "../report/types.js";
import type { Outcome } from "./analyse-session.js";
import type { Found } from "./find-inputs.js";
import { createRegister, type Identity } from "./group-people.js";
import type { Entry } from "./journal.js";
import type { Settings } from "./parse-arguments.js";
import type { SessionWriter } from "./session-writer.js";
import { whoseTally } from "./tally-line.js";
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
    const whose = whoseSession(outcome);
    if (wanted.length > 0 && !wanted.includes(whose.person)) {
      others++;
      continue;
    }
    for (const note of "tally" in outcome ? [] : outcome.notes) await teller.note(note);
    const twin = twinOf(whose);
    if (twin !== undefined) {
      failed = true;
      await teller.say(twin);
    } else if ("tally" in outcome) writer.takeTally?.(outcome.tally);
    else {
      const { summary } = outcome;
      // each person is held against all others: read again for every one of them they would cost more than they take
      const summaryAgain = among ? () => summary : () => summaryOf(recall);
      await writer.take({ ...whose, space: spaceName(summary.space), recall: summaryAgain }, summary);
    }
  }
  return { failed, others };
}

function whoseSession(outcome: Outcome & { readonly ok: true }): Identity {
  const { name } = outcome;
  if ("summary" in outcome) return { name, person: outcome.summary.person, startedAt: outcome.summary.startedAt, isDated: outcome.isDated };
  const { person, session } = whoseTally(outcome.tally);
  return { name, person, startedAt: session, isDated: true };
}

function summaryOf(recall: Entry["recall"]): SessionSummary {
  const outcome = recall();
  if (!outcome.ok || !("summary" in outcome)) throw new Error("the journal has changed while it was read");
  return outcome.summary;
}

function skippedWords(skipped: readonly string[], why: string): string {
  const [first] = skipped;
  return skipped.length === 1 ? `${first}: skipped, ${why}` : `${skipped.length} files skipped, ${why}; first: ${first}`;
}
