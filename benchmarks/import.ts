// What a user pays before the first call: the time to load an entry, or to ask the command for its help, in a fresh process. The bytes that a page
// loads have their budgets in tests/size.test.ts.
import { execFileSync } from "node:child_process";
import { median } from "simple-statistics";
import { entryFolders } from "../tests/checks/public.js";
import type { Figure } from "../tests/validation/figure.js";

const RUNS = 11;
const RUNS_OF_ENTRY = 5;
const LOAD_MS = 60;
/** An empty process of Node takes about half of it. */
const HELP_MS = 150;

/** Median milliseconds on the clock and on the processor, so that a busy machine can be told from a slow import. */
function loadTimes(entry: string, runs: number): [clock: number, processor: number] {
  const program = `const cpu = process.cpuUsage(), t = performance.now();
await import(${JSON.stringify(entry)});
const clock = performance.now() - t, { user, system } = process.cpuUsage(cpu);
console.log(JSON.stringify([clock, (user + system) / 1000]));`;
  const times = Array.from({ length: runs }, () => {
    const printed = execFileSync(process.execPath, ["--input-type=module", "-e", program], { encoding: "utf8" });
    return JSON.parse(printed) as [number, number];
  });
  return [median(times.map(([clock]) => clock)), median(times.map(([, processor]) => processor))];
}

function helpTime(): number {
  const times = Array.from({ length: RUNS }, () => {
    const started = performance.now();
    execFileSync(process.execPath, ["dist/cli.js", "--help"]);
    return performance.now() - started;
  });
  return median(times);
}

export async function run(): Promise<Figure[]> {
  const [clock, processor] = loadTimes("aimed-movement", RUNS);
  const help = helpTime();
  const source = (runs: number) => `median of ${runs} fresh processes`;
  return [
    { name: "import/main entry, ms", value: clock, bar: `< ${LOAD_MS}`, ok: clock < LOAD_MS, source: source(RUNS) },
    { name: "import/main entry, ms of processor time", value: processor, bar: "printed", ok: true, source: source(RUNS) },
    ...entryFolders().map((folder) => {
      const [value] = loadTimes(`aimed-movement/${folder}`, RUNS_OF_ENTRY);
      // mathjs is most of it, and nobody loads it without wanting it
      const bar = folder === "formula" ? undefined : LOAD_MS;
      return {
        name: `import/${folder}, ms`,
        value,
        bar: bar === undefined ? "printed" : `< ${bar}`,
        ok: bar === undefined || value < bar,
        source: source(RUNS_OF_ENTRY),
      };
    }),
    { name: "import/command --help, ms", value: help, bar: `< ${HELP_MS}`, ok: help < HELP_MS, source: source(RUNS) },
  ];
}
