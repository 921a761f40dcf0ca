import { FUNCTION_NAMES } from "../program/operations.js";

/** Longer than any law of practice; keeps the time and the memory that a text can cost small. */
const MOST_CHARACTERS = 400;
const MOST_BRACKETS = 24;
const MOST_PARAMETERS = 12;
/** One piece of a formula: a number, a name, or a sign. Spaces before it are skipped. */
const PIECE = /\s*(?:((?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)|([A-Za-z]\w*)|([-+*/^(),]))/y;
const NAME = /^[A-Za-z]\w*$/;
const ALLOWED = `numbers, names, + - * / ^, round brackets, pi and the functions ${FUNCTION_NAMES.join(", ")}`;

/** A formula whose pieces are all allowed, under names that mean nothing to anyone. */
export interface ReadFormula {
  /** Names of the parameters, in the order in which they first appear. */
  readonly parameters: readonly string[];
  /** The same formula with `x` for the practice, `p0`, `p1`, ... for the parameters and `k` for pi. */
  readonly plain: string;
  /** For each character of `plain` the place in the text that was read. */
  readonly places: readonly number[];
}

/**
 * Cuts a text into numbers, names and signs, refuses everything else, and renames what it keeps, so that nothing the writer chose but numbers and
 * the order of signs reaches the parser.
 */
export function readFormula(where: string, text: string, practice: string): ReadFormula {
  if (text.trim() === "" || text.length > MOST_CHARACTERS) {
    throw new RangeError(`${where}: text must be a formula of at most ${MOST_CHARACTERS} characters, got ${text.length}`);
  }
  const parameters: string[] = [];
  const places: number[] = [];
  let plain = "";
  // open brackets, each with the function it belongs to and the arguments seen
  const open: { name: string; arguments: number }[] = [];
  let called = "";
  let afterOperand = false;
  let hasPractice = false;
  const add = (piece: string, at: number): void => {
    for (let i = 0; i < piece.length; i++) places.push(at);
    plain += piece;
  };
  const end = text.trimEnd().length;
  for (PIECE.lastIndex = 0; PIECE.lastIndex < end; ) {
    const from = PIECE.lastIndex;
    const match = PIECE.exec(text);
    if (match === null) throw refusal(where, text, from + /^\s*/.exec(text.slice(from))![0].length, `must hold only ${ALLOWED}`);
    const [whole, number, name, sign] = match;
    const at = from + whole.length - (number ?? name ?? sign)!.length;
    const opens = number !== undefined || name !== undefined || sign === "(";
    if (opens && afterOperand) throw refusal(where, text, at, "must say * for a product");
    afterOperand = opens && sign === undefined ? true : sign === ")";
    if (number !== undefined) {
      if (!Number.isFinite(Number(number))) throw refusal(where, text, at, "must hold numbers that a double can hold");
      add(number, at);
    } else if (name === undefined) {
      if (sign === "(") {
        if (open.length === MOST_BRACKETS) throw refusal(where, text, at, `must have at most ${MOST_BRACKETS} brackets inside each other`);
        open.push({ name: called, arguments: 1 });
      } else if (sign === ",") {
        if (open.length === 0 || ++open[open.length - 1]!.arguments > argumentsOf(open[open.length - 1]!.name)) {
          throw refusal(where, text, at, "must have commas only between the two arguments of pow");
        }
      } else if (sign === ")") {
        const inner = open.pop();
        if (inner === undefined) throw refusal(where, text, at, "must open a bracket before it closes it");
        if (inner.arguments < argumentsOf(inner.name)) throw refusal(where, text, at, `must give ${inner.name} two arguments`);
      }
      add(sign!, at);
      called = "";
    } else if (/^\s*\(/.test(text.slice(PIECE.lastIndex))) {
      if (!FUNCTION_NAMES.includes(name)) throw refusal(where, text, at, `must call no function but ${FUNCTION_NAMES.join(", ")}`);
      add(name, at);
      called = name;
      afterOperand = false;
    } else if (FUNCTION_NAMES.includes(name)) {
      throw refusal(where, text, at, `must give ${name} its argument in brackets`);
    } else if (name === "pi") add("k", at);
    else if (name === practice) {
      hasPractice = true;
      add("x", at);
    } else {
      requireName(where, `text (character ${at + 1})`, name);
      // the base of natural logarithms would silently become one more parameter
      if (name === "e" && /^\s*\^/.test(text.slice(PIECE.lastIndex))) throw refusal(where, text, at, "must say exp(...) for powers of e");
      if (!parameters.includes(name)) parameters.push(name);
      add(`p${parameters.indexOf(name)}`, at);
    }
  }
  if (!hasPractice) {
    throw new RangeError(
      `${where}: text must contain the practice, ${practice} (options.practice names another), got ${JSON.stringify(text)}`,
    );
  }
  if (parameters.length === 0 || parameters.length > MOST_PARAMETERS) {
    throw new RangeError(`${where}: text must have 1 to ${MOST_PARAMETERS} parameters, got ${parameters.length}`);
  }
  return { parameters, plain, places };
}

/** Throws unless a name can be that of a parameter or of the practice. */
export function requireName(where: string, what: string, name: string): void {
  if (typeof name === "string" && NAME.test(name) && name.length <= 40 && name !== "pi" && !FUNCTION_NAMES.includes(name) && !(name in {}))
    return;
  throw new RangeError(`${where}: ${what} must have names of letters, digits and _ that mean nothing else, got ${JSON.stringify(name)}`);
}

function argumentsOf(name: string): number {
  return name === "pow" ? 2 : 1;
}

/** What is wrong, where, and what would be right. */
export function refusal(where: string, text: string, at: number, rule: string): RangeError {
  const rest = text.slice(at, at + 12);
  const got = rest === "" ? "the end of the text" : JSON.stringify(at + 12 < text.length ? `${rest}...` : rest);
  return new RangeError(`${where}: text ${rule}, got ${got} at character ${at + 1}`);
}
