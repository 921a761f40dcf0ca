// Sessions one after the other in one stream come out as each does alone.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { splitSessions } from "../../src/cli/split-sessions.js";
import { parseRecording } from "../../src/trace/parse-recording.js";
import { lines, run, sitting } from "./run-command.js";

const texts = [1, 2, 3, 4].map((day) => sitting(["Ada", "Bo", '{"kind":"session"', "Zoë 漢😀"][day - 1]!, day, { movements: day }));
const alone = texts.map((text) => parseRecording(text).session);
const bytesOf = (text: string): Buffer => Buffer.from(text);

/** The stream, cut before each of these bytes. */
async function* cutAt(bytes: Buffer, places: readonly number[]): AsyncGenerator<Uint8Array> {
  const ends = [...new Set(places.map((place) => place % (bytes.length + 1)))].sort((a, b) => a - b);
  let from = 0;
  for (const end of [...ends, bytes.length]) {
    yield bytes.subarray(from, end);
    from = end;
  }
}

const order = fc.array(fc.integer({ min: 0, max: texts.length - 1 }), { minLength: 1, maxLength: 5 });
const places = fc.array(fc.nat(), { maxLength: 40 });
// what may stand before a session without being part of a line of it
const before = fc.constantFrom("", "\n", "\r\n", " ".repeat(63), " ".repeat(64), `${"\t ".repeat(300)}`, "\ufeff", "  \n \n");

describe("several sessions in one stream", async () => {
  const each = await Promise.all(texts.map((text) => run(["--form", "csv"], [text])));
  test.prop([order, places, before, fc.boolean()])(
    "are read as each alone, wherever the pieces are cut",
    async (which, at, gap, hasReturns) => {
      const whole = which.map((i) => gap + texts[i]!).join("");
      const stream = bytesOf(hasReturns ? whole.replace(/\r?\n/g, "\r\n") : whole);
      const sessions = [];
      for await (const { pieces } of splitSessions(cutAt(stream, at))) sessions.push((await parseRecording(pieces)).session);
      expect(sessions).toEqual(which.map((i) => alone[i]));
    },
  );
  test.prop([fc.nat(), fc.array(fc.integer({ min: 1, max: 5000 }), { minLength: 1, maxLength: 6 })], { numRuns: 10 })(
    "give the same rows through the command, in pieces of any sizes",
    async (from, sizes) => {
      const stream = bytesOf(texts.join(""));
      const pieces: Uint8Array[] = [];
      for (let i = 0, at = 0; at < stream.length; i++) {
        const size = sizes[(from + i) % sizes.length]!;
        pieces.push(stream.subarray(at, at + size));
        at += size;
      }
      const { code, out, err } = await run(["--form", "csv"], pieces);
      expect({ code, err }).toEqual({ code: 0, err: "" });
      // the file is named with the line where a later session begins: that column apart, the rows are the same
      const rows = (text: string): string[] =>
        text
          .replace(/,standard input(?::\d+)?,/g, ",,")
          .split("\r\n")
          .slice(1, -1);
      expect(rows(out)).toEqual(each.flatMap((one) => rows(one.out)));
    },
  );
  it("stand in a row of commands: what one filter lets through, line by line, is JSON with its kind", async () => {
    const { out } = await run(["--form", "json"], texts);
    const kinds = lines(out).map(({ kind }) => kind);
    expect(new Set(kinds)).toEqual(new Set(["acquisition", "summary", "review"]));
    // reviews need everything, and stand at the end
    expect(kinds.lastIndexOf("summary")).toBeLessThan(kinds.indexOf("review"));
    // Source: jsonlines.org: UTF-8, one value a line, lines end in \n
    expect(out.endsWith("}\n")).toBe(true);
    expect(out).not.toContain("\n\n");
  });
  test.prop([fc.shuffledSubarray(texts[2]!.split("\n").slice(0, -1)), fc.boolean()], { numRuns: 40 })(
    "whose lines are shuffled or missing are refused or read, in words",
    async (shuffled, repair) => {
      const { code, err } = await run(["--form", "json", ...(repair ? ["--repair"] : [])], [shuffled.map((line) => `${line}\n`).join("")]);
      expect([0, 1, 2]).toContain(code);
      expect(err).not.toMatch(/^\s+at |TypeError|undefined|is not a function/m);
      for (const line of err.split("\n").slice(0, -1)) expect(line).toMatch(/^(standard input|no session could be read|")/);
      if (code > 0) expect(err).not.toBe("");
    },
  );
});

describe("a session of more bytes than are read", () => {
  const limit = bytesOf(texts[0]!).length;
  it("is read up to the limit", async () => {
    const { code, err } = await run(["--form", "json"], [texts[0]!], { mostBytes: limit });
    expect({ code, err }).toEqual({ code: 0, err: "" });
  });
  it("is refused beyond it, and what follows is read", async () => {
    const long = texts[3]!;
    expect(bytesOf(long).length).toBeGreaterThan(limit);
    for (const size of [1000, 1e6]) {
      const stream = bytesOf(texts[0]! + long + texts[0]!.replace("2026-03-01", "2026-04-01"));
      const pieces = Array.from({ length: Math.ceil(stream.length / size) }, (_, i) => stream.subarray(i * size, (i + 1) * size));
      const { code, out, err } = await run(["--form", "json"], pieces, { mostBytes: limit });
      expect(code).toBe(1);
      expect(err).toMatch(/^standard input:\d+: one session must have at most [\d.]+ MiB, got more; record it in several sessions\n$/);
      expect(err).toContain(`standard input:${texts[0]!.split("\n").length}:`);
      expect(
        lines(out)
          .filter(({ kind }) => kind === "summary")
          .map(({ startedAt }) => startedAt),
      ).toEqual(["2026-03-01T18:00:00Z", "2026-04-01T18:00:00Z"]);
    }
  });
});
