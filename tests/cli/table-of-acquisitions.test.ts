import { fc, test } from "@fast-check/vitest";
import { read } from "vega";
import { describe, expect, it } from "vitest";
import { acquisitionCells, acquisitionRecords, csvLines, tableColumns, textColumns } from "../../src/cli/table-of-acquisitions.js";
import { summarizeSession } from "../../src/report/summarize-session.js";
import { simulateRecording } from "../../src/simulate/simulate-recording.js";

describe("the table of acquisitions", () => {
  it("has the columns of its rows, in their order, with rows or without", () => {
    const { recording } = simulateRecording({ seed: 71, movements: 5 });
    const summary = summarizeSession({
      person: "Ada",
      startedAt: "2026-03-02T18:00:00Z",
      equipment: { id: "desk" },
      recordings: [recording],
    });
    const [record] = acquisitionRecords("a.jsonl", summary);
    const [cells] = acquisitionCells("a.jsonl", summary);
    expect(tableColumns()).toEqual(Object.keys(record!));
    expect(cells).toEqual(Object.values(record!));
    // columns keep one kind of value, whichever row
    for (const row of acquisitionRecords("a.jsonl", summary)) {
      for (const [name, value] of Object.entries(row))
        if (value !== null)
          expect(typeof value, name).toBe(textColumns.has(name) ? "string" : name === "pressedInMotion" ? "boolean" : "number");
    }
    // Source: vega 6.4.0, which reads CSV with d3-dsv
    const back = read(csvLines([cells!]), { type: "dsv", delimiter: ",", header: tableColumns() });
    const { go, width, pressedInMotion } = record!;
    expect((back as object[])[0]).toMatchObject({
      go: String(go),
      width: String(width),
      person: "Ada",
      pressedInMotion: String(pressedInMotion),
    });
  });

  const odd = fc.array(fc.constantFrom(",", '"', "\r", "\n", "\t", " ", "=", "+", "-", "@", "'", "a", "é", "😀", "1", "\u202e", ";", "|"), {
    maxLength: 8,
  });
  const cell = fc.oneof(
    odd.map((parts) => parts.join("")),
    fc.string({ unit: "binary" }),
    fc.double({ noDefaultInfinity: true, noNaN: true }),
    fc.boolean(),
  );
  test.prop([fc.array(fc.record({ a: cell, b: cell, c: cell }), { minLength: 1, maxLength: 5 })])(
    "is read back by a stranger's reader, field by field",
    (records) => {
      // Source: RFC 4180 section 2, as vega 6.4.0 reads it
      const back = read(`a,b,c\r\n${csvLines(records.map(({ a, b, c }) => [a, b, c]))}`, { type: "csv" }) as Record<string, string>[];
      expect(back).toHaveLength(records.length);
      for (const [i, record] of records.entries()) {
        for (const name of ["a", "b", "c"] as const) {
          const value = record[name];
          const got = back[i]![name]!;
          if (typeof value === "string") expect([value, `'${value}`]).toContain(got);
          else expect(got).toBe(String(value));
        }
      }
    },
  );
  test.prop([odd.map((parts) => parts.join(""))])("begins no text with what a spreadsheet runs", (text) => {
    const [row] = read(`a\r\n${csvLines([[text]])}`, { type: "csv" }) as Record<string, string>[];
    // Source: OWASP, "CSV Injection" (from memory): =, +, -, @, tab and carriage return at the beginning of a field
    expect(row?.a ?? "").not.toMatch(/^[=+\-@\t\r]/);
  });
  it("leaves a negative number a number", () => expect(csvLines([[-1.5, "-1.5"]])).toBe("-1.5,'-1.5\r\n"));
});
