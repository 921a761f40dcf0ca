import { renderReport } from "../report/index.js";
import type { NamedSession, Person } from "./group-people.js";
import type { Output } from "./output.js";
import type { Settings } from "./parse-arguments.js";
import { type ReviewedPerson, reviewPerson } from "./review-people.js";
import type { Ending, SessionWriter } from "./session-writer.js";
import { messageOf } from "./streams.js";
import { acquisitionRecords } from "./table-of-acquisitions.js";

/** One object a line: acquisitions and summaries as sessions come, reviews at the end. */
export function jsonWriter(settings: Settings, output: Output): SessionWriter {
  const kept: NamedSession[] = [];
  const line = (object: object): Promise<void> => output.send(`${JSON.stringify(object)}\n`);
  return {
    take: async (session, summary) => {
      kept.push(session);
      for (const record of acquisitionRecords(session.name, summary)) await line({ kind: "acquisition", ...record });
      const { rows, ...rest } = summary;
      await line({ kind: "summary", file: session.name, acquisitions: rows.length, ...rest });
    },
    kept,
    count: () => kept.length,
    end: async (people) => {
      const { errors } = await forEach(
        people,
        settings,
        async ({ review }) => ({ kind: "review", ...review }),
        (review) => line(review),
      );
      output.finish();
      return { isWritten: true, errors };
    },
    abandon: output.abandon,
  };
}

/** The report of each person. */
export function textWriter(settings: Settings, output: Output): SessionWriter {
  const kept: NamedSession[] = [];
  return {
    take: async (session) => void kept.push(session),
    kept,
    count: () => kept.length,
    end: async (people) => {
      let between = "";
      const ending = await forEach(
        people,
        settings,
        async ({ review }) => renderReport(review, { form: "text" }),
        async (report) => {
          await output.send(`${between}${report}`);
          between = "\n\n";
        },
      );
      if (ending.isWritten) output.finish();
      else output.abandon();
      return ending;
    },
    abandon: output.abandon,
  };
}

/** Reviews one person after the other; what fails for one is said, and the others go on. What cannot be written ends the run: half of it helps nobody. */
export async function forEach<Rendered>(
  people: readonly Person[],
  settings: Settings,
  render: (reviewed: ReviewedPerson) => Promise<Rendered>,
  write: (rendered: Rendered, person: string) => Promise<void>,
): Promise<Ending> {
  const errors: string[] = [];
  for (const person of people) {
    let rendered: Rendered;
    try {
      rendered = await render(reviewPerson(person, people, settings));
    } catch (error) {
      errors.push(`${JSON.stringify(person.person)}: ${messageOf(error)}`);
      continue;
    }
    await write(rendered, person.person);
  }
  return { isWritten: errors.length < people.length, errors };
}
