import { readFileSync } from "node:fs";
import { defineConfig, type Options } from "tsup";

/** Every subpath of the package is a folder of the source. */
const { exports: entries } = JSON.parse(readFileSync("package.json", "utf8")) as { exports: Record<string, unknown> };
const folders = Object.keys(entries).flatMap((entry) => (/^\.\/[a-z]+$/.test(entry) ? [entry.slice(2)] : []));
const library = ["src/index.ts", ...folders.map((folder) => `src/${folder}/index.ts`)];

// No source maps: what is built is not minified and keeps its names, so a debugger and a stack trace can be read without; they were 6.3 of 10 MB.
const code: Options = { target: "es2022", splitting: true };
/** Each pass clears what the last build left of its own kind, and nothing that another writes meanwhile. */
const keep = (...endings: string[]): string[] => endings.map((ending) => `!**/*.${ending}`);

const passes: Options[] = [
  // the command and what its workers run are ES modules and need no second form
  { ...code, entry: [...library, "src/cli.ts", "src/cli/worker.ts"], format: "esm", clean: keep("cjs", "d.ts", "d.cts") },
  { ...code, entry: library, format: "cjs", clean: keep("js", "d.ts", "d.cts") },
  // TypeScript 6 calls tsup's internal baseUrl deprecated; without this the declarations fail to build.
  { entry: library, format: ["esm", "cjs"], clean: true, dts: { only: true, compilerOptions: { ignoreDeprecations: "6.0" } } },
];

/** The benchmarks, which run without a loader; what they measure is read from where their users would have it. */
const benchmarks: Options = {
  ...code,
  entry: ["benchmarks/*.ts"],
  outDir: "benchmarks/built",
  format: "esm",
  clean: true,
  skipNodeModulesBundle: true,
};

// a build without declarations leaves those of the last full build in place
export default defineConfig(process.env.BENCHMARKS ? benchmarks : passes.filter(({ dts }) => !dts || !process.env.NO_TYPES));
