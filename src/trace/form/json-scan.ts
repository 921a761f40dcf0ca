import type { Path } from "./problem.js";

// What JSON.parse does not tell about a line: where a value stands, where the first mistake is, and whether a field comes twice in one
// object (it keeps the last in silence). Walks without recursion, so that deep nesting cannot exhaust the stack.
// Source of the grammar: RFC 8259, recalled.

/** Offsets are in UTF-16 units from the start of the text. */
export interface JsonScan {
  /** Where the wanted value begins; absent when it is not there. */
  readonly at?: number;
  /** Where the text stops being JSON; absent when all of it is. */
  readonly wrongAt?: number;
  /** The first field given twice in one object, and where it comes again. */
  readonly twice?: { readonly field: string; readonly at: number };
}

/** An object or list that is being walked. */
interface Level {
  /** Absent for a list. */
  readonly fields?: Set<string>;
  step: string | number;
}

const QUOTE = 34;
const BACKSLASH = 92;

export function scanJson(text: string, wanted: Path = []): JsonScan {
  const levels: Level[] = [];
  let found: number | undefined;
  let twice: JsonScan["twice"];
  let pos = skipSpace(text, 0);
  const end = (wrongAt?: number): JsonScan => ({
    ...(found === undefined ? {} : { at: found }),
    ...(wrongAt === undefined ? {} : { wrongAt }),
    ...(twice === undefined ? {} : { twice }),
  });
  for (;;) {
    // a value begins here
    if (found === undefined && levels.length === wanted.length && levels.every(({ step }, i) => step === wanted[i])) found = pos;
    const opening = text[pos];
    let closed = true;
    if (opening === "{" || opening === "[") {
      const isList = opening === "[";
      levels.push(isList ? { step: 0 } : { step: "", fields: new Set() });
      pos = skipSpace(text, pos + 1);
      if (text[pos] === (isList ? "]" : "}")) {
        levels.pop();
        pos++;
      } else closed = false;
    } else {
      const after = opening === '"' ? afterString(text, pos) : afterWord(text, pos);
      if (after < 0) return end(pos);
      pos = after;
    }
    // what follows a value: the ends of the levels around it, then a comma
    while (closed) {
      pos = skipSpace(text, pos);
      const level = levels.at(-1);
      if (!level) return pos === text.length ? end() : end(pos);
      const mark = text[pos];
      if (mark === ",") {
        closed = false;
        if (!level.fields) level.step = (level.step as number) + 1;
      } else if (mark === (level.fields ? "}" : "]")) levels.pop();
      else return end(pos);
      pos = skipSpace(text, pos + 1);
    }
    const level = levels.at(-1)!;
    if (!level.fields) continue;
    const after = text.charCodeAt(pos) === QUOTE ? afterString(text, pos) : -1;
    if (after < 0) return end(pos);
    const field = JSON.parse(text.slice(pos, after)) as string;
    if (level.fields.has(field)) twice ??= { field, at: pos };
    level.fields.add(field);
    level.step = field;
    pos = skipSpace(text, after);
    if (text[pos] !== ":") return end(pos);
    pos = skipSpace(text, pos + 1);
  }
}

/** Offset of the element of a list after the one that begins at `from`. Only for JSON that was read. */
export function nextElement(text: string, from: number): number {
  let depth = 0;
  for (let pos = from; pos < text.length; pos++) {
    const mark = text[pos];
    if (mark === '"') pos = afterString(text, pos) - 1;
    else if (mark === "[" || mark === "{") depth++;
    else if (mark === "]" || mark === "}") depth--;
    else if (mark === "," && depth === 0) return skipSpace(text, pos + 1);
  }
  return from;
}

function skipSpace(text: string, from: number): number {
  let pos = from;
  for (;;) {
    const code = text.charCodeAt(pos);
    if (code !== 32 && code !== 9 && code !== 10 && code !== 13) return pos;
    pos++;
  }
}

/** Offset after the string that begins at `from`, or -1. A loop: a pattern would keep a way back for every character. */
function afterString(text: string, from: number): number {
  let pos = from + 1;
  for (;;) {
    const code = text.charCodeAt(pos);
    if (code === QUOTE) return pos + 1;
    // control characters; and NaN, beyond the end
    if (!(code >= 32)) return -1;
    if (code === BACKSLASH) {
      const length = /^\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/.exec(text.slice(pos, pos + 6))?.[0].length;
      if (length === undefined) return -1;
      pos += length;
    } else pos++;
  }
}

/** Offset after the number, `true`, `false` or `null` that begins at `from`, or -1. */
function afterWord(text: string, from: number): number {
  let pos = from;
  // letters, digits, and the signs + - . all lie between "+" and "z", and none of JSON's own marks but ] [ , : does
  for (let code = text.charCodeAt(pos); code >= 43 && code <= 122 && code !== 44 && code !== 58 && code !== 91 && code !== 93; ) {
    code = text.charCodeAt(++pos);
  }
  return /^(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][-+]?\d+)?|true|false|null)$/.test(text.slice(from, pos)) ? pos : -1;
}
