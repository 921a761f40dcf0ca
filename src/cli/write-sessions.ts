import { join } from "node:path";
import { renderReport, reviewCharts } from "../report/index.js";
import { createPainter } from "./draw-pictures.js";
import type { Input } from "./find-inputs.js";
import type { NamedSession, Person } from "./group-people.js";
import { type Output, openOutput, requireOtherFile } from "./output.js";
import { type Settings, UsageError } from "./parse-arguments.js";
import { type ReviewedPerson, reviewPerson } from "./review-people.js";
import { createNamer } from "./safe-name.js";
import { messageOf, type Streams, send } from "./streams.js";
import { acquisitionRecords, csvLines } from "./table-of-acquisitions.js";
import { writeWhole } from "./write-file.js";

/** Takes sessions as they are read, and people at the end. */
export interface SessionWriter {
  readonly take: (session: NamedSession) => Promise<void>;
  /** Sessions whose rows the end still needs. */
  readonly kept: readonly NamedSession[];
  /** Sessions taken. */
  readonly count: () => number;
  /** Writes what takes all sessions of a person; gives what went wrong. */
  readonly end: (people: readonly Person[]) => Promise<readonly string[]>;
  /** Leaves no half file. */
  readonly abandon: () => void;
}

/** The writer of the form that was asked for. */
export function createSessionWriter(settings: Settings, inputs: readonly Input[], streams: Streams): SessionWriter {
  if (settings.form === "html") return pageWriter(settings, streams);
  if (settings.out !== undefined) requireOtherFile(settings.out, inputs);
  const output = openOutput(settings.out, streams.stdout);
  return { csv: csvWriter, json: jsonWriter, text: textWriter }[settings.form](settings, output);
}

/** A table of acquisitions, row by row: nothing is kept. */
function csvWriter(_settings: Settings, output: Output): SessionWriter {
  let taken = 0;
  let header = true;
  return {
    take: async (session) => {
      taken++;
      const text = csvLines(acquisitionRecords(session), header);
      if (text === "") return;
      header = false;
      await output.send(text);
    },
    kept: [],
    count: () => taken,
    end: async () => {
      output.finish();
      return [];
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
      const errors = await forEach(people, settings, ({ review }) => line({ kind: "review", ...review }));
      output.finish();
      return errors;
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
      const errors = await forEach(people, settings, async ({ review }) => {
        await output.send(`${between}${renderReport(review, { form: "text" })}`);
        between = "\n\n";
      });
      output.finish();
      return errors;
    },
    abandon: output.abandon,
  };
}

/** One page per person. */
function pageWriter(settings: Settings, streams: Streams): SessionWriter {
  const kept: NamedSession[] = [];
  return {
    take: async (session) => void kept.push(session),
    kept,
    count: () => kept.length,
    end: async (people) => {
      const { out, quiet } = settings;
      if (out === undefined && people.length > 1) {
        throw new UsageError(`--out must name a folder for the pages of ${people.length} people, got none; or choose one with --person`);
      }
      const paint = await createPainter();
      if (paint === undefined && !quiet) {
        await send(streams.stderr, "pages without charts: install vega and vega-lite beside this package to have them drawn\n");
      }
      const nameOf = createNamer();
      const errors = await forEach(people, settings, async (reviewed) => {
        const page = renderReport(reviewed.review, { pictures: paint === undefined ? [] : await paint(chartsOf(reviewed)) });
        if (out === undefined) await send(streams.stdout, page);
        else writeWhole(join(out, `${nameOf(reviewed.person)}.html`), page);
      });
      if (out !== undefined && !quiet && people.length > 0)
        await send(streams.stderr, `${people.length - errors.length} pages in ${out}\n`);
      return errors;
    },
    abandon: () => {},
  };
}

/** Reviews one person after the other; what fails for one is said, and the others go on. */
async function forEach(
  people: readonly Person[],
  settings: Settings,
  then: (reviewed: ReviewedPerson) => Promise<void>,
): Promise<readonly string[]> {
  const errors: string[] = [];
  for (const person of people) {
    try {
      await then(reviewPerson(person, people, settings));
    } catch (error) {
      errors.push(`${JSON.stringify(person.person)}: ${messageOf(error)}`);
    }
  }
  return errors;
}

function chartsOf({ review, sessions }: ReviewedPerson): ReturnType<typeof reviewCharts> {
  return reviewCharts(
    review,
    sessions.map(({ summary }) => summary),
  );
}
