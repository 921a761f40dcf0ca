// Bundles: a page with a module worker, run in a browser; a program for Node that stands alone; and what a page pays that
// imports one function.
import { cpSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import { saidByPage } from "../page.js";
import { type Results, requireSame, said } from "../results.js";
import type { Check, Stranger } from "../stranger.js";

const VITE = "8.3.8";

/** What a page may pay for one figure, imported as the README shows: bytes, minified and gzipped. From the main entry as from its own. */
const SIZES = ["aimed-movement/fitts", "aimed-movement"].flatMap((entry) => [
  { name: "indexOfDifficulty", entry, most: 1000 },
  { name: "throughput", entry, most: 3000 },
]);

/** Bundles a folder with `index.html` and `main.mjs` into another. */
type Bundler = (stranger: Stranger, site: string) => Promise<string>;

const esbuild: Bundler = async ({ folder }, site) => {
  const outdir = folder();
  // a worker is an entry of its own here; the page finds it by its name
  const entryPoints = { main: join(site, "main.mjs"), "web-worker": join(site, "..", "web-worker.mjs") };
  const shape = {
    bundle: true,
    minify: true,
    format: "esm",
    platform: "browser",
    target: "es2022",
    outExtension: { ".js": ".mjs" },
  } as const;
  await build({ ...shape, entryPoints, outdir, logLevel: "error" });
  cpSync(join(site, "index.html"), join(outdir, "index.html"));
  return outdir;
};

const vite: Bundler = async (stranger, site) => {
  const outDir = stranger.folder();
  const { build: viteBuild } = await import(
    pathToFileURL(join(await stranger.tool("vite", VITE), "vite", "dist", "node", "index.js")).href
  );
  await viteBuild({
    ...{ root: site, configFile: false, logLevel: "error", worker: { format: "es" } },
    build: { outDir, emptyOutDir: true, modulePreload: false },
  });
  return outDir;
};

/** A page in the stranger's folder with this script. */
function siteOf({ full }: Stranger, script: string): string {
  const site = mkdtempSync(join(full, "site-"));
  writeFileSync(join(site, "index.html"), '<!doctype html><title>page</title><body><script type="module" src="./main.mjs"></script>');
  writeFileSync(join(site, "main.mjs"), script);
  return site;
}

async function pageWorks(stranger: Stranger, bundler: Bundler): Promise<void> {
  const built = await bundler(stranger, siteOf(stranger, 'import "../page.mjs";'));
  const { rows, ...results } = (await saidByPage(built)) as Results & { rows: number };
  if (rows !== 12) throw new Error(`the worker gave ${rows} rows of 12`);
  await requireSame(stranger, results);
}

async function costs(stranger: Stranger, bundler: Bundler): Promise<void> {
  for (const { name, entry, most } of SIZES) {
    const script = `import { ${name} } from "${entry}"; globalThis.said = ${name};`;
    const built = await bundler(stranger, siteOf(stranger, script));
    const code = readdirSync(built, { recursive: true, encoding: "utf8" }).filter((file) => /^(?!.*worker).*\.m?js$/.test(file));
    if (code.length !== 1) throw new Error(`${code.join(", ")} instead of one script`);
    const bytes = gzipSync(readFileSync(join(built, code[0]!)), { level: 9 }).length;
    if (bytes >= most) throw new Error(`${name} of ${entry} costs ${bytes} bytes, ${most} allowed`);
  }
}

async function standsAlone(stranger: Stranger): Promise<void> {
  const { full, folder } = stranger;
  const alone = folder();
  const outfile = join(alone, "bundled.mjs");
  await build({ entryPoints: [join(full, "say-imported.mjs")], outfile, bundle: true, minify: true, format: "esm", platform: "node" });
  await requireSame(stranger, await said(alone, process.execPath, [outfile]));
}

export const checks: readonly Check[] = [
  { name: "esbuild: a program for node that stands alone", run: standsAlone },
  ...Object.entries({ esbuild, [`vite ${VITE}`]: vite }).flatMap(([name, bundler]) => [
    { name: `${name}: a page and its module worker, in a browser`, run: (stranger: Stranger) => pageWorks(stranger, bundler) },
    { name: `${name}: one function costs no more than it is`, run: (stranger: Stranger) => costs(stranger, bundler) },
  ]),
];
