// The reference tables and real recordings lie outside the project, and are absent on a stranger's machine: tests that need them skip and say so.
import { existsSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";

// beside the project's folder, in which every script of it runs
const root = resolve(process.env.AIMED_MOVEMENT_SHARED ?? join("..", "shared"));

/** Why a test that needs the outside tables did not run. */
export const SHARED_ABSENT = "the folder of reference tables and real recordings is absent (set AIMED_MOVEMENT_SHARED to it)";

/** Path below the shared folder, or `undefined` when it is not there. */
export function sharedPath(...parts: string[]): string | undefined {
  const path = join(root, ...parts);
  return existsSync(path) ? path : undefined;
}

/** One reference value with the tolerance stored beside it. */
export interface ReferenceCase {
  readonly name: string;
  readonly origin: string;
  // the tables differ from file to file; each test knows the shape of its own
  // biome-ignore lint/suspicious/noExplicitAny: shape varies by table
  readonly input: any;
  // biome-ignore lint/suspicious/noExplicitAny: shape varies by table
  readonly params: any;
  // biome-ignore lint/suspicious/noExplicitAny: shape varies by table
  readonly expected: any;
  readonly tolerance: { readonly rel: number; readonly abs: number };
}

/** The cases of one reference table such as `"kinematics/butterworth.json"`, or `undefined` when the folder is absent. */
export function readReference(file: string): { meta: Record<string, unknown>; cases: ReferenceCase[] } | undefined {
  const path = sharedPath("reference", file);
  return path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));
}

/** Whether a value passes by the rule of the tables: |got - expected| <= abs + rel |expected|. */
export function within(got: number, expected: number, tolerance: { rel: number; abs: number }): boolean {
  return Math.abs(got - expected) <= tolerance.abs + tolerance.rel * Math.abs(expected);
}
