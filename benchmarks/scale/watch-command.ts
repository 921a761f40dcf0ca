import { spawn } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import type { Writable } from "node:stream";

const COMMAND = resolve("dist", "cli.js");
const PAUSE = 50;

/** What one run of the built command took, its start included. */
export interface Watched {
  readonly seconds: number;
  /** Largest memory of all its threads, MiB; 0 where the system does not tell. */
  readonly peak: number;
  readonly rows: number;
}

/** Runs the built command, counts the lines that it gives, and ends with an error when it does. */
export async function watchCommand(argv: readonly string[], feed: (into: Writable) => Promise<void>): Promise<Watched> {
  const begun = performance.now();
  const child = spawn(process.execPath, [COMMAND, ...argv], { stdio: ["pipe", "pipe", "inherit"] });
  let rows = -1;
  child.stdout.on("data", (piece: Buffer) => {
    for (let at = piece.indexOf(10); at !== -1; at = piece.indexOf(10, at + 1)) rows++;
  });
  let peak = 0;
  const status = `/proc/${child.pid}/status`;
  const watch = setInterval(() => {
    const text = existsSync(status) ? readFileSync(status, "utf8") : "";
    peak = Math.max(peak, Number(/VmHWM:\s*(\d+)/.exec(text)?.[1] ?? 0) / 1024);
  }, PAUSE);
  const closed = new Promise<number | null>((done) => child.on("close", done));
  await feed(child.stdin);
  child.stdin.end();
  const code = await closed;
  clearInterval(watch);
  if (code !== 0) throw new Error(`aimed-movement ${argv.join(" ")} ended with ${code}`);
  return { seconds: (performance.now() - begun) / 1000, peak, rows };
}
