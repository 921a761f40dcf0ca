// Damages valid files of both forms in many ways, reads them whole and in pieces, without and with repair, and looks for crashes, messages
// without a place, hangs and silent loss. Ends with 1 when there is one, with the seed and the smallest input found.
//
//   npx tsx tests/fuzz/run.ts --runs 10000 --seed 1        all
//   npx tsx tests/fuzz/run.ts --seed 1 --only 4711         one case again
import { fork } from "node:child_process";
import { writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { fc } from "@fast-check/vitest";
import { createRandom, type Random } from "../../src/math/random.js";
import type { CsvTables } from "../../src/trace/form/csv-tables.js";
import { formatRecording } from "../../src/trace/format-recording.js";
import type { Session } from "../../src/trace/types.js";
import { sessionArb, wildSessionArb } from "../arbitraries.js";
import { Fault, type Input, judge, OUTCOMES, type Outcome } from "./judge.js";
import { below, LONGEST, MUTATIONS, type Mutation } from "./mutations.js";
import { linesOf, plain } from "./naive-reader.js";

/** Time for one act of reading, ms. */
const BUDGET = 1000;
/** A case that takes this long will not end, ms: it reads some ten times. */
const HANGS = 30_000;
const POOL = 200;

interface Settings {
  readonly seed: number;
  readonly runs: number;
  readonly only: number | undefined;
}

interface Case {
  readonly name: string;
  readonly input: Input;
  readonly original: unknown;
  readonly random: Random;
}

type Message =
  | { readonly at: number }
  | { readonly table: readonly (readonly [string, Record<string, number>])[]; readonly slowest: number }
  | { readonly failed: { readonly index: number; readonly name: string; readonly text: string; readonly file: string } };

const settings = readSettings();
if (process.send) await work(settings);
else watch(settings);

function readSettings(): Settings {
  const { values } = parseArgs({ options: { runs: { type: "string" }, seed: { type: "string" }, only: { type: "string" } } });
  const { runs = "10000", seed = "1", only } = values;
  return { runs: Number(runs), seed: Number(seed), only: only === undefined ? undefined : Number(only) };
}

/** Runs the cases beside itself, since one that hangs can only be stopped from outside. */
function watch({ seed, runs, only }: Settings): void {
  const begun = Date.now();
  const child = fork(fileURLToPath(import.meta.url), process.argv.slice(2));
  let latest = -1;
  const hung = (): void => {
    const { input, name } = makeCase(seed, latest, makePool(seed));
    report({ failed: { index: latest, name, text: "does not come to an end", file: save(input, seed, latest) } });
  };
  let clock = setTimeout(hung, HANGS);
  const report = (message: Message): void => {
    clearTimeout(clock);
    if ("at" in message) {
      latest = message.at;
      clock = setTimeout(hung, HANGS);
      return;
    }
    if ("failed" in message) {
      const { index, name, text, file } = message.failed;
      console.error(`FAILED  seed ${seed}, case ${index} (${name}): ${text}\nsmallest input: ${file}`);
      console.error(`again: npx tsx tests/fuzz/run.ts --seed ${seed} --only ${index}`);
      process.exitCode = 1;
    } else {
      const seconds = ((Date.now() - begun) / 1000).toFixed(1);
      const cases = only === undefined ? runs : 1;
      printTable(message.table);
      console.log(`seed ${seed}, ${cases} cases in ${seconds} s, slowest reading ${message.slowest.toFixed(0)} ms: no fault`);
    }
    child.kill("SIGKILL");
  };
  child.on("message", report);
  child.on("exit", (code) => {
    clearTimeout(clock);
    // killed from here once it has told its result; by itself it ends only when it breaks
    if (code !== null) process.exitCode = 1;
  });
}

async function work({ seed, runs, only }: Settings): Promise<void> {
  const tell = (message: Message): unknown => process.send!(message);
  const pool = makePool(seed);
  const table = new Map<string, Record<string, number>>();
  let slowest = 0;
  for (let index = only ?? 0; index < (only === undefined ? runs : only + 1); index++) {
    tell({ at: index });
    const made = makeCase(seed, index, pool);
    let found: Awaited<ReturnType<typeof judge>>;
    try {
      found = await judge(made.input, made.original, made.random);
      // once more before it is called too slow: the machine may have been busy
      if (found.slowest > BUDGET) found = await judge(made.input, made.original, made.random);
      if (found.slowest > BUDGET) throw new Fault(`takes ${found.slowest.toFixed(0)} ms`);
    } catch (error) {
      const text = error instanceof Fault ? error.message : `the fuzzer itself: ${(error as Error).stack}`;
      const file = save(await shrink(made, kindOf(text)), seed, index);
      tell({ failed: { index, name: made.name, text, file } });
      return;
    }
    slowest = Math.max(slowest, found.slowest);
    const row = table.get(made.name) ?? {};
    table.set(made.name, row);
    for (const key of [`strict: ${found.strict}`, `repair: ${found.repaired}`]) row[key] = (row[key] ?? 0) + 1;
  }
  tell({ table: [...table], slowest });
}

interface Entry {
  readonly session: Session;
  readonly jsonl: string;
  readonly tables: CsvTables;
}

function makePool(seed: number): Entry[] {
  const sessions = fc.sample(fc.oneof(sessionArb, wildSessionArb), { seed, numRuns: POOL });
  return sessions.map((session) => ({
    session,
    jsonl: formatRecording(session, { samplesPerLine: 8 }),
    tables: formatRecording(session, { form: "csv" }),
  }));
}

function makeCase(seed: number, index: number, pool: readonly Entry[]): Case {
  const random = createRandom((seed * 1_000_003 + index * 7919) | 0);
  const { session, jsonl, tables } = random.pick(pool);
  const form = random.pick(["jsonl", "jsonl", "lone", "tables", "tables"] as const);
  const usable = MUTATIONS.filter((mutation) => mutation.form === undefined || (mutation.form === "jsonl") === (form === "jsonl"));
  // a set, for twice the same is not exact any more
  const chosen = [...new Set([random.pick(usable), ...(random.uniform() < 0.25 ? [random.pick(usable)] : [])])];
  const damage = (text: string): string =>
    chosen.reduce((now, mutation: Mutation) => (now === "" ? now : mutation.mutate(now, random)), text);
  const name = `${chosen.map((mutation) => mutation.name)[0]}`;
  const exact = chosen.every((mutation) => mutation.exact);
  const missing = random.uniform() < 0.1 && !exact ? { missing: 65535 } : {};
  if (form === "tables") {
    const which = random.pick(Object.keys(tables)) as keyof CsvTables;
    return {
      name,
      input: { form, source: { ...tables, [which]: damage(tables[which]!) }, ...missing },
      original: exact ? plain(session) : undefined,
      random,
    };
  }
  const text = damage(form === "jsonl" ? jsonl : tables.samples);
  const original = exact && form === "jsonl" ? plain(session) : undefined;
  if (random.uniform() < 0.85 || exact || text === "")
    return { name, input: { form: formOf(text, form), source: text, ...missing }, original, random };
  const bytes = new TextEncoder().encode(text);
  bytes[below(random, bytes.length)] = below(random, 256);
  return {
    name: "byte changed",
    input: { form: formOf(new TextDecoder().decode(bytes), form), source: bytes, ...missing },
    original: undefined,
    random,
  };
}

/** What the reader will take a text for: the first character of the first line that can be read tells. */
function formOf(text: string, form: "jsonl" | "lone"): "jsonl" | "lone" {
  const first = linesOf(text)
    .find((line) => line.length <= LONGEST)
    ?.trimStart()[0];
  return first === undefined ? form : first === "{" ? "jsonl" : "lone";
}

/** The part of a fault's text that stays the same when the input gets smaller. */
function kindOf(text: string): string {
  return text.split(":")[0]!.replace(/\d+/g, "#");
}

/** Leaves out lines, then characters, as long as the same kind of fault remains. */
async function shrink({ input, original, random }: Case, kind: string): Promise<Input> {
  const until = Date.now() + 5000;
  const fails = async (source: Input["source"]): Promise<boolean> => {
    try {
      const form = typeof source === "string" && input.form !== "tables" ? formOf(source, input.form) : input.form;
      await judge({ ...input, form, source }, undefined, random);
      return false;
    } catch (error) {
      return error instanceof Fault && kindOf(error.message) === kind;
    }
  };
  if (original !== undefined || input.source instanceof Uint8Array) return input;
  let { source } = input;
  const parts: readonly (string | undefined)[] = typeof source === "string" ? [undefined] : Object.keys(source);
  for (const separator of ["\n", ""]) {
    for (const part of parts) {
      const textNow = (): string => (part === undefined ? source : source[part as never]) as string;
      for (let size = Math.ceil(textNow().split(separator).length / 2); size >= 1; size = Math.floor(size / 2)) {
        for (let from = 0; from < textNow().split(separator).length && Date.now() < until; ) {
          const units = textNow().split(separator);
          const smaller = [...units.slice(0, from), ...units.slice(from + size)].join(separator);
          const next = part === undefined ? smaller : { ...(source as CsvTables), [part]: smaller };
          if (await fails(next)) source = next;
          else from += size;
        }
      }
    }
  }
  return { ...input, source };
}

function save({ source, ...rest }: Input, seed: number, index: number): string {
  const file = join(tmpdir(), `aimed-movement-fuzz-${seed}-${index}.json`);
  const content = source instanceof Uint8Array ? { base64: Buffer.from(source).toString("base64") } : { source };
  writeFileSync(file, JSON.stringify({ ...rest, ...content }, null, 1));
  return file;
}

function printTable(table: readonly (readonly [string, Record<string, number>])[]): void {
  const columns = (["strict", "repair"] as const).flatMap((mode) => OUTCOMES.map((outcome: Outcome) => `${mode}: ${outcome}`));
  const total: Record<string, number> = {};
  for (const [, row] of table) for (const column of columns) total[column] = (total[column] ?? 0) + (row[column] ?? 0);
  const width = Math.max(...table.map(([name]) => name.length));
  const head = OUTCOMES.map((outcome) => outcome.split(",")[0]!.split(" ")[0]!.padStart(9)).join("");
  console.log(`${"".padEnd(width)} |${"without repair".padStart(45)} |${"with repair".padStart(45)}`);
  console.log(`${"damage".padEnd(width)} |${head} |${head}`);
  const sorted = [...table].sort(([a], [b]) => (a < b ? -1 : 1));
  for (const [name, row] of [...sorted, ["all", total] as const]) {
    const cells = columns.map((column) => String(row[column] ?? 0).padStart(9));
    console.log(`${name.padEnd(width)} |${cells.slice(0, 5).join("")} |${cells.slice(5).join("")}`);
  }
  console.log(`outcomes: ${OUTCOMES.join("; ")}`);
}
