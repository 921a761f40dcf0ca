import { show } from "../../math/require.js";

// Records and fields as RFC 4180 section 2 has them: fields between commas, in double quotes where they hold a comma, a quote or a line
// break, a quote inside written twice, the last line break optional. Line ends are \r\n or \n.

export interface CsvRecord {
  readonly fields: readonly string[];
  /** Which fields stood in quotes: `""` is an empty text, nothing at all is no value. */
  readonly quoted: readonly boolean[];
  /** Offset at which each field begins. */
  readonly at: readonly number[];
  /** Offset at which the record ends, before its line end. */
  readonly end: number;
  /** Offset of the next record. After a mistake: of the next line, so that one stray quote does not take the rest of the table along. */
  readonly next: number;
  /** A line end follows. */
  readonly whole: boolean;
  /** A mistake in the quotes. */
  readonly wrong?: { readonly at: number; readonly must: string; readonly got: string };
}

const QUOTE = 34;
const COMMA = 44;
const NEWLINE = 10;
const RETURN = 13;

/** The record that begins at `from`. */
export function readRecord(text: string, from: number): CsvRecord {
  const fields: string[] = [];
  const quoted: boolean[] = [];
  const at: number[] = [];
  const mistake = (wrongAt: number, must: string, got: string): CsvRecord => {
    const newline = text.indexOf("\n", from);
    const end = newline < 0 ? text.length : newline;
    return { fields, quoted, at, end, next: Math.min(text.length, end + 1), whole: newline >= 0, wrong: { at: wrongAt, must, got } };
  };
  for (let pos = from; ; pos++) {
    at.push(pos);
    const inQuotes = text.charCodeAt(pos) === QUOTE;
    quoted.push(inQuotes);
    if (inQuotes) {
      const closing = closingQuote(text, pos + 1);
      if (closing < 0) return mistake(pos, "have its closing quote", "none");
      fields.push(text.slice(pos + 1, closing).replaceAll('""', '"'));
      pos = closing + 1;
      if (!endsField(text, pos)) return mistake(pos, "end at its closing quote", show(text.slice(pos, pos + 10)));
    } else {
      const begin = pos;
      for (; !endsField(text, pos); pos++) {
        if (text.charCodeAt(pos) === QUOTE) return mistake(pos, "begin with a quote to hold one", show(text.slice(begin, pos + 1)));
      }
      fields.push(text.slice(begin, pos));
    }
    if (text.charCodeAt(pos) === COMMA) continue;
    const end = pos;
    if (text.charCodeAt(pos) === RETURN) pos++;
    const whole = pos < text.length;
    return { fields, quoted, at, end, next: whole ? pos + 1 : text.length, whole };
  }
}

/** A field as it is written; one that could be read as something else goes into quotes. */
export function csvField(text: string): string {
  return text === "" || /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Offset of the quote that closes a field, or -1. */
function closingQuote(text: string, from: number): number {
  for (let at = text.indexOf('"', from); at >= 0; at = text.indexOf('"', at + 2)) {
    if (text.charCodeAt(at + 1) !== QUOTE) return at;
  }
  return -1;
}

/** Comma, line end or end of text. A \r counts only before \n or the end of the text. */
function endsField(text: string, pos: number): boolean {
  const code = text.charCodeAt(pos);
  if (code === RETURN) return pos + 1 >= text.length || text.charCodeAt(pos + 1) === NEWLINE;
  return code === COMMA || code === NEWLINE || pos >= text.length;
}
