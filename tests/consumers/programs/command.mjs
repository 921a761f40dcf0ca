// The command alone, as a coach would run it: recordings in a folder, pages out, without charts and with them.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { simulateRecording } from "aimed-movement/simulate";
import { formatRecording } from "aimed-movement/trace";

const command = join("node_modules", ".bin", process.platform === "win32" ? "aimed-movement.cmd" : "aimed-movement");
const charts = process.argv[2] === "charts";
rmSync("club", { recursive: true, force: true });
mkdirSync("club");
for (const [person, seeds] of Object.entries({ Ada: [1, 2, 3, 4], Bo: [5] })) {
  for (const seed of seeds) {
    const { recording } = simulateRecording({ seed, movements: 30 });
    const session = { person, startedAt: `2026-03-0${seed}T18:00:00Z`, equipment: { id: "desk" }, recordings: [recording] };
    writeFileSync(join("club", `${person}-${seed}.jsonl`), formatRecording(session));
  }
}

execFileSync(command, ["club", "--form", "html", "--out", "pages", "--quiet"]);
assert.deepEqual(readdirSync("pages"), ["Ada.html", "Bo.html"]);
const page = readFileSync(join("pages", "Ada.html"), "utf8");
assert.ok(page.includes('<h2 id="cost">What costs most</h2>'));
assert.equal(page.includes("<figure>"), charts);

const lines = execFileSync(command, ["--form", "json", "--quiet"], { input: readFileSync(join("club", "Bo-5.jsonl")), encoding: "utf8" });
const kinds = lines
  .trim()
  .split("\n")
  .map((line) => JSON.parse(line).kind);
assert.equal(kinds.filter((kind) => kind === "acquisition").length, 30);
assert.deepEqual(kinds.slice(30), ["summary", "review"]);

const text = execFileSync(command, ["club", "--person", "Ada", "--quiet"], { encoding: "utf8" });
assert.ok(text.startsWith("Pointing practice of Ada\n"));
assert.throws(() => execFileSync(command, ["absent"], { stdio: "pipe" }), { status: 2 });
