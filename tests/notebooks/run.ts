// `npm run notebooks`: executes examples/notebooks and stores the outputs. `-- NAME…` for some of them; `-- --check` compares with what is stored
// instead and tells the cells that differ. Ends with 1 when a cell throws or, with --check, when something differs.
import { spawn } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { parseArgs } from "node:util";
import { buildIfStale } from "../checks/build.js";
import { cellsCutShort, differences, type Notebook, storedForm } from "./notebook.js";
import { prepareTools } from "./tools.js";

const FOLDER = join("examples", "notebooks");
/** One a processor of the smallest machine we promise to test on. */
const LANES = 2;
/** Executions of a notebook until the kernel has sent all that its cells show. */
const TRIES = 3;

const { values, positionals } = parseArgs({ options: { check: { type: "boolean", default: false } }, allowPositionals: true });
const problems: string[] = [];
const temporary = mkdtempSync(join(tmpdir(), "notebooks-"));
try {
  const queue = chosenNames();
  buildIfStale();
  const env = prepareTools();
  const lane = async () => {
    for (let name = queue.shift(); name !== undefined; name = queue.shift()) await settle(name, env);
  };
  await Promise.all(Array.from({ length: LANES }, lane));
} catch (error) {
  problems.push((error as Error).message);
} finally {
  rmSync(temporary, { recursive: true, force: true });
}
for (const problem of problems) console.error(problem);
process.exitCode = problems.length > 0 ? 1 : 0;

function chosenNames(): string[] {
  const all = readdirSync(FOLDER).flatMap((file) => (file.endsWith(".ipynb") ? [file.slice(0, -".ipynb".length)] : []));
  const unknown = positionals.filter((name) => !all.includes(name));
  if (unknown.length > 0) throw new Error(`notebooks: no notebook is called ${unknown.join(", ")}; there are ${all.join(", ")}`);
  return positionals.length > 0 ? [...positionals] : all;
}

/** Executes one notebook and stores it, or compares it with what is stored. */
async function settle(name: string, env: NodeJS.ProcessEnv): Promise<void> {
  const started = performance.now();
  const path = join(FOLDER, `${name}.ipynb`);
  const made = await executeWhole(name, path, env);
  if (made === undefined) return;
  const before = readFileSync(path, "utf8");
  if (made.includes(resolve("."))) problems.push(`${name}: an output names a folder of this machine`);
  else if (!values.check) writeFileSync(path, made);
  else if (made !== before) {
    problems.push(...differences(JSON.parse(before) as Notebook, JSON.parse(made) as Notebook).map((what) => `${name}: ${what}`));
  }
  console.log(`${name.padEnd(24)} ${((performance.now() - started) / 1000).toFixed(1).padStart(5)} s`);
}

/** The stored form of a notebook whose cells show all they ask to show, or nothing when it cannot be had. */
async function executeWhole(name: string, path: string, env: NodeJS.ProcessEnv): Promise<string | undefined> {
  for (let tries = 1; tries <= TRIES; tries++) {
    const failure = await execute(path, env);
    if (failure !== undefined) {
      problems.push(`${name}: ${failure}`);
      return undefined;
    }
    const executed = JSON.parse(readFileSync(join(temporary, `${name}.ipynb`), "utf8")) as Notebook;
    const cut = cellsCutShort(executed);
    if (cut.length === 0) return storedForm(executed);
    console.log(`${name}: the kernel lost what ${cut.join(", ")} showed`);
  }
  problems.push(`${name}: the kernel lost outputs ${TRIES} times`);
  return undefined;
}

/** What went wrong, in the words of nbconvert, or nothing. */
function execute(path: string, env: NodeJS.ProcessEnv): Promise<string | undefined> {
  const args = ["nbconvert", "--to", "notebook", "--execute", "--ExecutePreprocessor.timeout=120", "--output-dir", temporary, path];
  return new Promise((done) => {
    const child = spawn("jupyter", args, { env, stdio: ["ignore", "ignore", "pipe"] });
    let said = "";
    child.stderr.on("data", (piece: Buffer) => {
      said += piece.toString();
    });
    child.on("error", (error) => done(error.message));
    child.on("close", (code) => done(code === 0 ? undefined : said.slice(Math.max(said.indexOf("CellExecutionError"), 0)).trim()));
  });
}
