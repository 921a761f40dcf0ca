import { defineConfig } from "tsup";

export default defineConfig({
  entry: ["src/index.ts", "src/{trace,movement,record,simulate}/index.ts"],
  format: ["esm", "cjs"],
  target: "es2022",
  splitting: true,
  sourcemap: true,
  clean: true,
  // TypeScript 6 calls tsup's internal baseUrl deprecated; without this the declarations fail to build.
  dts: process.env.NO_TYPES ? false : { compilerOptions: { ignoreDeprecations: "6.0" } },
});
