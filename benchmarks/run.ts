// `npm run bench`: speed, growth with size, and load, against general-purpose libraries in the same run; ends with 1 when a bar is missed.
// Each module of this folder exports `run()` and gets a process of its own, so that no measurement runs on code that another one warmed or spoilt. They are
// built first: a loader that translates while it runs also names every function that is made, and a fit then takes 30 instead of 26 us.
//
// -- --json     an array of { name, value, bar, ok, source } on standard output, nothing else
// -- --only x   the modules whose name contains x
// -- --page     stores the figures in docs/figures, from which the site's page is made
import { execFile } from "node:child_process";
import { readdirSync } from "node:fs";
import { cpus } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { parseArgs, promisify } from "node:util";
import type { Outcome } from "../tests/validation/figure.js";
import { createReport } from "../tests/validation/report.js";

/** What each module of this folder exports, this file aside. */
export interface BenchmarkModule {
  run(): Promise<readonly Outcome[]>;
}

const { values: options } = parseArgs({
  options: {
    json: { type: "boolean", default: false },
    only: { type: "string", default: "" },
    page: { type: "boolean", default: false },
    module: { type: "string" },
  },
});
if (options.page && options.only !== "") throw new RangeError(`--page stores every figure, and --only ${options.only} measures some`);
const here = dirname(fileURLToPath(import.meta.url));
/** Precedes the figures on the standard output of a module's process, which may print other things before. */
const FIGURES = "figures: ";

if (options.module !== undefined) await runHere(options.module);
else await runEach();

async function runHere(file: string): Promise<void> {
  const { run } = (await import(pathToFileURL(join(here, file)).href)) as Partial<BenchmarkModule>;
  if (typeof run !== "function") throw new TypeError("exports no function `run`");
  console.log(FIGURES + JSON.stringify(await run()));
}

async function runEach(): Promise<void> {
  const modules = readdirSync("benchmarks")
    .filter((file) => file.endsWith(".ts") && !["run.ts", "timing.ts", "beside-python.ts"].includes(file) && file.includes(options.only))
    .map((file) => file.replace(/\.ts$/, ".js"))
    .sort();
  const report = createReport("benchmarks", { ...options, partial: options.only !== "", command: "npm run bench -- --page" });
  if (!options.json) console.log(`${cpus().length} x ${cpus()[0]?.model.trim()}, Node ${process.version}`);
  for (const file of modules) {
    await report.take(file, async () => {
      const self = fileURLToPath(import.meta.url);
      const { stdout } = await promisify(execFile)(process.execPath, [...process.execArgv, self, "--module", file], { maxBuffer: 1 << 26 });
      const line = stdout.split("\n").find((text) => text.startsWith(FIGURES));
      return JSON.parse(line!.slice(FIGURES.length)) as Outcome[];
    });
  }
  process.exitCode = report.finish();
}
