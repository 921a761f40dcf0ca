import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "tsup";

/** Every subpath of the package is a folder of the source. */
const { exports: entries } = JSON.parse(readFileSync("package.json", "utf8")) as { exports: Record<string, unknown> };
const folders = Object.keys(entries).flatMap((entry) => (/^\.\/[a-z]+$/.test(entry) ? [entry.slice(2)] : []));
const library = ["src/index.ts", ...folders.map((folder) => `src/${folder}/index.ts`)];

/** The command and what its workers run: ES modules alone. */
const command = ["src/cli.ts", "src/cli/worker.ts"];

export default defineConfig({
  entry: [...library, ...command],
  format: ["esm", "cjs"],
  target: "es2022",
  splitting: true,
  sourcemap: true,
  // a build without declarations leaves those of the last full build in place
  clean: !process.env.NO_TYPES,
  // TypeScript 6 calls tsup's internal baseUrl deprecated; without this the declarations fail to build.
  dts: process.env.NO_TYPES ? false : { entry: library, compilerOptions: { ignoreDeprecations: "6.0" } },
  esbuildOptions: (options) => {
    options.logOverride = { "empty-import-meta": "silent" };
  },
  onSuccess: async () => {
    for (const file of command.flatMap((source) =>
      [".cjs", ".cjs.map"].map((ending) => source.replace("src", "dist").replace(".ts", ending)),
    ))
      rmSync(file);
    // The pass that writes CommonJS names its own input by its full path; a published map must not tell of the machine it was built on.
    for (const name of readdirSync("dist", { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".cjs.map"))) {
      const file = join("dist", name);
      writeFileSync(file, readFileSync(file, "utf8").replaceAll(JSON.stringify(process.cwd()).slice(1, -1), "aimed-movement"));
    }
  },
});
