import type { Output } from "./output.js";
import { createParquetTable } from "./parquet-table.js";
import type { Settings } from "./parse-arguments.js";
import type { SessionWriter } from "./session-writer.js";
import { acquisitionCells, csvLines, tableColumns } from "./table-of-acquisitions.js";

/** A table of acquisitions, row by row: nothing is kept. */
export function csvWriter(_settings: Settings, output: Output): SessionWriter {
  let taken = 0;
  const columns = tableColumns();
  return {
    take: async ({ name }, summary) => {
      const header = taken++ === 0 ? `${columns.join(",")}\r\n` : "";
      await output.send(header + csvLines(acquisitionCells(name, summary)));
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

/** The same table by columns; a group of rows is kept until it is full. */
export async function parquetWriter(_settings: Settings, output: Output): Promise<SessionWriter> {
  let taken = 0;
  const table = await createParquetTable(output.send);
  return {
    take: async ({ name }, summary) => {
      taken++;
      await table.add(acquisitionCells(name, summary));
    },
    kept: [],
    count: () => taken,
    end: async () => {
      await table.end();
      output.finish();
      return { isWritten: true, errors: [] };
    },
    abandon: output.abandon,
  };
}
