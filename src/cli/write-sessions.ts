import type { Input } from "./find-inputs.js";
import { type Output, openOutput, requireOtherFile } from "./output.js";
import { type Settings, UsageError } from "./parse-arguments.js";
import type { SessionWriter } from "./session-writer.js";
import type { Streams } from "./streams.js";
import type { Teller } from "./tell.js";
import { pageWriter } from "./write-pages.js";
import { jsonWriter, textWriter } from "./write-reviews.js";
import { csvWriter, parquetWriter } from "./write-tables.js";
import { tallyWriter } from "./write-tallies.js";

/** Writers of one stream, by form. */
const WRITERS: Readonly<
  Record<Exclude<Settings["form"], "html">, (settings: Settings, output: Output, teller: Teller) => SessionWriter | Promise<SessionWriter>>
> = {
  csv: csvWriter,
  json: jsonWriter,
  parquet: parquetWriter,
  tally: tallyWriter,
  text: textWriter,
};

/** Refuses what cannot be written, before anything is. */
export function requireOutput({ form, out }: Settings, inputs: readonly Input[], { stdout }: Streams): void {
  if (form === "parquet" && out === undefined && stdout.isTTY === true) {
    throw new UsageError("--form parquet is no text: name a file with --out, or lead it into a pipe");
  }
  if (out !== undefined && form !== "html") requireOtherFile(out, inputs);
}

/** The writer of the form that was asked for. */
export async function createSessionWriter(
  settings: Settings,
  inputs: readonly Input[],
  streams: Streams,
  teller: Teller,
): Promise<SessionWriter> {
  if (settings.form === "html") return pageWriter(settings, inputs, streams.stdout, teller);
  const output = openOutput(settings.out, streams.stdout);
  try {
    return await WRITERS[settings.form](settings, output, teller);
  } catch (error) {
    output.abandon();
    throw error;
  }
}
