// Changes the source in small ways and counts how many of the changes a test notices. The result of each folder stays in reports/mutation.
//
//   npx tsx tests/mutation/run.ts                                   300 changes of each folder, drawn by chance
//   npx tsx tests/mutation/run.ts --folder math --n 400 --seed 7    another draw of one folder
//   npx tsx tests/mutation/run.ts --all --folder math               every change of one folder: some hours
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { relative, resolve } from "node:path";
import { parseArgs } from "node:util";
import type { MutantResult } from "@stryker-mutator/api/core";
import { Stryker } from "@stryker-mutator/core";
import { proportionEstimate } from "../../src/math/proportion-estimate.js";
import { draw, keyOf, mutantsOf, placeOf } from "./mutants.js";

const FOLDERS = ["math", "fitts", "endpoints", "learning", "movement"];

const { values } = parseArgs({
  options: {
    folder: { type: "string", multiple: true, default: FOLDERS },
    n: { type: "string", default: "300" },
    seed: { type: "string", default: "1" },
    all: { type: "boolean", default: false },
  },
});
const size = Number(values.n);
const seed = Number(values.seed);
if (!(Number.isInteger(size) && size >= 1)) throw new RangeError(`--n must be a whole number from 1 on, got ${values.n}`);
if (!Number.isInteger(seed)) throw new RangeError(`--seed must be a whole number, got ${values.seed}`);
const unknown = values.folder.find((folder) => !FOLDERS.includes(folder));
if (unknown !== undefined) throw new RangeError(`--folder must be one of ${FOLDERS.join(", ")}, got ${unknown}`);

// Stryker tests a copy of the project that lies deeper than the project itself
process.env.AIMED_MOVEMENT_SHARED = resolve(process.env.AIMED_MOVEMENT_SHARED ?? "../shared");
const lines: string[] = [];
for (const folder of values.folder) lines.push(await measure(folder));
console.log(`\n${lines.join("\n")}`);

/** Runs the mutants of one folder, lists those that no test noticed, and gives the line of its score. */
async function measure(folder: string): Promise<string> {
  const begun = Date.now();
  const mutants = await mutantsOf(folder);
  const drawn = values.all ? mutants : draw(mutants, size, seed);
  process.env.MUTATION_TESTS = JSON.stringify(testsOf(folder));
  const settings = { testRunner: "collecting", mutate: [...new Set(drawn.map(placeOf))], drawn: drawn.map(keyOf) };
  const results = (await new Stryker(settings).runMutationTest()).filter(({ status }) => status !== "CompileError");
  if (results.length !== drawn.length) throw new Error(`${drawn.length} mutants of ${folder} were drawn, ${results.length} have a result`);
  mkdirSync("reports/mutation", { recursive: true });
  writeFileSync(`reports/mutation/${folder}.json`, JSON.stringify({ folder, seed, of: mutants.length, results }, null, 1));

  for (const mutant of results) if (!noticed(mutant)) console.log(`${mutant.status} ${describe(mutant)}`);
  const score = proportionEstimate(results.filter(noticed).length, results.length);
  if (!score.ok) throw new Error(`no mutants in src/${folder}`);
  const [low, high] = score.interval!.map(percent);
  const slow = results.filter(({ status }) => status === "Timeout").length;
  const minutes = ((Date.now() - begun) / 60_000).toFixed(0);
  const interval = values.all ? "" : ` (95 %: ${low} to ${high})`;
  return `${folder}: ${percent(score.value)} %${interval} of ${score.n} drawn from ${mutants.length}, ${slow} by running too long; ${minutes} min`;
}

/** The tests that mirror the folder, and those of published values that name it. Stored results of the library itself are in neither. */
function testsOf(folder: string): string[] {
  const names = readdirSync("tests/reference").filter((name) => name.endsWith(".test.ts"));
  const naming = names.filter((name) => readFileSync(`tests/reference/${name}`, "utf8").includes(`src/${folder}/`));
  return [`tests/${folder}/**/*.test.ts`, ...naming.map((name) => `tests/reference/${name}`)];
}

function noticed({ status }: MutantResult): boolean {
  return status === "Killed" || status === "Timeout";
}

/** Where the change is, with the text before and after it on one line. A result counts lines and columns from 1. */
function describe({ fileName, location: { start, end }, replacement }: MutantResult): string {
  const text = readFileSync(fileName, "utf8")
    .split("\n")
    .slice(start.line - 1, end.line);
  text[text.length - 1] = text.at(-1)!.slice(0, end.column - 1);
  text[0] = text[0]!.slice(start.column - 1);
  return `${relative(process.cwd(), fileName)}:${start.line}:${start.column} ${short(text.join("\n"))} -> ${short(replacement)}`;
}

function short(text: string): string {
  return text.replace(/\s+/g, " ").slice(0, 80);
}

function percent(share: number): string {
  return (100 * share).toFixed(1);
}
