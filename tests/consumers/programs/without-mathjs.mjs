// Beside no other package, all but one entry work, and that one says what it lacks.
import assert from "node:assert/strict";
import { createRequire } from "node:module";

const require = createRequire(import.meta.url);
const { exports } = require("aimed-movement/package.json");
for (const path of Object.keys(exports)) {
  if (path === "./formula" || path.endsWith(".json")) continue;
  await import(path.replace(".", "aimed-movement"));
  require(path.replace(".", "aimed-movement"));
}
await assert.rejects(import("aimed-movement/formula"), /mathjs/);
assert.throws(() => require("aimed-movement/formula"), /mathjs/);
