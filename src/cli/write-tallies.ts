import type { Tally } from "../tally/types.js";
import type { Output } from "./output.js";
import type { Settings } from "./parse-arguments.js";
import type { SessionWriter } from "./session-writer.js";
import { messageOf } from "./streams.js";
import { tallyLine, tallySession, whoseTally } from "./tally-line.js";
import type { Teller } from "./tell.js";

/** One tally a line and session, by person and session: the same bytes whatever the sessions came from, in whatever order. Lines are kept until the end. */
export function tallyWriter(_settings: Settings, output: Output, teller: Teller): SessionWriter {
  const lines = new Map<string, string>();
  const errors: string[] = [];
  let taken = 0;
  const keep = (tally: Tally): void => {
    const { person, session } = whoseTally(tally);
    // as the groups of a tally are ordered
    lines.set(JSON.stringify([person, session]), tallyLine(tally));
  };
  return {
    take: async ({ name, isDated }, summary) => {
      taken++;
      if (summary.rows.length === 0) await teller.note(`${name}: holds no acquisition to tally`);
      else if (!isDated) errors.push(`${name}: no date is stated, so that nothing would tell it from itself read twice; left out`);
      else
        try {
          keep(tallySession(summary));
        } catch (error) {
          errors.push(`${name}: ${messageOf(error)}`);
        }
    },
    takeTally: (tally) => {
      taken++;
      keep(tally);
    },
    kept: [],
    count: () => taken,
    end: async () => {
      for (const key of [...lines.keys()].sort()) await output.send(`${lines.get(key)}\n`);
      const isWritten = lines.size > 0;
      if (isWritten) output.finish();
      else output.abandon();
      return { isWritten, errors: isWritten ? errors : [...errors, "there is nothing to tally"] };
    },
    abandon: output.abandon,
  };
}
