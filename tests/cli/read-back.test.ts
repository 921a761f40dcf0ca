// The table of acquisitions, read by a reader that knows nothing of us.
import { execFileSync, spawnSync } from "node:child_process";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { folderWith, lines, removeFolders, run, sitting } from "./run-command.js";

afterAll(removeFolders);

const PYTHON = "/usr/bin/python3";
const hasPython = spawnSync(PYTHON, ["-c", "import csv, json"]).status === 0;
const READ = "import csv,json,sys; print(json.dumps(list(csv.DictReader(open(sys.argv[1],newline='',encoding='utf-8'),strict=True))))";
/** Names that a table or a spreadsheet could take for something else, and what a cell must hold. */
const PEOPLE: readonly (readonly [string, string])[] = [
  ['=HYPERLINK("http://x","a")', '\'=HYPERLINK("http://x","a")'],
  ["@SUM(1,2)", "'@SUM(1,2)"],
  ["+1", "'+1"],
  ["-2,5", "'-2,5"],
  ['"Bo, the ""2nd""', '"Bo, the ""2nd""'],
  ["two\r\nlines", "two\r\nlines"],
  ["Zoë 漢😀", "Zoë 漢😀"],
];

describe.skipIf(!hasPython)("the table of acquisitions, read by Python's csv module,", () => {
  it("has the values of the JSON lines, field by field", async () => {
    const folder = folderWith(Object.fromEntries(PEOPLE.map(([name], i) => [`${i}.jsonl`, sitting(name, i + 1, { movements: 2 })])));
    const table = join(folder, "out", "table.csv");
    expect((await run([folder, "--form", "csv", "--out", table])).code).toBe(0);
    // Source: csv of the Python standard library, in its strict mode
    const back = JSON.parse(execFileSync(PYTHON, ["-c", READ, table], { encoding: "utf8" })) as Record<string, string>[];
    const ours = lines((await run([folder, "--form", "json"])).out).filter(({ kind }) => kind === "acquisition");
    expect(back).toHaveLength(2 * PEOPLE.length);
    expect(back.map(({ person }) => person)).toEqual(PEOPLE.flatMap(([, cell]) => [cell, cell]));
    let numbers = 0;
    for (const [i, row] of back.entries()) {
      const { kind: _, ...values } = ours[i]!;
      expect(Object.keys(row)).toEqual(Object.keys(values));
      for (const [name, value] of Object.entries(values)) {
        if (name === "person") continue;
        expect(row[name]).toBe(value === null ? "" : String(value));
        if (typeof value !== "number") continue;
        numbers++;
        expect(Number(row[name])).toBe(value);
      }
    }
    expect(numbers).toBeGreaterThan(20 * back.length);
    expect(back.some((row) => Object.values(row).some((text) => /^-\d/.test(text)))).toBe(true);
  });
});
