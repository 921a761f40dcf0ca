// Ways to damage a file. Each takes a text and gives another; `exact` ones change the text but not what it says.
import type { Random } from "../../src/math/random.js";

export interface Mutation {
  readonly name: string;
  /** Only for texts of this form; absent: for both. */
  readonly form?: "jsonl" | "csv";
  readonly exact?: true;
  mutate(text: string, random: Random): string;
}

/** Whole number in [0, n). */
export const below = (random: Random, n: number): number => Math.min(n - 1, Math.floor(random.uniform(0, n)));

const ODD_NUMBERS =
  'NaN Infinity -Infinity 1e999 -1e999 1e308 5e-324 1e-400 -0 0 -1 99999999999999999999 0.1e1 1. .5 +3 01 0x10 1_000 1,5 null true "5" 65535 12e 1e+ - -- 3.3.3 1e5e5 ١٢'.split(
    " ",
  );
const ODD_TEXTS = [
  "\ufeff",
  "\0",
  "\u2028",
  "é",
  "😀",
  "𝒳",
  "\u202e",
  "\\",
  '"',
  '""',
  "'",
  ",",
  ";",
  "\t",
  "\r",
  "\r\n",
  "\n",
  " ",
  "{",
  "}",
  "[",
  "]",
  "\\u0000",
  "\\ud800",
  "=1+1",
  "\ud800",
];
const ODD_VALUES = [
  "null",
  "true",
  "[]",
  "{}",
  '""',
  '"a"',
  "0",
  "-1",
  "1e999",
  "[1]",
  '[["a"]]',
  '{"__proto__":{"t":1}}',
  "[null,1]",
  '{"x":1}',
  "[[[[[[]]]]]]",
];
const FIELDS =
  "kind recording t x y tUp by code credited id tShown tGone shape at role type tStart tEnd goals block condition schema person startedAt equipment space device scale target __proto__ constructor toString length".split(
    " ",
  );

const splice = (text: string, at: number, remove: number, insert: string): string => text.slice(0, at) + insert + text.slice(at + remove);

function editLines(change: (lines: string[], random: Random) => void): Mutation["mutate"] {
  return (text, random) => {
    const lines = text.split("\n");
    change(lines, random);
    return lines.join("\n");
  };
}

const eachLine =
  (change: (line: string, i: number) => string): Mutation["mutate"] =>
  (text) =>
    text.split("\n").map(change).join("\n");

/** Replaces one match of a pattern, chosen at random. */
function editMatch(pattern: RegExp, change: (found: string, random: Random) => string): Mutation["mutate"] {
  return (text, random) => {
    const found = [...text.matchAll(pattern)];
    if (found.length === 0) return text;
    const match = random.pick(found);
    return splice(text, match.index, match[0].length, change(match[0], random));
  };
}

const NUMBERS = /(?<=[[,:\n]|^)-?\d[-+.\deE]*(?=[\],}\n]|$)/g;

