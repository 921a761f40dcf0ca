import { show } from "../../math/require.js";

/** Takes lines one by one. */
export interface LineSink {
  /** A line from `start` to `end` of `text`, its end (`\n` or `\r\n`) left out. `whole`: there was a line end. */
  line(text: string, start: number, end: number, number: number, whole: boolean): void;
  /** A line that cannot be read as text, or is longer than allowed. */
  unreadable(number: number, why: "tooLong" | "notUtf8", whole: boolean): void;
}

export interface LineSplitter {
  push(chunk: string | Uint8Array): void;
  /** Gives the last line when it has no end, and says how many lines there were. */
  end(): number;
}

const NEWLINE = 10;
/** Bytes that are decoded at a time, whole lines: a longer text would be given pages of its own, which take longer to get than the text to decode. */
const DECODED = 2 ** 16;

/**
 * Cuts text or UTF-8 bytes that come in pieces of any size into lines. Holds no more than the line that is not complete yet, and of
 * one that is too long nothing. Bytes are split at the newline byte, which UTF-8 uses for nothing else, and decoded afterwards: a piece may
 * end anywhere.
 */
export function createLineSplitter(where: string, maxLength: number, sink: LineSink): LineSplitter {
  const decoder = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
  let bytes: boolean | undefined;
  // the beginning of a line that is not complete yet: pieces of text, or bytes in a buffer with room to spare
  let pieces: string[] = [];
  let buffer = new Uint8Array(0);
  let heldLength = 0;
  let number = 1;
  let skipping = false;

  /** Beyond this, an incomplete line is too long for sure: a character takes at most 3 bytes, and a BOM and `\r` do not count. */
  const limit = (): number => (bytes ? 3 * maxLength + 8 : maxLength + 2);

  const give = (text: string, from: number, to: number, whole: boolean): void => {
    const start = number === 1 && text.charCodeAt(from) === 0xfeff ? from + 1 : from;
    const end = to > start && text.charCodeAt(to - 1) === 13 ? to - 1 : to;
    if (end - start > maxLength) sink.unreadable(number, "tooLong", whole);
    else sink.line(text, start, end, number, whole);
    number++;
  };

  /** Whole lines; the text ends in a newline. */
  const giveLines = (text: string): void => {
    for (let from = 0; from < text.length; ) {
      const to = text.indexOf("\n", from);
      give(text, from, to, true);
      from = to + 1;
    }
  };

  const giveByteLine = (line: Uint8Array, whole: boolean): void => {
    const text = line.length > limit() ? undefined : decode(decoder, line);
    if (text !== undefined) give(text, 0, text.length, whole);
    else sink.unreadable(number++, line.length > limit() ? "tooLong" : "notUtf8", whole);
  };

  /** Whole lines. */
  const giveByteLines = (block: Uint8Array): void => {
    for (let from = 0; from < block.length; ) {
      const to = block.length - from <= DECODED ? block.length : endOfLines(block, from);
      giveDecoded(block.subarray(from, to));
      from = to;
    }
  };

  const giveDecoded = (block: Uint8Array): void => {
    const text = decode(decoder, block);
    if (text !== undefined) {
      giveLines(text);
      return;
    }
    for (let from = 0; from < block.length; ) {
      const to = block.indexOf(NEWLINE, from);
      giveByteLine(block.subarray(from, to), true);
      from = to + 1;
    }
  };

  const hold = (rest: string | Uint8Array): void => {
    const length = heldLength + rest.length;
    if (length > limit()) {
      sink.unreadable(number, "tooLong", true);
      skipping = true;
      pieces = [];
      buffer = new Uint8Array(0);
      return;
    }
    if (typeof rest === "string") pieces.push(rest);
    else store(rest);
    heldLength = length;
  };

  const store = (rest: Uint8Array): void => {
    const length = heldLength + rest.length;
    if (length > buffer.length) {
      const wider = new Uint8Array(Math.max(length, 2 * buffer.length));
      wider.set(buffer.subarray(0, heldLength));
      buffer = wider;
    }
    // copied: whoever sent the bytes may use their room again
    buffer.set(rest, heldLength);
  };

  /** What is held and the text after it; nothing is held any more. */
  const takeText = (rest: string): string => {
    const text = pieces.length === 0 ? rest : pieces.join("") + rest;
    pieces = [];
    heldLength = 0;
    return text;
  };

  const takeBytes = (rest: Uint8Array): Uint8Array => {
    if (heldLength === 0) return rest;
    store(rest);
    const all = buffer.subarray(0, heldLength + rest.length);
    heldLength = 0;
    return all;
  };

  const push = (chunk: string | Uint8Array): void => {
    const isBytes = chunk instanceof Uint8Array;
    if (!isBytes && typeof chunk !== "string") throw new TypeError(`${where}: source must yield texts or Uint8Arrays, got ${show(chunk)}`);
    bytes ??= isBytes;
    if (bytes !== isBytes) throw new TypeError(`${where}: source must yield only texts or only Uint8Arrays, got both`);
    if (isBytes) pushBytes(chunk);
    else pushText(chunk);
  };

  const pushText = (chunk: string): void => {
    let from = 0;
    if (skipping) {
      from = chunk.indexOf("\n") + 1;
      if (from === 0) return;
      resume();
    }
    const cut = chunk.lastIndexOf("\n") + 1;
    if (cut > from) giveLines(takeText(chunk.slice(from, cut)));
    if (chunk.length > Math.max(from, cut)) hold(chunk.slice(Math.max(from, cut)));
  };

  const pushBytes = (chunk: Uint8Array): void => {
    let from = 0;
    if (skipping) {
      from = chunk.indexOf(NEWLINE) + 1;
      if (from === 0) return;
      resume();
    }
    const cut = chunk.lastIndexOf(NEWLINE) + 1;
    if (cut > from) {
      // the held line first, so that it alone decides whether it is too long
      const first = heldLength === 0 ? from : chunk.indexOf(NEWLINE, from) + 1;
      if (first > from) giveByteLines(takeBytes(chunk.subarray(from, first)));
      if (cut > first) giveByteLines(chunk.subarray(first, cut));
    }
    if (chunk.length > Math.max(from, cut)) hold(chunk.subarray(Math.max(from, cut)));
  };

  const resume = (): void => {
    skipping = false;
    heldLength = 0;
    number++;
  };

  const end = (): number => {
    if (skipping) return number;
    if (heldLength > 0) {
      if (bytes) giveByteLine(buffer.subarray(0, heldLength), false);
      else {
        const text = takeText("");
        give(text, 0, text.length, false);
      }
    }
    return number - 1;
  };

  return { push, end };
}

/** Where the lines end that fit into one text to decode, or the first line if it does not fit. */
function endOfLines(block: Uint8Array, from: number): number {
  const last = block.lastIndexOf(NEWLINE, from + DECODED - 1);
  return 1 + (last >= from ? last : block.indexOf(NEWLINE, from));
}

function decode(decoder: TextDecoder, block: Uint8Array): string | undefined {
  try {
    return decoder.decode(block);
  } catch {
    return undefined;
  }
}
