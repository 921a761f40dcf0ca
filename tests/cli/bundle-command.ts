// The command as one file that Node runs, with its worker beside it: compiling the source anew for every process would take longer than all else.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { buildSync } from "esbuild";

/** Where it lies, what its workers run, and how it goes away again. */
export function bundleCommand(): { readonly command: string; readonly worker: URL; readonly remove: () => void } {
  // below node_modules, so that what it imports is found
  const cache = resolve("node_modules", ".cache");
  mkdirSync(cache, { recursive: true });
  const folder = mkdtempSync(join(cache, "aimed-movement-command-"));
  writeFileSync(join(folder, "package.json"), '{"type":"module"}');
  buildSync({
    entryPoints: { cli: resolve("src/cli.ts"), "cli/worker": resolve("src/cli/worker.ts") },
    outdir: folder,
    bundle: true,
    platform: "node",
    format: "esm",
    external: ["vega", "vega-lite", "mathjs", "tinypool", "hyparquet-writer"],
    logLevel: "warning",
  });
  return {
    command: join(folder, "cli.js"),
    worker: pathToFileURL(join(folder, "cli", "worker.js")),
    remove: () => rmSync(folder, { recursive: true }),
  };
}
