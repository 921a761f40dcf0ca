const LINE_END = 10;
/** Enough of a line to see whether it begins a session. */
const LOOK = 64;
const SESSION_LINE = /^\ufeff?\s*\{\s*"kind"\s*:\s*"session"/;

/** One session's part of a stream of JSON Lines, and the line of the stream that it begins on. */
export interface SessionPart {
  readonly line: number;
  /** Bytes of this session alone. What is not read is passed over when the next part is asked for. */
  readonly pieces: AsyncIterable<Uint8Array>;
}

interface Piece {
  readonly bytes: Uint8Array;
  readonly begins: boolean;
  readonly line: number;
}

/** Cuts a stream before every line that begins a session, without holding more than one piece of it. */
export async function* splitSessions(source: AsyncIterable<Uint8Array | string>): AsyncGenerator<SessionPart> {
  const reader = cutPieces(source);
  let next = await reader.next();
  while (!next.done) {
    async function* pieces(): AsyncGenerator<Uint8Array> {
      do {
        yield (next.value as Piece).bytes;
        next = await reader.next();
      } while (!next.done && !next.value.begins);
    }
    const part = pieces();
    yield { line: next.value.line, pieces: { [Symbol.asyncIterator]: () => ({ next: () => part.next() }) } };
    // whatever the reader left: a refused session must not swallow the one after it
    while (!(await part.next()).done);
  }
}

/** Pieces of the stream, none of which reaches across the beginning of a session. */
async function* cutPieces(source: AsyncIterable<Uint8Array | string>): AsyncGenerator<Piece, undefined> {
  let carry: Uint8Array = new Uint8Array(0);
  let startsLine = true;
  let line = 1;
  for await (const { bytes: more, last } of withEnd(source)) {
    const bytes = joined(carry, more);
    const { starts, end } = lineStarts(bytes, startsLine, last);
    let from = 0;
    let begins = false;
    let at = line;
    for (const [k, start] of starts.entries()) {
      if (!SESSION_LINE.test(beginning(bytes, start))) continue;
      if (start > from) yield { bytes: bytes.subarray(from, start), begins, line: at };
      from = start;
      begins = true;
      at = line + k + (startsLine ? 0 : 1);
    }
    if (end > from) yield { bytes: bytes.subarray(from, end), begins, line: at };
    for (let i = bytes.indexOf(LINE_END); i !== -1 && i < end; i = bytes.indexOf(LINE_END, i + 1)) line++;
    if (end > 0) startsLine = bytes[end - 1] === LINE_END;
    carry = bytes.slice(end);
  }
  return undefined;
}

async function* withEnd(
  source: AsyncIterable<Uint8Array | string>,
): AsyncGenerator<{ readonly bytes: Uint8Array; readonly last: boolean }> {
  const encoder = new TextEncoder();
  for await (const piece of source) yield { bytes: typeof piece === "string" ? encoder.encode(piece) : piece, last: false };
  yield { bytes: new Uint8Array(0), last: true };
}

/** Where lines begin, and up to where the bytes can be told: a line of which too little is there yet is left for the next piece. */
function lineStarts(bytes: Uint8Array, startsLine: boolean, last: boolean): { readonly starts: readonly number[]; readonly end: number } {
  const starts = startsLine && bytes.length > 0 ? [0] : [];
  for (let i = bytes.indexOf(LINE_END); i !== -1 && i + 1 < bytes.length; i = bytes.indexOf(LINE_END, i + 1)) starts.push(i + 1);
  const latest = starts[starts.length - 1];
  const undecided = !last && latest !== undefined && bytes.length - latest < LOOK && bytes.indexOf(LINE_END, latest) === -1;
  return undecided ? { starts: starts.slice(0, -1), end: latest } : { starts, end: bytes.length };
}

function beginning(bytes: Uint8Array, start: number): string {
  return new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes.subarray(start, start + LOOK));
}

function joined(one: Uint8Array, other: Uint8Array): Uint8Array {
  if (one.length === 0) return other;
  const both = new Uint8Array(one.length + other.length);
  both.set(one);
  both.set(other, one.length);
  return both;
}
