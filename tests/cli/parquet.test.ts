// The table by columns, read back by a stranger.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import { afterAll, describe, expect, it } from "vitest";
import { createParquetTable } from "../../src/cli/parquet-table.js";
import { tableColumns, textColumns } from "../../src/cli/table-of-acquisitions.js";
import { folderWith, removeFolders, run, sitting } from "./run-command.js";

afterAll(removeFolders);

type Rows = readonly (readonly unknown[])[];

/** All rows and the types of the columns, as DuckDB reads them. */
async function ask(query: string): Promise<{ readonly rows: Rows; readonly names: string[]; readonly types: string[] }> {
  const connection = await (await DuckDBInstance.create(":memory:")).connect();
  const reader = await connection.runAndReadAll(query);
  const told = { rows: reader.getRows(), names: reader.columnNames(), types: reader.columnTypes().map(String) };
  connection.closeSync();
  return told;
}

describe("the table as Parquet", () => {
  const names = ["Ada", '=1+1,"x"', "Zoë 漢😀", "a\nb"];
  const folder = folderWith(Object.fromEntries(names.map((name, i) => [`${i}.jsonl`, sitting(name, i + 1, { movements: 15 })])));
  const out = join(folderWith({}), "table");
  it("holds every value of the CSV, as DuckDB reads both", async () => {
    for (const form of ["csv", "parquet"]) expect((await run([folder, "--form", form, "--out", `${out}.${form}`])).code).toBe(0);
    // Source: DuckDB (@duckdb/node-api 1.5.6), its readers of Parquet and of CSV
    const parquet = await ask(`select * from '${out}.parquet'`);
    const csv = await ask(
      `select * from read_csv('${out}.csv', all_varchar = true, header = true, quote = '"', escape = '"', delim = ',')`,
    );
    expect(parquet.names).toEqual(csv.names);
    expect(parquet.types).toEqual(
      parquet.names.map((name) => (textColumns.has(name) ? "VARCHAR" : name === "pressedInMotion" ? "BOOLEAN" : "DOUBLE")),
    );
    expect(parquet.rows).toHaveLength(60);
    const asText = parquet.rows.map((row) => row.map((value) => (value === null || value === "" ? null : String(value))));
    // the apostrophe that keeps a spreadsheet from running a text is of CSV alone
    const plain = csv.rows.map((row) => row.map((cell) => (cell === "" ? null : cell === `'${names[1]}` ? names[1] : cell)));
    expect(asText).toEqual(plain);
  });
  it("goes down a pipe as to a file", async () => {
    const piped = await run([folder, "--form", "parquet"]);
    writeFileSync(`${out}.piped`, piped.out, "latin1");
    expect((await ask(`select count(*)::int from read_parquet('${out}.piped')`)).rows).toEqual([[60]]);
  });
  it("is written group by group, and whole without a row", async () => {
    const all = tableColumns();
    const columns = (i: number) =>
      Array.from({ length: all.length }, (_, k) =>
        all[k] === "pressedInMotion" ? i % 2 === 0 : textColumns.has(all[k]!) ? `${k}` : i + k / 7,
      );
    for (const count of [0, 1, 19_999, 20_000, 45_000]) {
      const pieces: Uint8Array[] = [];
      const table = await createParquetTable(async (bytes) => void pieces.push(bytes));
      let most = 0;
      for (let i = 0; i < count; i++) {
        await table.add([columns(i)]);
        most = Math.max(most, pieces.length);
      }
      await table.end();
      expect(most).toBe(Math.floor(count / 20_000));
      writeFileSync(`${out}.${count}`, Buffer.concat(pieces));
      expect((await ask(`select count(*)::int, sum("go") from read_parquet('${out}.${count}')`)).rows[0]![0]).toBe(count);
      expect((await ask(`select count(distinct row_group_id)::int from parquet_metadata('${out}.${count}')`)).rows).toEqual([
        [Math.ceil(count / 20_000)],
      ]);
    }
  });
});
