// What a user pays before the first call: the time to load the main entry in a fresh process, and the bytes that a page loads.
import { execFileSync } from "node:child_process";
import { median } from "simple-statistics";
import { bundledBytes } from "../tests/bundle.js";
import type { Figure } from "../tests/validation/figure.js";

const RUNS = 11;
const LOAD_MS = 60;
const LOAD_BYTES = 90_000;
/** Prints the milliseconds on the clock and on the processor, so that a busy machine can be told from a slow import. */
const PROGRAM = `const cpu = process.cpuUsage(), t = performance.now();
await import("aimed-movement");
const clock = performance.now() - t, { user, system } = process.cpuUsage(cpu);
console.log(JSON.stringify([clock, (user + system) / 1000]));`;

export async function run(): Promise<Figure[]> {
  const runs = Array.from({ length: RUNS }, () => {
    const printed = execFileSync(process.execPath, ["--input-type=module", "-e", PROGRAM], { encoding: "utf8" });
    return JSON.parse(printed) as [number, number];
  });
  const clock = median(runs.map(([time]) => time));
  const processor = median(runs.map(([, time]) => time));
  const bytes = await bundledBytes("aimed-movement", []);
  const source = `median of ${RUNS} fresh processes`;
  return [
    { name: "import/main entry, ms", value: clock, bar: `< ${LOAD_MS}`, ok: clock < LOAD_MS, source },
    { name: "import/main entry, ms of processor time", value: processor, bar: "printed", ok: true, source },
    {
      name: "import/main entry, bytes minified and gzipped",
      value: bytes,
      bar: `< ${LOAD_BYTES}`,
      ok: bytes < LOAD_BYTES,
      source: "esbuild, gzip -9",
    },
  ];
}
