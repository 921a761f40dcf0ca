// The packed package used as a stranger would use it: installed from its tarball into an empty folder, from ES modules, from CommonJS, from
// TypeScript under both resolutions that understand `exports`, and through a bundler. Ends with 1 when one of them does not work.
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import { buildIfStale } from "../checks/build.js";
import { entryFolders, publicNames } from "../checks/public.js";
import { install, packInto } from "./pack.js";

/** What a page pays for one figure, imported as the README shows: bytes, minified and gzipped. */
const SIZES = [
  ["indexOfDifficulty", 1000],
  ["throughput", 3000],
] as const;

const bin = (name: string) => resolve("node_modules", ".bin", name);
const home = mkdtempSync(join(tmpdir(), "consumer-"));
let failed = 0;
let passed = 0;

buildIfStale();
await step("pack and install", () => {
  const { devDependencies } = JSON.parse(readFileSync("package.json", "utf8")) as { devDependencies: Record<string, string> };
  packInto(home);
  // whoever wants laws as text installs mathjs, too; everybody else does without
  run("node", ["--input-type=module", "-e", 'await import("aimed-movement"); await import("aimed-movement/simulate");']);
  install(home, `mathjs@${devDependencies.mathjs}`);
  checkContents();
});
if (failed === 0) {
  for (const file of ["esm.mjs", "commonjs.cjs", "types.mts", "command.mjs"])
    cpSync(join("tests", "consumers", "programs", file), join(home, file));
  writeFileSync(join(home, "names.json"), JSON.stringify(entryNames()));
  await step("the command, without charts", () => run("node", ["command.mjs", "plain"]));
  await step("the command, with charts", () => {
    const { devDependencies } = JSON.parse(readFileSync("package.json", "utf8")) as { devDependencies: Record<string, string> };
    const vega = ["vega", "vega-lite"].map((name) => `${name}@${devDependencies[name]}`);
    install(home, ...vega);
    run("node", ["command.mjs", "charts"]);
  });
  await step("ES modules", () => run("node", ["esm.mjs"]));
  await step("CommonJS", () => run("node", ["commonjs.cjs"]));
  for (const [module, resolution] of [
    ["node16", "node16"],
    ["esnext", "bundler"],
  ] as const) {
    await step(`TypeScript, strict, ${resolution} resolution`, () => compile("types.mts", module, resolution));
  }
  await step("TypeScript, strict, node16 resolution, CommonJS", () => {
    cpSync(join(home, "types.mts"), join(home, "types.cts"));
    compile("types.cts", "node16", "node16");
  });
  for (const [name, most] of SIZES) await step(`${name} alone, under ${most} bytes`, () => bundleAlone(name, most));
  await step("esbuild bundle", bundle);
}
rmSync(home, { recursive: true, force: true });
console.log(`consumers: ${passed} ok, ${failed} failed`);
process.exitCode = failed > 0 ? 1 : 0;

async function step(name: string, action: () => void | Promise<void>): Promise<void> {
  const started = performance.now();
  try {
    await action();
    passed++;
    console.log(`ok      ${name.padEnd(50)} ${((performance.now() - started) / 1000).toFixed(1)} s`);
  } catch (error) {
    failed++;
    const { stdout = "", stderr = "", message } = error as Error & { stdout?: string; stderr?: string };
    console.error(`FAILED  ${name}\n${message}\n${stdout}${stderr}`);
  }
}

function run(program: string, args: readonly string[]): void {
  execFileSync(program, args, { cwd: home, encoding: "utf8", stdio: "pipe" });
}

function compile(file: string, module: string, resolution: string): void {
  const compilerOptions = {
    ...{ noEmit: true, strict: true, exactOptionalPropertyTypes: true, noUncheckedIndexedAccess: true, skipLibCheck: false },
    ...{ target: "es2022", lib: ["es2022", "dom"], types: [], module, moduleResolution: resolution },
  };
  writeFileSync(join(home, "tsconfig.json"), JSON.stringify({ compilerOptions, files: [file] }));
  run(bin("tsc"), ["-p", "."]);
}

async function bundleAlone(name: string, most: number): Promise<void> {
  const contents = `export { ${name} } from "aimed-movement/fitts";`;
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: home },
    bundle: true,
    minify: true,
    format: "esm",
    platform: "browser",
    write: false,
    logLevel: "error",
  });
  const bytes = gzipSync(outputFiles[0]!.contents, { level: 9 }).length;
  if (bytes >= most) throw new Error(`${name} costs ${bytes} bytes`);
}

/** The bundle stands alone, and still does what the unbundled program does. */
async function bundle(): Promise<void> {
  const outfile = join(home, "bundled.mjs");
  await build({
    entryPoints: [join(home, "esm.mjs")],
    outfile,
    bundle: true,
    minify: true,
    format: "esm",
    platform: "node",
    logLevel: "error",
  });
  rmSync(join(home, "node_modules"), { recursive: true });
  run("node", ["bundled.mjs"]);
}

/** The values that each entry must export. */
function entryNames(): Record<string, string[]> {
  const { functions, main } = publicNames();
  const names: Record<string, string[]> = { "aimed-movement": [...main].sort() };
  for (const folder of entryFolders())
    names[`aimed-movement/${folder}`] = functions
      .filter((fn) => fn.folder === folder)
      .map((fn) => fn.name)
      .sort();
  return names;
}

/** What the tarball must hold, and what has no business in it. */
function checkContents(): void {
  const files = readdirSync(join(home, "node_modules", "aimed-movement"), { recursive: true, encoding: "utf8" });
  for (const wanted of [
    "package.json",
    "README.md",
    "LICENSE",
    "CHANGELOG.md",
    "dist/index.js",
    "dist/index.cjs",
    "dist/index.d.ts",
    "dist/cli.js",
  ]) {
    if (!files.includes(wanted)) throw new Error(`the tarball lacks ${wanted}`);
  }
  const foreign = files.filter((file) => /^(src|tests|docs|benchmarks|examples)\b|\.env|\.log$/.test(file));
  if (foreign.length > 0) throw new Error(`the tarball holds ${foreign.join(", ")}`);
  const paths = files.filter(
    (file) =>
      /\.(js|cjs|map|ts|cts|json)$/.test(file) &&
      readFileSync(join(home, "node_modules", "aimed-movement", file), "utf8").includes(process.cwd()),
  );
  if (paths.length > 0) throw new Error(`${paths.join(", ")} name the folder they were built in`);
}
