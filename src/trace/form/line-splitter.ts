import { show } from "../../math/require.js";

/** Takes lines one by one. */
export interface LineSink {
  /** A line from `start` to `end` of `text`, its end (`\n` or `\r\n`) left out. `whole`: there was a line end. */
  line(text: string, start: number, end: number, number: number, whole: boolean): void;
  /** A line that cannot be read as text, or is longer than allowed. */
  unreadable(number: number, why: "tooLong" | "notUtf8", whole: boolean): void;
}

/**
 * Cuts text or UTF-8 bytes that come in pieces of any size into lines. Holds no more than the line that is not complete yet, and of
 * one that is too long nothing. Bytes are split at the newline byte, which UTF-8 uses for nothing else, and decoded afterwards: a piece may
 * end anywhere. Data for functions that stand alone, since the code of closures that are made anew for every text is compiled anew, too.
 */
export interface LineSplitter {
  readonly where: string;
  readonly maxLength: number;
  readonly sink: LineSink;
  readonly decoder: TextDecoder;
  /** Whether the pieces are bytes, once the first has come. */
  bytes: boolean | undefined;
  /** The beginning of a line that is not complete yet: pieces of text, or bytes in a buffer with room to spare. */
  pieces: string[];
  buffer: Uint8Array;
  heldLength: number;
  /** Of the line to come, from 1. */
  number: number;
  skipping: boolean;
}

const NEWLINE = 10;
/** Bytes that are decoded at a time, whole lines: a longer text would be given pages of its own, which take longer to get than the text to decode. */
const DECODED = 2 ** 16;

/** A splitter that has seen nothing yet; `where` begins its messages. */
export function createLineSplitter(where: string, maxLength: number, sink: LineSink): LineSplitter {
  const decoder = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
  const nothing = { bytes: undefined, pieces: [], buffer: new Uint8Array(0), heldLength: 0 };
  return { where, maxLength, sink, decoder, ...nothing, number: 1, skipping: false };
}

/** Takes the next piece. */
export function pushPiece(splitter: LineSplitter, piece: string | Uint8Array): void {
  const { where } = splitter;
  const isBytes = piece instanceof Uint8Array;
  if (!isBytes && typeof piece !== "string") throw new TypeError(`${where}: source must yield texts or Uint8Arrays, got ${show(piece)}`);
  splitter.bytes ??= isBytes;
  if (splitter.bytes !== isBytes) throw new TypeError(`${where}: source must yield only texts or only Uint8Arrays, got both`);
  if (isBytes) pushBytes(splitter, piece);
  else pushText(splitter, piece);
}

/** Gives the last line when it has no end, and says how many lines there were. */
export function endLines(splitter: LineSplitter): number {
  const { skipping, heldLength, bytes, buffer } = splitter;
  if (skipping) return splitter.number;
  if (heldLength > 0) {
    if (bytes) giveByteLine(splitter, buffer.subarray(0, heldLength), false);
    else {
      const text = takeText(splitter, "");
      give(splitter, text, 0, text.length, false);
    }
  }
  return splitter.number - 1;
}

function pushText(splitter: LineSplitter, piece: string): void {
  let from = 0;
  if (splitter.skipping) {
    from = piece.indexOf("\n") + 1;
    if (from === 0) return;
    resume(splitter);
  }
  const cut = piece.lastIndexOf("\n") + 1;
  if (cut > from) giveLines(splitter, takeText(splitter, piece.slice(from, cut)));
  if (piece.length > Math.max(from, cut)) hold(splitter, piece.slice(Math.max(from, cut)));
}

function pushBytes(splitter: LineSplitter, piece: Uint8Array): void {
  let from = 0;
  if (splitter.skipping) {
    from = piece.indexOf(NEWLINE) + 1;
    if (from === 0) return;
    resume(splitter);
  }
  const cut = piece.lastIndexOf(NEWLINE) + 1;
  if (cut > from) {
    // the held line first, so that it alone decides whether it is too long
    const first = splitter.heldLength === 0 ? from : piece.indexOf(NEWLINE, from) + 1;
    if (first > from) giveByteLines(splitter, takeBytes(splitter, piece.subarray(from, first)));
    if (cut > first) giveByteLines(splitter, piece.subarray(first, cut));
  }
  if (piece.length > Math.max(from, cut)) hold(splitter, piece.subarray(Math.max(from, cut)));
}

