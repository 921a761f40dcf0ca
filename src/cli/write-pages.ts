import { statSync } from "node:fs";
import { join } from "node:path";
import { countOf } from "../report/count-of.js";
import { renderReport, reviewCharts } from "../report/index.js";
import { createPainter } from "./draw-pictures.js";
import type { Input } from "./find-inputs.js";
import type { NamedSession } from "./group-people.js";
import { isRead } from "./output.js";
import { type Settings, UsageError } from "./parse-arguments.js";
import type { ReviewedPerson } from "./review-people.js";
import { createNamer } from "./safe-name.js";
import type { SessionWriter } from "./session-writer.js";
import { messageOf, type Sink, send } from "./streams.js";
import type { Teller } from "./tell.js";
import { writeWhole } from "./write-file.js";
import { forEach } from "./write-reviews.js";

/** One page per person. */
export function pageWriter(settings: Settings, inputs: readonly Input[], stdout: Sink, teller: Teller): SessionWriter {
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
        const { pictures, failures } =
          paint === undefined ? { pictures: [], failures: [] } : await paint(reviewCharts(reviewed.review, reviewed.summaries));
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
      if (out !== undefined && pages > 0) await teller.note(`${countOf(pages, "page")} in ${out}`);
      return { isWritten: pages > 0, errors: [...errors, ...unwritten] };
    },
    abandon: () => {},
  };
}

function writePage(file: string, page: string, inputs: readonly Input[]): void {
  if (isRead(file, inputs)) throw new Error(`${file} is a file that is read, and is not written over`);
  writeWhole(file, page);
}
