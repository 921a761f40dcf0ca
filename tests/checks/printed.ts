// Compares a value with the way a documentation example prints it: `{ ok: true, value: 12.0497, … }`.
//
// - a number with decimals or an exponent: within half a unit of its last digit; a whole number: itself, rounding noise aside
// - `…` or `...` inside an object or array: there may be more; alone: anything; inside a string: any text
// - `Float64Array [0, 1]`, `Float64Array(2) [0, 1]`: that kind of column; a plain list also accepts a column
// - `RangeError: text` in place of a value: the expression throws that error and its message contains the text

export type Printed =
  | { readonly kind: "any" }
  | { readonly kind: "exact"; readonly value: string | number | boolean | null | undefined }
  | { readonly kind: "rounded"; readonly value: number; readonly within: number; readonly text: string }
  | { readonly kind: "text"; readonly parts: readonly string[] }
  | { readonly kind: "list"; readonly type: string; readonly entries: readonly Printed[]; readonly gap: number | undefined }
  | { readonly kind: "object"; readonly fields: ReadonlyMap<string, Printed>; readonly partial: boolean }
  | { readonly kind: "error"; readonly type: string; readonly message: string };

const ELLIPSIS = /^(…|\.\.\.)/;
/** What arithmetic may leave on a whole number, relative to it. */
const NOISE = 1e-9;
const WORDS: Readonly<Record<string, number | boolean | null | undefined>> = {
  true: true,
  false: false,
  null: null,
  undefined: undefined,
  NaN: Number.NaN,
  Infinity: Number.POSITIVE_INFINITY,
  "-Infinity": Number.NEGATIVE_INFINITY,
};

/** Reads a printed value; throws a SyntaxError that says where it stopped making sense. */
export function parsePrinted(text: string): Printed {
  const error = /^(\w*Error)(?::\s*(.*))?$/s.exec(text.trim());
  if (error) return { kind: "error", type: error[1]!, message: error[2] ?? "" };
  let at = 0;
  const value = readValue();
  skip();
  if (at < text.length) fail("the end");
  return value;

  function readValue(): Printed {
    skip();
    if (take(ELLIPSIS)) return { kind: "any" };
    const column = take(/^(\w+Array)\s*(\(\d+\))?\s*(?=\[)/);
    if (column) return readList(column[1]!);
    if (text[at] === "[") return readList("");
    if (text[at] === "{") return readObject();
    if (text[at] === '"' || text[at] === "'") return readText();
    const number = take(/^[-+]?\d[\d_]*(\.\d+)?([eE][-+]?\d+)?(?![\w.])/);
    if (number) return toNumber(number[0], number[1], number[2]);
    const word = take(/^-?[A-Za-z]+\b/)?.[0];
    if (word !== undefined && word in WORDS) return { kind: "exact", value: WORDS[word]! };
    return fail("a value");
  }

  function readList(type: string): Printed {
    at++;
    const entries: Printed[] = [];
    let gap: number | undefined;
    for (skip(); text[at] !== "]"; skip()) {
      if (take(ELLIPSIS)) gap = entries.length;
      else entries.push(readValue());
      skip();
      if (text[at] === ",") at++;
      else if (text[at] !== "]") fail('"," or "]"');
    }
    at++;
    return { kind: "list", type, entries, gap };
  }

  function readObject(): Printed {
    at++;
    const fields = new Map<string, Printed>();
    let partial = false;
    for (skip(); text[at] !== "}"; skip()) {
      if (take(ELLIPSIS)) partial = true;
      else {
        const key = take(/^(?:([A-Za-z_$][\w$]*)|"([^"]*)"|'([^']*)'|(\d+))\s*:/);
        if (!key) return fail("a key");
        fields.set(key[1] ?? key[2] ?? key[3] ?? key[4]!, readValue());
      }
      skip();
      if (text[at] === ",") at++;
      else if (text[at] !== "}") fail('"," or "}"');
    }
    at++;
    return { kind: "object", fields, partial };
  }

  function readText(): Printed {
    const quoted = take(/^"((?:[^"\\]|\\.)*)"|^'((?:[^'\\]|\\.)*)'/);
    if (!quoted) return fail("a closing quote");
    const value = (quoted[1] ?? quoted[2]!).replace(/\\(.)/g, (_, letter: string) =>
      letter === "n" ? "\n" : letter === "t" ? "\t" : letter,
    );
    return value.includes("…") ? { kind: "text", parts: value.split("…") } : { kind: "exact", value };
  }

  function take(pattern: RegExp): RegExpExecArray | null {
    const match = pattern.exec(text.slice(at));
    if (match) at += match[0].length;
    return match;
  }

  function skip(): void {
    while (at < text.length && /\s/.test(text[at]!)) at++;
  }

  function fail(wanted: string): never {
    throw new SyntaxError(`expected ${wanted} at ${JSON.stringify(text.slice(at, at + 20))} of ${JSON.stringify(text)}`);
  }
}

