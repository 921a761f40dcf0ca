// What `exports` does not name cannot be reached, by neither way.
import assert from "node:assert/strict";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
for (const inside of ["dist/index.js", "dist/index.cjs", "dist/trace/index.js", "math", "trace/index.js", "cli", "dist/cli.js"]) {
  const path = `aimed-movement/${inside}`;
  await assert.rejects(import(path), { code: "ERR_PACKAGE_PATH_NOT_EXPORTED" }, path);
  assert.throws(() => require(path), { code: "ERR_PACKAGE_PATH_NOT_EXPORTED" }, path);
}
