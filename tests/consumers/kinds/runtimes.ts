// Runtimes beside Node: the entries, the analyzer on a worker thread, and the command.
import { join } from "node:path";
import { requireSame, said } from "../results.js";
import { type Check, run, type Stranger } from "../stranger.js";
import { commandWorks } from "./command.js";

/** Name, version, and what comes before the file to run. */
const RUNTIMES = [
  ["deno", "2.9.6", ["run", "--node-modules-dir=manual", "--allow-all", "--no-lock"]],
  ["bun", "1.4.5", []],
] as const;

export const checks: readonly Check[] = RUNTIMES.map(([name, version, before]) => ({
  name: `${name} ${version}: the entries, a worker and the command`,
  run: async (stranger: Stranger) => {
    const { full } = stranger;
    const runtime = join(await stranger.tool(name, version), ".bin", name);
    // deno keeps what it compiled in the user's folder otherwise
    const env = { DENO_DIR: stranger.folder() };
    for (const program of ["say-imported.mjs", "say-required.cjs"])
      await requireSame(stranger, await said(full, runtime, [...before, program], env));
    await run(full, runtime, [...before, "thread.mjs"], env);
    await commandWorks(full, env, [runtime, ...before, join("node_modules", "aimed-movement", "dist", "cli.js")]);
  },
}));
