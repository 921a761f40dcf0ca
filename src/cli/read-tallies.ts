import { createLineSplitter, endLines, pushPiece } from "../trace/form/line-splitter.js";
import type { Outcome } from "./analyse-session.js";
import { messageOf } from "./streams.js";
import { readTallyLine } from "./tally-line.js";

/** Characters that tell whether a line is a tally, spaces in it included. */
const ENOUGH = 64;
const STARTS_AS_TALLY = /^\{\s*"kind"\s*:\s*"tally"/;

/** A line of a file, or why it cannot be read. */
interface Line {
  readonly number: number;
  readonly content: { readonly text: string } | { readonly why: string };
  /** Whether it has a line end. */
  readonly whole: boolean;
}

/** A stream of which the beginning has been looked at, and whether its first line is a tally. */
export async function lookAhead(
  source: AsyncIterable<Uint8Array | string>,
): Promise<{ readonly hasTallies: boolean; readonly stream: AsyncGenerator<Uint8Array | string> }> {
  const pieces = source[Symbol.asyncIterator]();
  const seen: (Uint8Array | string)[] = [];
  let start = "";
  let isOver = false;
  while (start.length < ENOUGH && !isOver) {
    const next = await pieces.next();
    isOver = next.done === true;
    if (next.done) break;
    // whoever sent the bytes may use their room again
    seen.push(typeof next.value === "string" ? next.value : new Uint8Array(next.value));
    start = (start + Buffer.from(next.value as Uint8Array).toString("latin1")).replace(/^(\xef\xbb\xbf)?\s+/, "");
  }
  async function* stream(): AsyncGenerator<Uint8Array | string> {
    try {
      while (seen.length > 0) yield seen.shift()!;
      for (let next = await pieces.next(); !next.done; next = await pieces.next()) yield next.value;
    } finally {
      await pieces.return?.();
    }
  }
  return { hasTallies: STARTS_AS_TALLY.test(start.replace(/^\xef\xbb\xbf/, "")), stream: stream() };
}

/** What came of each line of tallies. */
export async function* readTallies(
  source: AsyncIterable<Uint8Array | string>,
  file: string,
  mostBytes: number,
): AsyncGenerator<Outcome, void> {
  for await (const line of filledLines(source, mostBytes)) yield outcomeOf(line, `${file}:${line.number}`);
}

function outcomeOf({ content, whole }: Line, name: string): Outcome {
  if ("why" in content) return { ok: false, message: `${name}: ${content.why}` };
  try {
    return { ok: true, name, tally: readTallyLine(content.text) };
  } catch (error) {
    const isCut = !whole && !content.text.endsWith("}");
    return { ok: false, message: `${name}: ${isCut ? "the last line was cut short; run what wrote it again" : messageOf(error)}` };
  }
}

/** Lines that hold anything. */
async function* filledLines(source: AsyncIterable<Uint8Array | string>, mostBytes: number): AsyncGenerator<Line> {
  let lines: Line[] = [];
  const splitter = createLineSplitter("aimed-movement", mostBytes, {
    line: (text, start, end, number, whole) => {
      const own = text.slice(start, end);
      if (own.trim() !== "") lines.push({ number, content: { text: own }, whole });
    },
    unreadable: (number, why, whole) => {
      lines.push({
        number,
        content: {
          why: why === "tooLong" ? `a line must have at most ${mostBytes / 2 ** 20} MiB, got more` : "must be UTF-8 text, got other bytes",
        },
        whole,
      });
    },
  });
  const take = (): Line[] => {
    const taken = lines;
    lines = [];
    return taken;
  };
  for await (const piece of source) {
    pushPiece(splitter, typeof piece === "string" ? Buffer.from(piece) : piece);
    yield* take();
  }
  endLines(splitter);
  yield* take();
}
