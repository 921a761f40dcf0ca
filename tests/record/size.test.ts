import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import { describe, expect, it } from "vitest";

const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");

describe("the size of the recorder's entry", () => {
  it("is below 2000 bytes as it travels, and below 2700 before compression", async () => {
    const { outputFiles, metafile } = await build({
      stdin: { contents: `export { createRecorder } from "./src/record/index.js";`, resolveDir: root },
      absWorkingDir: root,
      bundle: true,
      minify: true,
      format: "esm",
      write: false,
      metafile: true,
    });
    const bytes = outputFiles[0]!.contents;
    expect(gzipSync(bytes).length).toBeLessThan(2000);
    // not a bar of its own: what it is now and a little more, so that growth is seen
    expect(bytes.length).toBeLessThan(2700);
    const others = Object.keys(metafile.inputs).filter(
      (file) => file !== "<stdin>" && !resolve(root, file).startsWith(join(root, "src", "record")),
    );
    expect(others).toEqual([]);
  });
});