function resume(splitter: LineSplitter): void {
  splitter.skipping = false;
  splitter.heldLength = 0;
  splitter.number++;
}

/** Whole lines; the text ends in a newline. */
function giveLines(splitter: LineSplitter, text: string): void {
  for (let from = 0; from < text.length; ) {
    const to = text.indexOf("\n", from);
    give(splitter, text, from, to, true);
    from = to + 1;
  }
}

function give(splitter: LineSplitter, text: string, from: number, to: number, whole: boolean): void {
  const { number, maxLength, sink } = splitter;
  const start = number === 1 && text.charCodeAt(from) === 0xfeff ? from + 1 : from;
  const end = to > start && text.charCodeAt(to - 1) === 13 ? to - 1 : to;
  if (end - start > maxLength) sink.unreadable(number, "tooLong", whole);
  else sink.line(text, start, end, number, whole);
  splitter.number++;
}

/** Whole lines. */
function giveByteLines(splitter: LineSplitter, block: Uint8Array): void {
  for (let from = 0; from < block.length; ) {
    const to = block.length - from <= DECODED ? block.length : endOfLines(block, from);
    giveDecoded(splitter, block.subarray(from, to));
    from = to;
  }
}

function giveDecoded(splitter: LineSplitter, block: Uint8Array): void {
  const text = decode(splitter.decoder, block);
  if (text !== undefined) {
    giveLines(splitter, text);
    return;
  }
  for (let from = 0; from < block.length; ) {
    const to = block.indexOf(NEWLINE, from);
    giveByteLine(splitter, block.subarray(from, to), true);
    from = to + 1;
  }
}

function giveByteLine(splitter: LineSplitter, line: Uint8Array, whole: boolean): void {
  const isTooLong = line.length > limit(splitter);
  const text = isTooLong ? undefined : decode(splitter.decoder, line);
  if (text !== undefined) give(splitter, text, 0, text.length, whole);
  else splitter.sink.unreadable(splitter.number++, isTooLong ? "tooLong" : "notUtf8", whole);
}

/** Beyond this, an incomplete line is too long for sure: a character takes at most 3 bytes, and a BOM and `\r` do not count. */
function limit({ bytes, maxLength }: LineSplitter): number {
  return bytes ? 3 * maxLength + 8 : maxLength + 2;
}

function hold(splitter: LineSplitter, rest: string | Uint8Array): void {
  const length = splitter.heldLength + rest.length;
  if (length > limit(splitter)) {
    splitter.sink.unreadable(splitter.number, "tooLong", true);
    splitter.skipping = true;
    splitter.pieces = [];
    splitter.buffer = new Uint8Array(0);
    return;
  }
  if (typeof rest === "string") splitter.pieces.push(rest);
  else store(splitter, rest);
  splitter.heldLength = length;
}

function store(splitter: LineSplitter, rest: Uint8Array): void {
  const { buffer, heldLength } = splitter;
  const length = heldLength + rest.length;
  if (length > buffer.length) {
    splitter.buffer = new Uint8Array(Math.max(length, 2 * buffer.length));
    splitter.buffer.set(buffer.subarray(0, heldLength));
  }
  // copied: whoever sent the bytes may use their room again
  splitter.buffer.set(rest, heldLength);
}

/** What is held and the text after it; nothing is held any more. */
function takeText(splitter: LineSplitter, rest: string): string {
  const { pieces } = splitter;
  const text = pieces.length === 0 ? rest : pieces.join("") + rest;
  splitter.pieces = [];
  splitter.heldLength = 0;
  return text;
}

function takeBytes(splitter: LineSplitter, rest: Uint8Array): Uint8Array {
  const { heldLength } = splitter;
  if (heldLength === 0) return rest;
  store(splitter, rest);
  splitter.heldLength = 0;
  return splitter.buffer.subarray(0, heldLength + rest.length);
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
