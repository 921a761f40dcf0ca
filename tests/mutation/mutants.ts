// Every change that Stryker would make to a folder of the source, and a fair draw from them.
import { readdirSync, readFileSync } from "node:fs";
import { relative, resolve } from "node:path";
import type { Mutant } from "@stryker-mutator/api/core";
import { Instrumenter } from "@stryker-mutator/instrumenter";
import { createRandom } from "../../src/math/random.js";

const silent = { debug() {}, info() {}, isDebugEnabled: () => false };

/** The mutants of `src/<folder>`, in the order of the files and of the text. */
export async function mutantsOf(folder: string): Promise<readonly Mutant[]> {
  const names = readdirSync(`src/${folder}`, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));
  const files = names.sort().map((name) => ({
    name: resolve("src", folder, name),
    mutate: true,
    content: readFileSync(`src/${folder}/${name}`, "utf8"),
  }));
  const { mutants } = await new Instrumenter(silent as never).instrument(files, { plugins: null, excludedMutations: [], ignorers: [] });
  return mutants;
}

/** `n` of the list, every set of that size as likely as any other; all of a shorter list. */
export function draw<T>(list: readonly T[], n: number, seed: number): T[] {
  const { pick } = createRandom(seed);
  const left = [...list.keys()];
  const drawn: T[] = [];
  while (drawn.length < n && left.length > 0) drawn.push(list[left.splice(left.indexOf(pick(left)), 1)[0]!]!);
  return drawn;
}

/** The text that the mutant changes, in Stryker's way of naming a place: lines from 1, columns from 0. */
export function placeOf({ fileName, location: { start, end } }: Mutant): string {
  return `${relative(process.cwd(), fileName)}:${start.line + 1}:${start.column}-${end.line + 1}:${end.column}`;
}

/** What tells one mutant from every other; ids change with the places that are asked for. */
export const keyOf = (mutant: Mutant): string => `${placeOf(mutant)} ${mutant.mutatorName} ${mutant.replacement}`;
