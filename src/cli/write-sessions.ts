import { statSync } from "node:fs";
import { join } from "node:path";
import { renderReport, reviewCharts } from "../report/index.js";
import { createPainter } from "./draw-pictures.js";
import type { Input } from "./find-inputs.js";
import type { NamedSession, Person } from "./group-people.js";
import { isRead, type Output, openOutput, requireOtherFile } from "./output.js";
import { type Settings, UsageError } from "./parse-arguments.js";
import { type ReviewedPerson, reviewPerson } from "./review-people.js";
import { createNamer } from "./safe-name.js";
import { messageOf, type Sink, type Streams, send } from "./streams.js";
import { acquisitionRecords, csvLines, tableColumns } from "./table-of-acquisitions.js";
import type { Teller } from "./tell.js";
import { writeWhole } from "./write-file.js";

/** Takes sessions as they are read, and people at the end. */
export interface SessionWriter {
  readonly take: (session: NamedSession) => Promise<void>;
  /** Sessions whose rows the end still needs. */
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

/** The writer of the form that was asked for. */
export function createSessionWriter(settings: Settings, inputs: readonly Input[], streams: Streams, teller: Teller): SessionWriter {
  if (settings.form === "html") return pageWriter(settings, inputs, streams.stdout, teller);
  if (settings.out !== undefined) requireOtherFile(settings.out, inputs);
  const output = openOutput(settings.out, streams.stdout);
  return { csv: csvWriter, json: jsonWriter, text: textWriter }[settings.form](settings, output);
}

/** A table of acquisitions, row by row: nothing is kept. */
function csvWriter(_settings: Settings, output: Output): SessionWriter {
  let taken = 0;
  const columns = tableColumns();
  return {
    take: async (session) => {
      const header = taken++ === 0 ? `${columns.join(",")}\r\n` : "";
      await output.send(header + csvLines(columns, acquisitionRecords(session)));
    },
    kept: [],
    count: () => taken,
    end: async () => {
      output.finish();
      return { isWritten: true, errors: [] };
    },
    abandon: output.abandon,
  };
}

/** One object a line: acquisitions and summaries as sessions come, reviews at the end. */
function jsonWriter(settings: Settings, output: Output): SessionWriter {
  const kept: NamedSession[] = [];
  const line = (object: object): Promise<void> => output.send(`${JSON.stringify(object)}\n`);
  return {
    take: async (session) => {
      kept.push(session);
      for (const record of acquisitionRecords(session)) await line({ kind: "acquisition", ...record });
      const { rows, ...rest } = session.summary;
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

function textWriter(settings: Settings, output: Output): SessionWriter {
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

/** One page per person. */
function pageWriter(settings: Settings, inputs: readonly Input[], stdout: Sink, teller: Teller): SessionWriter {
  const kept: NamedSession[] = [];
  const { out } = settings;
  if (out !== undefined && statSync(out, { throwIfNoEntry: false })?.isDirectory() === false) {
    throw new UsageError(`--out must name a folder for pages, got the file ${out}`);
  }
  return {
    take: async (session) => void kept.push(session),
    kept,
    count: () => kept.length,
    end: async (people) => {
      if (out === undefined && people.length > 1) {
        throw new UsageError(`--out must name a folder for the pages of ${people.length} people, got none; or choose one with --person`);
      }
      const paint = await createPainter();
      if (paint === undefined) await teller.note("pages without charts: install vega and vega-lite beside this package to have them drawn");
      const nameOf = createNamer();
      const unwritten: string[] = [];
      let pages = 0;
      const render = async (reviewed: ReviewedPerson): Promise<string> => {
        const { pictures, failures } = paint === undefined ? { pictures: [], failures: [] } : await paint(chartsOf(reviewed));
        for (const failure of failures) await teller.say(`${JSON.stringify(reviewed.person)}: ${failure}`);
        return renderReport(reviewed.review, { pictures });
      };
      // a page that cannot be written does not keep others from it
      const write = async (page: string, person: string): Promise<void> => {
        try {
          if (out === undefined) await send(stdout, page);
          else writePage(join(out, `${nameOf(person)}.html`), page, inputs);
          pages++;
        } catch (error) {
          unwritten.push(`${JSON.stringify(person)}: ${messageOf(error)}`);
        }
      };
      const { errors } = await forEach(people, settings, render, write);
      if (out !== undefined && pages > 0) await teller.note(`${pages} page${pages === 1 ? "" : "s"} in ${out}`);
      return { isWritten: pages > 0, errors: [...errors, ...unwritten] };
    },
    abandon: () => {},
  };
}

function writePage(file: string, page: string, inputs: readonly Input[]): void {
  if (isRead(file, inputs)) throw new Error(`${file} is a file that is read, and is not written over`);
  writeWhole(file, page);
}

/** Reviews one person after the other; what fails for one is said, and the others go on. What cannot be written ends the run: half of it helps nobody. */
async function forEach<Rendered>(
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

function chartsOf({ review, sessions }: ReviewedPerson): ReturnType<typeof reviewCharts> {
  return reviewCharts(
    review,
    sessions.map(({ summary }) => summary),
  );
}
