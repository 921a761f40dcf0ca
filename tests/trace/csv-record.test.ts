import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { csvField, readRecord } from "../../src/trace/form/csv-record.js";

/** All records of a text. */
function records(text: string): (readonly string[])[] {
  const found: (readonly string[])[] = [];
  for (let at = 0; at < text.length; ) {
    const { fields, next } = readRecord(text, at);
    found.push(fields);
    at = next;
  }
  return found;
}

describe("readRecord against outside values", () => {
  // Source: RFC 4180 section 2, rules 1, 2 and 5 (read).
  it.each([
    [
      "records end in a line break",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "the last record may have none",
      "aaa,bbb,ccc\r\nzzz,yyy,xxx",
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    [
      "fields may stand in quotes",
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
  ])("%s", (_, text, expected) => expect(records(text)).toEqual(expected));

  // Source: RFC 4180 section 2, rules 4, 6 and 7 (4 read, the others from memory).
  it.each([
    ["spaces belong to a field", "a , b\r\n", [["a ", " b"]]],
    [
      "quotes hold line breaks",
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ["aaa", "b\r\nbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
    ],
    ["quotes hold commas", '"a,b",c', [["a,b", "c"]]],
    ["a quote inside is written twice", '"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]],
  ])("%s", (_, text, expected) => expect(records(text)).toEqual(expected));
});

describe("readRecord properties", () => {
  const field = fc.oneof(fc.string({ unit: "binary" }), fc.string({ unit: fc.constantFrom('"', ",", "\r", "\n", "a", " ") }));

  test.prop([fc.array(fc.array(field, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 5 }), fc.constantFrom("\n", "\r\n")])(
    "reads back what csvField writes",
    (rows, lineEnd) => {
      const text = rows.map((row) => row.map(csvField).join() + lineEnd).join("");
      expect(records(text)).toEqual(rows);
    },
  );

  it("tells an empty text from nothing", () => {
    expect(readRecord('"",', 0)).toMatchObject({ fields: ["", ""], quoted: [true, false] });
  });

  it("says where fields begin and where the record ends", () => {
    expect(readRecord('x\na,"b",c\r\ny', 2)).toMatchObject({ at: [2, 4, 8], end: 9, next: 11, whole: true });
  });
});

describe("readRecord bad input", () => {
  it.each([
    ["a quote within an unquoted field", 'a,b"c,d\nnext', 3],
    ["text after a closing quote", '"a"b,c\nnext', 3],
    ["a quote that is never closed", 'a,"b,c\nnext', 2],
  ])("goes on with the next line after %s", (_, text, at) => {
    const { wrong, next } = readRecord(text, 0);
    expect(wrong?.at).toBe(at);
    expect(text.slice(next)).toBe("next");
  });
});
