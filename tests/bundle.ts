// What a user's page would load: an import of this package, bundled, minified and compressed.
import { gzipSync } from "node:zlib";
import { build } from "esbuild";

/** Bytes of a program that uses `names` (all of it when empty) of the entry, after esbuild's minifier and gzip. */
export async function bundledBytes(entry: string, names: readonly string[]): Promise<number> {
  const contents = names.length > 0 ? `export { ${names.join(", ")} } from "${entry}";` : `export * from "${entry}";`;
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: process.cwd() },
    bundle: true,
    minify: true,
    write: false,
    format: "esm",
    platform: "browser",
    target: "es2022",
    logLevel: "error",
  });
  return gzipSync(outputFiles[0]!.contents, { level: 9 }).length;
}
