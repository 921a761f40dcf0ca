const LINE_END = 10;
const TOKEN = '"session"';
/** A line that is longer cannot begin a session within a stream: lines of a session are a few hundred bytes. Bounds what is held. */
const LONGEST_HEAD = 2 ** 20;
const ANY_HEAD = /\{\s*"kind"\s*:\s*"session"/;
/** As bytes, one character each; the three at the front are a byte order mark. */
const STARTS_AS_HEAD = /^(?:\xef\xbb\xbf)?\s*\{\s*"kind"\s*:\s*"session"/;

/** One session's part of a stream of JSON Lines, and the line of the stream that it begins on. */
export interface SessionPart {
  readonly line: number;
  /** Bytes of this session alone. What is not read is passed over when the next part is asked for. */
  readonly pieces: AsyncIterable<Uint8Array>;
}

/** Bytes of one session, the first of which stand on `line`. */
interface Piece {
  readonly bytes: Buffer;
  readonly session: number;
  readonly line: number;
}

/** Cuts a stream before every line that begins a session. Holds one piece of it, and the line that is not complete yet up to 1 MiB. */
export async function* splitSessions(source: AsyncIterable<Uint8Array | string>): AsyncGenerator<SessionPart> {
  const reader = cutPieces(source);
  try {
    let next = await reader.next();
    while (!next.done) {
      const { session, line } = next.value;
      const belongs = (): boolean => !next.done && next.value.session === session;
      async function* pieces(): AsyncGenerator<Uint8Array> {
        for (; belongs(); next = await reader.next()) yield (next.value as Piece).bytes;
      }
      yield { line, pieces: pieces() };
      // whatever the reader left: a refused session must not swallow the one after it
      while (belongs()) next = await reader.next();
    }
  } finally {
    await reader.return(undefined);
  }
}

/** Pieces of the stream, none of which reaches across the beginning of a session. */
async function* cutPieces(source: AsyncIterable<Uint8Array | string>): AsyncGenerator<Piece, undefined> {
  let session = 0;
  let line = 1;
  let hasContent = false;
  for await (const { bytes, inLine } of wholeLines(source)) {
    const starts = headStarts(bytes, inLine);
    for (let from = 0, k = 0; from < bytes.length; k++) {
      // empty lines before the first session belong to it
      if (k > 0 && hasContent) session++;
      if (k > 0) hasContent = false;
      const part = bytes.subarray(from, starts[k] ?? bytes.length);
      if (part.length > 0) yield { bytes: part, session, line };
      hasContent ||= part.some(shows);
      line += countLineEnds(part);
      from += part.length;
      if (starts[k] === undefined) break;
    }
  }
  return undefined;
}

/** Blocks of whole lines; a line that is too long to begin a session comes in several blocks, all but the first of which begin within it. */
async function* wholeLines(
  source: AsyncIterable<Uint8Array | string>,
): AsyncGenerator<{ readonly bytes: Buffer; readonly inLine: boolean }> {
  let held: Buffer[] = [];
  let length = 0;
  let inLine = false;
  for await (const piece of source) {
    const bytes = typeof piece === "string" ? Buffer.from(piece) : Buffer.from(piece.buffer, piece.byteOffset, piece.length);
    const end = bytes.lastIndexOf(LINE_END) + 1;
    const passes: boolean = end === 0 && (inLine || length + bytes.length > LONGEST_HEAD);
    if (end > 0 || passes) {
      yield { bytes: joined(held, passes ? bytes : bytes.subarray(0, end)), inLine };
      inLine = passes;
      held = [];
      length = 0;
    }
    const rest = passes ? bytes.subarray(bytes.length) : bytes.subarray(end);
    if (rest.length === 0) continue;
    // copied: whoever sent the bytes may use their room again
    held.push(Buffer.from(rest));
    length += rest.length;
  }
  if (length > 0) yield { bytes: joined(held, Buffer.alloc(0)), inLine };
}

/** Where sessions begin in a block of lines. */
function headStarts(bytes: Buffer, inLine: boolean): number[] {
  const starts: number[] = [];
  const first = inLine ? bytes.indexOf(LINE_END) + 1 || bytes.length : 0;
  for (let at = bytes.indexOf(TOKEN, first); at !== -1; ) {
    const from = bytes.lastIndexOf(LINE_END, at) + 1;
    const end = bytes.indexOf(LINE_END, at);
    const to = end === -1 ? bytes.length : end;
    const head = headIn(bytes.toString("latin1", from, to));
    if (head !== undefined) starts.push(from + head);
    at = bytes.indexOf(TOKEN, to);
  }
  return starts;
}

/**
 * Where in a line a session begins: at its start, with its fields in any order, or behind the cut last line of the file before, which has no line end to keep
 * them apart.
 */
function headIn(line: string): number | undefined {
  if (STARTS_AS_HEAD.test(line)) return 0;
  const kind = kindOf(line);
  if (kind !== undefined) return kind === "session" ? 0 : undefined;
  const glued = line.search(ANY_HEAD);
  return glued > 0 && kindOf(line.slice(glued)) === "session" ? glued : undefined;
}

/** The kind of a line that is one whole object; `undefined` for anything else. */
function kindOf(line: string): unknown {
  try {
    return (JSON.parse(line.replace(/^\xef\xbb\xbf/, "")) as { kind?: unknown } | null)?.kind ?? null;
  } catch {
    return undefined;
  }
}

/** Whether a byte is more than a space, a line end or part of a byte order mark. */
function shows(byte: number): boolean {
  return byte > 32 && byte !== 0xef && byte !== 0xbb && byte !== 0xbf;
}

function countLineEnds(bytes: Buffer): number {
  let count = 0;
  for (let i = bytes.indexOf(LINE_END); i !== -1; i = bytes.indexOf(LINE_END, i + 1)) count++;
  return count;
}

function joined(held: readonly Buffer[], last: Buffer): Buffer {
  return held.length === 0 ? last : Buffer.concat([...held, last]);
}
