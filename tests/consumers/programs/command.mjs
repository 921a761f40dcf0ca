// The command as a coach would run it: recordings in a folder or on standard input, pages and text out, with charts or without.
// node command.mjs plain|charts COMMAND...
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { simulateRecording } from "aimed-movement/simulate";
import { formatRecording } from "aimed-movement/trace";

const [charts, program, ...first] = process.argv.slice(2);
const club = mkdtempSync(join(tmpdir(), "club-"));
const pages = join(club, "pages");
const command = (args, input, status = 0) => {
  const done = spawnSync(program, [...first, ...args], { input, encoding: "utf8" });
  if (done.error) throw done.error;
  assert.equal(done.status, status, done.stderr);
  return done;
};

for (const [person, seeds] of Object.entries({ Ada: [1, 2, 3, 4], Bo: [5] })) {
  for (const seed of seeds) {
    const { recording } = simulateRecording({ seed, movements: 30 });
    const session = { person, startedAt: `2026-03-0${seed}T18:00:00Z`, equipment: { id: "desk" }, recordings: [recording] };
    writeFileSync(join(club, `${person}-${seed}.jsonl`), formatRecording(session));
  }
}

const { stderr } = command([club, "--form", "html", "--out", pages]);
assert.equal(stderr.includes("pages without charts: install vega"), charts === "plain", stderr);
assert.deepEqual(readdirSync(pages), ["Ada.html", "Bo.html"]);
const page = readFileSync(join(pages, "Ada.html"), "utf8");
assert.ok(page.includes('<h2 id="cost">What costs most</h2>'));
assert.equal(page.includes("<figure>"), charts === "charts");
rmSync(pages, { recursive: true });

const file = join(club, "Bo-5.jsonl");
const fromFile = command([file, "--form", "json", "--quiet"]).stdout;
const fromInput = command(["--form", "json", "--quiet"], readFileSync(file)).stdout;
assert.ok(fromInput === fromFile.replaceAll(JSON.stringify(file), '"standard input"'), "a file and standard input give different lines");
const lines = fromFile.trim().split("\n").map(JSON.parse);
const kinds = lines.map(({ kind }) => kind);
assert.equal(kinds.filter((kind) => kind === "acquisition").length, 30);
assert.deepEqual(kinds.slice(30), ["summary", "review"]);

assert.ok(command([club, "--person", "Ada", "--quiet"]).stdout.startsWith("Pointing practice of Ada\n"));
command(["absent"], "", 2);
rmSync(club, { recursive: true });
