// What every entry answers, as Node says it, and whether another runtime says the same.
import { entryFolders, publicNames } from "../checks/public.js";
import { run, type Stranger } from "./stranger.js";

export interface Results {
  readonly names: Readonly<Record<string, readonly string[]>>;
  readonly answers: Readonly<Record<string, unknown>>;
}

/** Engines differ in the last bits of `Math.exp` and its like; what is searched for by steps may carry some of that on. */
const TOLERANCE = 1e-9;

/** Runs a program that prints its results. */
export async function said(
  cwd: string,
  program: string,
  args: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Promise<Results> {
  return JSON.parse(await run(cwd, program, args, env)) as Results;
}

/** What this Node says of the imported entries. */
function nodeResults({ full, once }: Stranger): Promise<Results> {
  return once("results of node", () => said(full, process.execPath, ["say-imported.mjs"]));
}

/** Throws unless every entry has the names it promises, and answers as under this Node. */
export async function requireSame(stranger: Stranger, { names, answers }: Results): Promise<void> {
  requireAlike(await stranger.once("promised names", promisedNames), names, "names");
  requireAlike((await nodeResults(stranger)).answers, answers, "answers");
}

/** Throws, with the place, where two values differ by more than rounding. */
function requireAlike(wanted: unknown, got: unknown, place: string): void {
  if (typeof wanted === "number" && typeof got === "number") {
    if (Math.abs(wanted - got) > TOLERANCE * Math.max(1, Math.abs(wanted))) throw new Error(`${place}: ${got} instead of ${wanted}`);
  } else if (wanted !== null && got !== null && typeof wanted === "object" && typeof got === "object") {
    const keys = new Set([...Object.keys(wanted), ...Object.keys(got)]);
    for (const key of keys) requireAlike(wanted[key as never], got[key as never], `${place}.${key}`);
  } else if (wanted !== got) throw new Error(`${place}: ${JSON.stringify(got)} instead of ${JSON.stringify(wanted)}`);
}

/** The values that each entry must export. */
async function promisedNames(): Promise<Record<string, string[]>> {
  const { functions, main } = publicNames();
  const of = (folder: string) => functions.filter((fn) => fn.folder === folder).map(({ name }) => name);
  const names = Object.fromEntries(entryFolders().map((folder) => [`aimed-movement/${folder}`, of(folder).sort()]));
  return { "aimed-movement": [...main].sort(), ...names };
}
