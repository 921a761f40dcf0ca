// `npm run bench:scale`: the command at the scale of a study. Minutes; not part of CI.
//
// -- --sessions 2000   simulated sessions of ten minutes at 1 kHz (default 40): time against their number, speed-up by workers, memory
// -- --only office     the modules whose name contains it: `study`, `office`
// -- --json            an array of { name, value, bar, ok, source }
import { parseArgs } from "node:util";
import { createReport } from "../../tests/validation/report.js";
import { officeFigures } from "./office-remote.js";
import { studyFigures } from "./study.js";

const { values: options } = parseArgs({
  options: {
    sessions: { type: "string", default: "40" },
    only: { type: "string", default: "" },
    json: { type: "boolean", default: false },
  },
});
const report = createReport("benchmarks", { ...options, partial: true, command: "npm run bench:scale" });
const modules = { study: () => studyFigures(Number(options.sessions)), office: officeFigures };
for (const [name, figures] of Object.entries(modules)) {
  if (!name.includes(options.only)) continue;
  await report.take(name, figures);
}
process.exitCode = report.finish();