export const MUTATIONS: readonly Mutation[] = [
  { name: "nothing", exact: true, mutate: (text) => text },
  {
    name: "line ends of Windows",
    exact: true,
    // in a quoted field of a table a line end is part of the text
    mutate: (text) => (text.startsWith("{") || !text.includes('"') ? text.replaceAll("\r\n", "\n").replaceAll("\n", "\r\n") : text),
  },
  { name: "byte order mark", exact: true, mutate: (text) => `\ufeff${text}` },
  { name: "empty lines at the end", exact: true, mutate: (text) => `${text}\n  \n\r\n` },
  {
    name: "character changed",
    mutate: (text, random) => splice(text, below(random, text.length), 1, String.fromCharCode(below(random, 128))),
  },
  { name: "character removed", mutate: (text, random) => splice(text, below(random, text.length), 1, "") },
  { name: "odd text inserted", mutate: (text, random) => splice(text, below(random, text.length + 1), 0, random.pick(ODD_TEXTS)) },
  { name: "quote inserted", mutate: (text, random) => splice(text, below(random, text.length + 1), 0, '"') },
  { name: "stretch removed", mutate: (text, random) => splice(text, below(random, text.length), below(random, 60), "") },
  {
    name: "stretch copied elsewhere",
    mutate: (text, random) => {
      const from = below(random, text.length);
      return splice(text, below(random, text.length), 0, text.slice(from, from + below(random, 200)));
    },
  },
  { name: "cut short", mutate: (text, random) => text.slice(0, below(random, text.length)) },
  { name: "cut within the last line", mutate: (text, random) => text.slice(0, Math.max(0, text.length - 1 - below(random, 30))) },
  { name: "line end missing at the end", mutate: (text) => text.replace(/\r?\n$/, "") },
  { name: "line removed", mutate: editLines((lines, random) => lines.splice(below(random, lines.length - 1), 1)) },
  { name: "line doubled", mutate: editLines((lines, random) => lines.splice(below(random, lines.length), 0, random.pick(lines))) },
  {
    name: "lines swapped",
    mutate: editLines((lines, random) => {
      const [a, b] = [below(random, lines.length), below(random, lines.length)];
      [lines[a], lines[b]] = [lines[b]!, lines[a]!];
    }),
  },
  { name: "lines in reverse", mutate: editLines((lines) => lines.reverse()) },
  { name: "garbage line", mutate: editLines((lines, random) => lines.splice(below(random, lines.length), 0, garbage(random, 40))) },
  { name: "all garbage", mutate: (_, random) => garbage(random, 400) },
  { name: "number replaced", mutate: editMatch(NUMBERS, (_, random) => random.pick(ODD_NUMBERS)) },
  { name: "number by number", mutate: editMatch(NUMBERS, (_, random) => String(random.normal(0, 10 ** below(random, 5)))) },
  { name: "numbers swapped", mutate: (text, random) => swapNumbers(text, random) },
  { name: "digits without end", mutate: editMatch(NUMBERS, (found, random) => found + "7".repeat(below(random, 3000))) },
  { name: "missing-value code", mutate: editMatch(NUMBERS, () => "65535") },
  { name: "line without end", mutate: (text, random) => `${text}${random.pick(["x", "[", '"', "1,", " "]).repeat(LONG)}` },
  {
    name: "line too long",
    mutate: editLines((lines, random) => lines.splice(below(random, lines.length), 0, random.pick(["x", "[", "9", "é"]).repeat(LONG))),
  },
  { name: "deep nesting", form: "jsonl", mutate: editMatch(NUMBERS, () => "[".repeat(9000) + "]".repeat(9000)) },
  {
    name: "deep nesting, open",
    form: "jsonl",
    mutate: editLines((lines, random) => lines.splice(below(random, lines.length), 0, '{"a":'.repeat(4000))),
  },
  { name: "field renamed", form: "jsonl", mutate: editMatch(/"\w+"(?=:)/g, (_, random) => JSON.stringify(random.pick(FIELDS))) },
  {
    name: "value replaced",
    form: "jsonl",
    mutate: editMatch(/(?<=":)("[^"]*"|-?\d[\d.e+-]*|\[[^[\]]*\])/g, (_, random) => random.pick(ODD_VALUES)),
  },
  {
    name: "field added",
    form: "jsonl",
    mutate: editMatch(/\{(?=")/g, (_, random) => `{"${random.pick(FIELDS)}":${random.pick(ODD_VALUES)},`),
  },
  { name: "field removed", form: "jsonl", mutate: editMatch(/"\w+":("[^"]*"|-?\d[\d.e+-]*|\[[^[\]]*\]),/g, () => "") },
  {
    name: "kind replaced",
    form: "jsonl",
    mutate: editMatch(/(?<="kind":")\w+/g, (_, random) => random.pick(["samples", "press", "mark", "recording", "session", "no"])),
  },
  { name: "entry removed", mutate: editMatch(/,[^,\n"]*(?=[,\]\n])/g, () => "") },
  { name: "entry added", mutate: editMatch(/,(?=-?\d)/g, () => ",7,") },
  {
    name: "text renamed",
    mutate: editMatch(/[a-z][a-z0-9-]{1,7}/g, (_, random) => random.pick(["a", "miss", "goal", "circle", "plane", "mm", "", "no"])),
  },
  {
    name: "header renamed",
    form: "csv",
    mutate: (text, random) => text.replace(/^.*/, (header) => header.replace(random.pick(header.split(",")), random.pick(FIELDS))),
  },
  { name: "header removed", form: "csv", mutate: (text) => text.replace(/^.*\n/, "") },
  { name: "header doubled", form: "csv", mutate: (text) => text.replace(/^.*\n/, (header) => header + header) },
  {
    name: "columns reversed",
    form: "csv",
    mutate: eachLine((line) => line.split(",").reverse().join()),
  },
  { name: "semicolons", form: "csv", mutate: (text) => text.replaceAll(",", ";") },
  { name: "spaces around fields", form: "csv", mutate: (text) => text.replaceAll(",", " , ") },
  {
    name: "all fields in quotes",
    form: "csv",
    mutate: eachLine((line) => line.replace(/[^,]+/g, '"$&"')),
  },
  { name: "extra column", form: "csv", mutate: eachLine((line, i) => line && `${line},${i}`) },
  { name: "two files in one", mutate: (text, random) => text + text.slice(below(random, text.length)) },
];

/** The longest line that the fuzzer allows, and one beyond it. */
export const LONGEST = 20_000;
const LONG = LONGEST + 5;

function garbage(random: Random, length: number): string {
  const begin = random.pick(["", "", "", " ,", ",", '"', "{"]);
  return (
    begin +
    Array.from({ length: 1 + below(random, length) }, () =>
      random.uniform() < 0.3 ? random.pick(ODD_TEXTS) : String.fromCharCode(32 + below(random, 95)),
    ).join("")
  );
}

function swapNumbers(text: string, random: Random): string {
  const found = [...text.matchAll(NUMBERS)];
  if (found.length < 2) return text;
  const at = below(random, found.length - 1);
  const [a, b] = [found[at]!, found[Math.min(found.length - 1, at + 1 + below(random, 4))]!];
  return text.slice(0, a.index) + b[0] + text.slice(a.index + a[0].length, b.index) + a[0] + text.slice(b.index + b[0].length);
}

/** Cuts a text or bytes at random borders. */
export function* pieces<T extends string | Uint8Array>(whole: T, random: Random): Generator<T> {
  const largest = random.pick([1, 3, 17, 200, 5000]);
  for (let from = 0; from < whole.length; ) {
    const to = Math.min(whole.length, from + 1 + below(random, whole.length > 5000 ? Math.max(largest, 500) : largest));
    yield whole.slice(from, to) as T;
    from = to;
  }
}
