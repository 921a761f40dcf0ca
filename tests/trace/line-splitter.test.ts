import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createLineSplitter, endLines, pushPiece } from "../../src/trace/form/line-splitter.js";

type Piece = string | Uint8Array;

/** What the splitter gives for pieces: lines with their number, or why there is none. */
function split(pieces: Iterable<Piece>, maxLength = 30): { lines: unknown[]; count: number } {
  const lines: unknown[] = [];
  const splitter = createLineSplitter("test", maxLength, {
    line: (text, start, end, number, whole) => lines.push([number, text.slice(start, end), whole]),
    unreadable: (number, why) => lines.push([number, why]),
  });
  for (const piece of pieces) pushPiece(splitter, piece);
  return { lines, count: endLines(splitter) };
}

/** Cuts at the given places, in any order and number. */
function cutAt<T extends Piece>(whole: T, places: readonly number[]): T[] {
  const borders = [0, ...places.map((place) => place % (whole.length + 1)).sort((a, b) => a - b), whole.length];
  return borders.slice(1).map((to, i) => whole.slice(borders[i], to) as T);
}

const text = fc.string({ unit: fc.constantFrom("\n", "\r\n", "\r", "a", "bb", "é", "✓", "😀", "\ufeff", "x".repeat(20)), maxLength: 40 });
const places = fc.array(fc.nat(), { maxLength: 12 });

describe("createLineSplitter against outside values", () => {
  // Source: jsonlines.org, section 3: lines end in \n, \r\n counts as well, and what follows the last one is no line.
  it("takes \\n and \\r\\n for line ends", () => {
    expect(split(["a\nb\r\n\nc"]).lines).toEqual([
      [1, "a", true],
      [2, "b", true],
      [3, "", true],
      [4, "c", false],
    ]);
    expect(split(["a\n"]).lines).toEqual([[1, "a", true]]);
  });

  // Source: Unicode standard, from memory: U+FEFF at the very beginning is a signature, anywhere else a character.
  it("leaves out a byte order mark at the beginning only", () => {
    const expected = [
      [1, "a", true],
      [2, "\ufeffb", false],
    ];
    expect(split(["\ufeffa\n\ufeffb"]).lines).toEqual(expected);
    expect(split([new TextEncoder().encode("\ufeffa\n\ufeffb")]).lines).toEqual(expected);
  });
});

describe("createLineSplitter properties", () => {
  test.prop([text, places], { numRuns: 500 })("gives the same lines however text is cut", (whole, at) => {
    expect(split(cutAt(whole, at))).toEqual(split([whole]));
  });

  test.prop([text, places], { numRuns: 500 })("gives the same lines for bytes, cut within characters too", (whole, at) => {
    expect(split(cutAt(new TextEncoder().encode(whole), at))).toEqual(split([whole]));
  });

  test.prop([fc.uint8Array({ maxLength: 60 }), places, fc.array(fc.nat(), { maxLength: 4 })], { numRuns: 500 })(
    "gives the same for bytes that are no text",
    (bytes, at, newlines) => {
      for (const place of newlines) if (bytes.length > 0) bytes[place % bytes.length] = 10;
      expect(split(cutAt(bytes, at), 8)).toEqual(split([bytes], 8));
    },
  );

  it("keeps what it holds when the sender uses the room of a piece again", () => {
    const room = new Uint8Array(2);
    function* pieces(): Generator<Uint8Array> {
      for (const pair of ["ab", "cd", "e\n"]) {
        room.set(new TextEncoder().encode(pair));
        yield room;
      }
    }
    expect(split(pieces()).lines).toEqual([[1, "abcde", true]]);
  });
});

describe("createLineSplitter in a piece far larger than what is decoded at a time", () => {
  // Source: the lines that the piece was made of
  it.each([1, 7, 1000, 65_535, 65_536, 65_537, 200_000])("gives lines of about %d bytes as they are", (length) => {
    const lines = Array.from({ length: Math.ceil(300_000 / length) }, (_, i) => "✓ä".repeat(Math.floor(length / 5)) + "x".repeat(i % 7));
    const found = split([new TextEncoder().encode(`${lines.join("\n")}\nend`)], 1_000_000).lines as [number, string][];
    expect(found.map(([, text]) => text)).toEqual([...lines, "end"]);
    expect(found.map(([number]) => number)).toEqual(found.map((_, i) => i + 1));
  });
  it("names the one line that is not UTF-8", () => {
    const bytes = new TextEncoder().encode("some words\n".repeat(20_000));
    bytes[150_001] = 0xff;
    const found = split([bytes]).lines as [number, string][];
    expect(found.length).toBe(20_000);
    expect(found.flatMap(([number, text]) => (text === "notUtf8" ? [number] : []))).toEqual([Math.floor(150_001 / 11) + 1]);
  });
});

describe("createLineSplitter bad input", () => {
  it("says of a line without end that it is too long, once, and goes on after it", () => {
    expect(split(["ok\n", "x".repeat(40), "x".repeat(40), "y\nok"]).lines).toEqual([
      [1, "ok", true],
      [2, "tooLong"],
      [3, "ok", false],
    ]);
  });

  it("counts characters, not bytes", () => {
    const bytes = new TextEncoder().encode(`${"✓".repeat(30)}\n${"✓".repeat(31)}\n`);
    expect(split([bytes]).lines).toEqual([
      [1, "✓".repeat(30), true],
      [2, "tooLong"],
    ]);
  });

  it("names the line that is not UTF-8 and reads the others", () => {
    expect(split([Uint8Array.of(97, 10, 0xff, 97, 10, 98, 10)]).lines).toEqual([
      [1, "a", true],
      [2, "notUtf8"],
      [3, "b", true],
    ]);
  });

  it("refuses pieces of other kinds, and both kinds together", () => {
    expect(() => split([3 as unknown as string])).toThrow(/test: source must yield texts or Uint8Arrays, got 3/);
    expect(() => split(["a", new Uint8Array(1)])).toThrow(/test: source must yield only texts or only Uint8Arrays, got both/);
  });
});
