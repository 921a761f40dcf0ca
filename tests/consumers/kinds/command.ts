// The command of the installed package, alone and with the packages that draw its charts.
import { join } from "node:path";
import { type Check, run } from "../stranger.js";

const INSTALLED = join("node_modules", ".bin", process.platform === "win32" ? "aimed-movement.cmd" : "aimed-movement");

/** Runs the command on files and on standard input, in the way and the surroundings given. */
export function commandWorks(
  cwd: string,
  env: Readonly<Record<string, string>> = {},
  command: readonly string[] = [INSTALLED],
  charts: "plain" | "charts" = "charts",
): Promise<unknown> {
  return run(cwd, process.execPath, ["command.mjs", charts, ...command], env);
}

export const checks: readonly Check[] = [
  { name: "command: without charts, and it says so", run: ({ plain }) => commandWorks(plain, {}, [INSTALLED], "plain") },
  { name: "command: with charts", run: ({ full }) => commandWorks(full) },
];
