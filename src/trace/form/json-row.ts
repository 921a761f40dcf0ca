import { show } from "../../math/require.js";
import { nextElement, scanJson } from "./json-scan.js";
import { type Path, type Problem, problem, type Raw } from "./problem.js";
import type { Row } from "./reading.js";

/** A line of JSON as a row: columns are looked up in its text, when they are asked for. */
export function jsonRow(file: string, line: number, text: string, mayBeCut: boolean): Row {
  // for each list, the element found last: the next one asked for comes after it, and a long list is walked once
  const found = new Map<string, { index: number; at: number }>();
  const column = (path: Path): number => {
    const index = path.at(-1);
    const list = path.slice(0, -1);
    // what is not there is missed where it would be
    if (typeof index !== "number") return 1 + (scanJson(text, path).at ?? scanJson(text, list).at ?? 0);
    const key = JSON.stringify(list);
    let element = found.get(key);
    if (!element || element.index > index) element = { index: 0, at: scanJson(text, [...list, 0]).at ?? 0 };
    while (element.index < index) element = { index: element.index + 1, at: nextElement(text, element.at) };
    found.set(key, element);
    return 1 + element.at;
  };
  return { file, line, unit: "line", mayBeCut, column };
}

/** The object of a line, or what is wrong with the line. */
export function parseLine(text: string): { readonly raw: Raw } | { readonly wrong: Problem; readonly column: number } {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    const at = scanJson(text).wrongAt ?? 0;
    const got = at < text.length ? text.slice(at, at + 20) : "";
    const wrong = problem("notJson", [], "be JSON", got, at < text.length ? {} : { got: "its end too early" });
    return { wrong, column: at + 1 };
  }
  if (value === null || typeof value !== "object" || Array.isArray(value)) {
    return { wrong: problem("notJson", [], "be a JSON object", value), column: 1 };
  }
  return { raw: value as Raw };
}

/** JSON.parse keeps the last of two fields of one name in silence; here it is a problem. */
export function fieldTwice(text: string, raw: Raw): { readonly wrong: Problem; readonly column: number } | undefined {
  if (hasPlainText(text, raw)) return undefined;
  const twice = scanJson(text).twice;
  return (
    twice && { wrong: problem("twice", [], "come once", "", { name: `field ${show(twice.field)}`, got: "it twice" }), column: twice.at + 1 }
  );
}

/** Whether a long line without inner objects has just the quotes that its fields and texts need: then none comes twice. Spares the walk. */
function hasPlainText(text: string, raw: Raw): boolean {
  if (text.length < 200 || text.includes("\\")) return false;
  let expected = 0;
  for (const value of Object.values(raw)) {
    if (value !== null && typeof value === "object" && !Array.isArray(value)) return false;
    // a list with texts or objects in it brings quotes of its own, and so is walked
    expected += typeof value === "string" ? 4 : 2;
  }
  for (let at = text.indexOf('"'); at >= 0; at = text.indexOf('"', at + 1)) expected--;
  return expected === 0;
}
