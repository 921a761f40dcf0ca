import { show } from "../../math/require.js";
import type { ReadReason } from "./read-report.js";

/** An object as it came, not yet looked into. */
export type Raw = Record<string, unknown>;

/** Where in an entry: field names and positions in lists. Empty: the entry itself. */
export type Path = readonly (string | number)[];

/** What is wrong with an entry. The checks give it back rather than throw: the reader may be asked to go on. */
export interface Problem {
  readonly reason: ReadReason;
  readonly path: Path;
  /** Stands for the path in the message. */
  readonly name?: string;
  /** Ends the sentence that begins with the name and "must". */
  readonly must: string;
  readonly got: string;
  /** Fields without which the entry would stand. */
  readonly clear?: readonly Path[];
  /** No repair can help. */
  readonly fatal?: true;
  /** Where a line was cut, this is a consequence and no mistake of its own. */
  readonly followsCut?: true;
}

export function problem(reason: ReadReason, path: Path, must: string, got: unknown, more: Partial<Problem> = {}): Problem {
  return { reason, path, must, got: picture(got), ...more };
}

/** The sentence of a problem. Paths follow `prefix`; `whole` names an empty path. */
export function problemText({ path, name, must, got }: Problem, whole: string, prefix = ""): string {
  return `${name ?? (path.length === 0 ? whole : pathText(path, prefix))} must ${must}, got ${got}`;
}

/** A short picture of a value from a file: an object of that origin may call itself anything. */
function picture(value: unknown): string {
  if (value === undefined) return "nothing";
  return value === null || typeof value !== "object" || Array.isArray(value) ? show(value) : "an object";
}

function pathText(path: Path, prefix: string): string {
  let text = prefix;
  for (const step of path) {
    if (typeof step === "number") text += `[${step}]`;
    else if (!/^[A-Za-z_]\w{0,60}$/.test(step)) text += `[${show(step)}]`;
    else text += text === "" ? step : `.${step}`;
  }
  return text;
}
