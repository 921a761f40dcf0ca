import { show } from "../../math/require.js";
import { type Path, type Problem, problem, type Raw } from "./problem.js";

// Checks of single fields. An optional field may be absent or `undefined`; everything else wrong with it is a problem.

/** No field but the known ones. */
export function checkKnown(raw: Raw, path: Path, known: readonly string[]): Problem | undefined {
  const unknown = Object.keys(raw).filter((key) => !known.includes(key));
  if (unknown.length === 0) return undefined;
  const more = unknown.length > 1 ? ` and ${unknown.length - 1} more` : "";
  const clear = unknown.map((key) => [...path, key]);
  return problem("unknownField", clear[0]!, `be one of ${known.join(", ")}`, "", { name: "field", got: show(unknown[0]) + more, clear });
}

export function checkObject(value: unknown, path: Path): Problem | undefined {
  if (value !== null && typeof value === "object" && !Array.isArray(value)) return undefined;
  return absentOr(value, path, "be an object");
}

export interface NumberRule {
  /** Least allowed value. */
  readonly least?: number;
  /** The value must lie above this one. */
  readonly above?: number;
  /** Field that `least` was taken from, for the message. */
  readonly from?: string;
  readonly optional?: true;
}

/** A finite number. */
export function checkNumber(raw: Raw, path: Path, key: string, rule: NumberRule = {}): Problem | undefined {
  const value = raw[key];
  const { least = Number.NEGATIVE_INFINITY, above = Number.NEGATIVE_INFINITY, from, optional } = rule;
  if (value === undefined && optional) return undefined;
  const at = [...path, key];
  if (typeof value !== "number") return absentOr(value, at, "be a number");
  if (value - value !== 0) return problem("badValue", at, "be finite", value);
  if (value < least) return problem("badValue", at, `be at least ${from === undefined ? least : `${from} = ${least}`}`, value);
  if (value > above) return undefined;
  return problem("badValue", at, `be above ${above}`, value);
}

export function checkText(
  raw: Raw,
  path: Path,
  key: string,
  rule: { readonly optional?: true; readonly filled?: true } = {},
): Problem | undefined {
  const value = raw[key];
  if (value === undefined && rule.optional) return undefined;
  const at = [...path, key];
  if (typeof value !== "string") return absentOr(value, at, "be a text");
  return rule.filled && value === "" ? problem("badValue", at, "be a text that is not empty", value) : undefined;
}

export function checkOneOf(raw: Raw, path: Path, key: string, allowed: readonly unknown[], optional = false): Problem | undefined {
  const value = raw[key];
  if (allowed.includes(value) || (value === undefined && optional)) return undefined;
  const choices = allowed.map(show).join(", ");
  return absentOr(value, [...path, key], allowed.length === 1 ? `be ${choices}` : `be one of ${choices}`);
}

function absentOr(value: unknown, path: Path, must: string): Problem {
  return problem(value === undefined ? "missingField" : "badValue", path, must, value);
}
