// `npm run validation`: every figure that is measured against something outside the library, one line each; ends with 1 when one is short.
//
// -- --quick     the same figures from fewer repetitions
// -- --json      an array of { name, value, bar, ok, source } on standard output, nothing else
// -- --markdown  the same as a table
import { readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { parseArgs } from "node:util";
import type { FigureModule } from "./figure.js";
import { createReport } from "./report.js";

const { values: options } = parseArgs({
  options: {
    quick: { type: "boolean", default: false },
    json: { type: "boolean", default: false },
    markdown: { type: "boolean", default: false },
  },
});
const here = dirname(fileURLToPath(import.meta.url));
const modules = readdirSync(here)
  .filter((file) => file.endsWith(".ts") && !["run.ts", "figure.ts", "report.ts", "coverage-figures.ts"].includes(file))
  .sort();

const report = createReport("validation", options);
for (const file of modules) {
  await report.take(file, async () => {
    const { figures } = (await import(pathToFileURL(join(here, file)).href)) as Partial<FigureModule>;
    if (typeof figures !== "function") throw new TypeError("exports no function `figures`");
    return figures(options.quick);
  });
}
process.exitCode = report.finish();