function toNumber(text: string, decimals: string | undefined, exponent: string | undefined): Printed {
  const value = Number(text.replaceAll("_", ""));
  if (decimals === undefined && exponent === undefined) return { kind: "rounded", value, within: NOISE * Math.abs(value), text };
  const power = Number((exponent ?? "e0").slice(1)) - ((decimals?.length ?? 1) - 1);
  // a hair more than half, so that a digit rounded half up still fits in binary
  return { kind: "rounded", value, within: 0.5000001 * 10 ** power, text };
}

/** What differs between a value and its printed form, one line each; empty when it fits. */
export function differences(actual: unknown, printed: Printed, path = "value"): string[] {
  const wrong = (wanted: string): string[] => [`${path}: expected ${wanted}, got ${show(actual)}`];
  switch (printed.kind) {
    case "any":
      return [];
    case "error":
      return wrong(`${printed.type} to be thrown`);
    case "exact":
      // minus zero prints as zero
      return Object.is(actual, printed.value) || actual === printed.value ? [] : wrong(show(printed.value));
    case "rounded":
      return typeof actual === "number" && Math.abs(actual - printed.value) <= printed.within ? [] : wrong(printed.text);
    case "text":
      return typeof actual === "string" && inOrder(actual, printed.parts) ? [] : wrong(JSON.stringify(printed.parts.join("…")));
    case "list":
      return listDifferences(actual, printed, path);
    case "object":
      return objectDifferences(actual, printed, path);
  }
}

/** Runs an expression and says how its value, or the error it throws, differs from its printed form. */
export async function comparePrinted(run: () => unknown, text: string): Promise<string[]> {
  const printed = parsePrinted(text);
  if (printed.kind !== "error") return differences(await run(), printed);
  try {
    return differences(await run(), printed);
  } catch (error) {
    const { name, message } = error as Error;
    return name === printed.type && message.includes(printed.message) ? [] : [`value: expected ${text}, got ${name}: ${message}`];
  }
}

function listDifferences(actual: unknown, { type, entries, gap }: Extract<Printed, { kind: "list" }>, path: string): string[] {
  const isColumn = ArrayBuffer.isView(actual) && !(actual instanceof DataView);
  if (!(Array.isArray(actual) || isColumn)) return [`${path}: expected a list, got ${show(actual)}`];
  if (type !== "" && actual.constructor.name !== type) return [`${path}: expected a ${type}, got ${actual.constructor.name}`];
  const values = Array.from(actual as ArrayLike<unknown>);
  if (gap === undefined ? values.length !== entries.length : values.length < entries.length) {
    return [`${path}: expected ${gap === undefined ? "" : "at least "}${entries.length} entries, got ${values.length}`];
  }
  // entries after the ellipsis are the last ones
  const shift = values.length - entries.length;
  return entries.flatMap((entry, i) => {
    const at = gap !== undefined && i >= gap ? i + shift : i;
    return differences(values[at], entry, `${path}[${at}]`);
  });
}

function objectDifferences(actual: unknown, { fields, partial }: Extract<Printed, { kind: "object" }>, path: string): string[] {
  if (actual === null || typeof actual !== "object" || Array.isArray(actual)) return [`${path}: expected an object, got ${show(actual)}`];
  const found = actual as Record<string, unknown>;
  const differing = [...fields].flatMap(([key, value]) => differences(found[key], value, `${path}.${key}`));
  if (partial) return differing;
  const extra = Object.keys(found).filter((key) => !fields.has(key) && found[key] !== undefined);
  return [...differing, ...extra.map((key) => `${path}.${key}: is not in the example, got ${show(found[key])}`)];
}

function inOrder(text: string, parts: readonly string[]): boolean {
  if (!text.startsWith(parts[0]!) || !text.endsWith(parts.at(-1)!)) return false;
  let at = 0;
  for (const part of parts) {
    const found = text.indexOf(part, at);
    if (found < 0) return false;
    at = found + part.length;
  }
  return true;
}

function show(value: unknown): string {
  if (typeof value === "number" || value === undefined) return String(value);
  if (typeof value === "function") return "a function";
  if (ArrayBuffer.isView(value) && !(value instanceof DataView)) return `${value.constructor.name} [${String(value).slice(0, 80)}]`;
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 300 ? `${text.slice(0, 300)}…` : text;
}
