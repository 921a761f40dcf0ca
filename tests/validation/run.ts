// `npm run validation`: every figure that is measured against something outside the library, one line each; ends with 1 when one is short.
//
// -- --quick     the same figures from fewer repetitions
// -- --json      an array of { name, value, bar, ok, source } on standard output, nothing else
// -- --page      stores the figures in docs/figures, from which the site's page is made
// -- --module X  one module alone, its outcomes as JSON: what this program asks of itself, a module in a process of its own on each processor
import { execFile } from "node:child_process";
import { readdirSync } from "node:fs";
import { availableParallelism } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { parseArgs, promisify } from "node:util";
import type { FigureModule, Outcome } from "./figure.js";
import { createReport } from "./report.js";

const { values: options } = parseArgs({
  options: {
    quick: { type: "boolean", default: false },
    json: { type: "boolean", default: false },
    page: { type: "boolean", default: false },
    module: { type: "string" },
  },
});
const here = dirname(fileURLToPath(import.meta.url));
const modules = readdirSync(here)
  .filter((file) => file.endsWith(".ts") && !["run.ts", "figure.ts", "report.ts", "stored.ts", "coverage-figures.ts"].includes(file))
  .sort();

if (options.module !== undefined) console.log(JSON.stringify(await figuresOf(options.module)));
else process.exitCode = await runAll();

async function figuresOf(file: string): Promise<readonly Outcome[]> {
  const { figures } = (await import(pathToFileURL(join(here, file)).href)) as Partial<FigureModule>;
  if (typeof figures !== "function") throw new TypeError("exports no function `figures`");
  return figures(options.quick);
}

/** All modules, as many at once as there are processors, reported in their order. */
async function runAll(): Promise<number> {
  const waiting = [...modules];
  const found = new Map<string, Promise<readonly Outcome[]>>();
  const settle = new Map<string, { resolve: (value: readonly Outcome[]) => void; reject: (error: unknown) => void }>();
  for (const file of modules) found.set(file, new Promise((resolve, reject) => settle.set(file, { resolve, reject })));
  // a module that fails is told by the report when its turn comes
  for (const outcome of found.values()) outcome.catch(() => undefined);
  const worker = async (): Promise<void> => {
    for (let file = waiting.shift(); file !== undefined; file = waiting.shift()) {
      const { resolve, reject } = settle.get(file)!;
      await inProcess(file).then(resolve, reject);
    }
  };
  for (let k = 0; k < availableParallelism(); k++) void worker();
  const report = createReport("validation", { ...options, command: "npm run validation -- --page" });
  for (const file of modules) await report.take(file, () => found.get(file)!);
  return report.finish();
}

async function inProcess(file: string): Promise<readonly Outcome[]> {
  const argv = [...process.execArgv, fileURLToPath(import.meta.url), "--module", file, ...(options.quick ? ["--quick"] : [])];
  const { stdout } = await promisify(execFile)(process.execPath, argv, { maxBuffer: 2 ** 28 });
  return JSON.parse(stdout);
}
