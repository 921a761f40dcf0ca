import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { splitSessions } from "../../src/cli/split-sessions.js";

const HEAD = '{"kind":"session","schema":1,"person":"Ada","startedAt":"2026-03-02T18:00:00Z","equipment":{"id":"desk"}}\n';
const SORTED_HEAD = '{"equipment":{"id":"desk"},"kind":"session","person":"Bo","schema":1,"startedAt":"2026-03-02T18:00:00Z"}\n';
const TRIAL = '{"kind":"trial","id":"1","block":"session","condition":{"kind":"session"},"goals":["é😀"]}\n';
const SAMPLES = '{"kind":"samples","t":[0,1],"x":[1,2],"y":[1,2]}\n';

interface Part {
  readonly line: number;
  readonly text: string;
}

/** Parts of a text that comes in pieces; of each part at most `most` pieces are read. */
async function partsOf(pieces: readonly (Uint8Array | string)[], most = Number.POSITIVE_INFINITY): Promise<Part[]> {
  async function* source(): AsyncGenerator<Uint8Array | string> {
    yield* pieces;
  }
  const parts: Part[] = [];
  for await (const { line, pieces: own } of splitSessions(source())) {
    const bytes: Uint8Array[] = [];
    if (most > 0) {
      for await (const piece of own) {
        bytes.push(Uint8Array.from(piece));
        if (bytes.length >= most) break;
      }
    }
    parts.push({ line, text: Buffer.concat(bytes).toString() });
  }
  return parts;
}

function cut(text: string, size: number): Uint8Array[] {
  const bytes = new TextEncoder().encode(text);
  return Array.from({ length: Math.ceil(bytes.length / size) }, (_, i) => bytes.subarray(i * size, (i + 1) * size));
}

describe("splitSessions", () => {
  it("begins a part at every session line, whatever the order of its fields, and says on which line", async () => {
    // Source: RFC 8259 section 1: an object is an unordered collection; jsonlines.org: one value a line
    const parts = [HEAD + SAMPLES + TRIAL, SORTED_HEAD + SAMPLES, HEAD];
    expect(await partsOf([parts.join("")])).toEqual([
      { line: 1, text: parts[0] },
      { line: 4, text: parts[1] },
      { line: 6, text: parts[2] },
    ]);
  });
  it("takes no field of that name or value elsewhere for a session", async () => {
    expect(await partsOf([HEAD + TRIAL + TRIAL + SAMPLES])).toHaveLength(1);
  });
  it("leaves empty lines and a byte order mark with the session that follows", async () => {
    const text = `\ufeff\n  \r\n${HEAD}${SAMPLES}\n\n${SORTED_HEAD}`;
    expect(await partsOf(cut(text, 3))).toEqual([
      { line: 1, text: `\ufeff\n  \r\n${HEAD}${SAMPLES}\n\n` },
      { line: 7, text: SORTED_HEAD },
    ]);
    expect((await partsOf([`\ufeff${HEAD}${HEAD}`])).map(({ line }) => line)).toEqual([1, 2]);
  });
  it("keeps what stands before the first session apart from it", async () => {
    expect(await partsOf([SAMPLES, HEAD, SAMPLES])).toEqual([
      { line: 1, text: SAMPLES },
      { line: 2, text: HEAD + SAMPLES },
    ]);
  });
  it.each(["", " "])("finds a session behind the cut last line of the file before%s", async (gap) => {
    const half = SAMPLES.slice(0, 21) + gap;
    expect(await partsOf(cut(HEAD + half + HEAD + SAMPLES, 5))).toEqual([
      { line: 1, text: HEAD + half },
      { line: 2, text: HEAD + SAMPLES },
    ]);
    // a whole last line without its end
    expect((await partsOf([HEAD + SAMPLES.trim() + SORTED_HEAD.replace('{"equipment":{"id":"desk"},', "{")])).length).toBe(2);
  });
  it("begins a part at a session line that is damaged, too: what follows is not of the session before", async () => {
    expect(await partsOf([HEAD, HEAD.replace("}}", "}"), SAMPLES])).toHaveLength(2);
  });
  it("passes lines on that are too long to hold, and goes on after them", async () => {
    const long = `{"kind":"samples","t":[${"0,".repeat(700_000)}0],"x":"${HEAD.trim()}"}\n`;
    const text = HEAD + long + HEAD;
    for (const size of [65_536, 2 ** 20, 2 ** 22]) {
      expect((await partsOf(cut(text, size))).map(({ line, text: own }) => [line, own.length])).toEqual([
        [1, HEAD.length + long.length],
        [3, HEAD.length],
      ]);
    }
  });
  it("copies what it holds, since the sender may use the room again", async () => {
    const room = new Uint8Array(16);
    async function* source(): AsyncGenerator<Uint8Array> {
      for (const piece of cut(HEAD + SAMPLES, 16)) {
        room.set(piece);
        yield room.subarray(0, piece.length);
      }
    }
    const all: string[] = [];
    for await (const { pieces } of splitSessions(source())) for await (const piece of pieces) all.push(Buffer.from(piece).toString());
    expect(all.join("")).toBe(HEAD + SAMPLES);
  });
  it("goes on behind a source that fails", async () => {
    async function* source(): AsyncGenerator<string> {
      yield HEAD;
      throw new Error("gone");
    }
    const seen: string[] = [];
    for await (const { pieces } of splitSessions(source())) {
      try {
        for await (const piece of pieces) seen.push(Buffer.from(piece).toString());
      } catch (error) {
        seen.push((error as Error).message);
      }
    }
    expect(seen).toEqual([HEAD, "gone"]);
  });

  const line = fc.constantFrom(HEAD, SORTED_HEAD, TRIAL, SAMPLES, "\n", "junk\n", '"session"\n', '{"kind":"session"\n', "é\r\n");
  test.prop([fc.array(line, { maxLength: 12 }), fc.integer({ min: 1, max: 200 }), fc.integer({ min: 0, max: 3 })])(
    "gives every byte once and in order, wherever the pieces are cut, and the same parts however much of them is read",
    async (some, size, most) => {
      const text = some.join("");
      const parts = await partsOf(cut(text, size));
      expect(parts.map((part) => part.text).join("")).toBe(text);
      expect(parts.map((part) => part.line)).toEqual((await partsOf([text])).map((part) => part.line));
      expect((await partsOf(cut(text, size), most)).map((part) => part.line)).toEqual(parts.map((part) => part.line));
      for (const part of parts)
        expect(
          text
            .split("\n")
            .slice(part.line - 1)
            .join("\n")
            .startsWith(part.text),
        ).toBe(true);
    },
  );
});
