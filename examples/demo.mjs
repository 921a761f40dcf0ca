// The main job in one go: from a folder of recordings to the decision what holds each person back, whether it is the equipment, and what to practise next.
// Run: npm run demo             six weeks of an invented club, simulated; a report per trainee in examples/output/report
//      npm run demo -- PATH…    any recordings in the library's own form: files, or folders of them
import { spawnSync } from "node:child_process";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { makeClub } from "./club.mjs";

const command = fileURLToPath(new URL("../dist/cli.js", import.meta.url));
const output = fileURLToPath(new URL("output", import.meta.url));
const report = join(output, "report");
rmSync(report, { recursive: true, force: true });
let paths = process.argv.slice(2);

if (paths.length === 0) {
  const club = join(output, "club");
  rmSync(club, { recursive: true, force: true });
  const { files, stories } = makeClub(club);
  console.log(`${files.length} simulated evenings of an invented club; nobody's real movements. The truth behind them:`);
  for (const { person, story, sessions } of stories) console.log(`  ${person}: ${sessions.length} evenings; ${story}.`);
  console.log(`\nWhat the recordings say (${club}):`);
  paths = [club];
}

// pages for reading, and the same as lines of JSON for programs
run([...paths, "--form", "html", "--among", "--out", report]);
const lines = run([...paths, "--form", "json", "--among", "--quiet"], "pipe").split("\n");
for (const line of lines.filter((text) => text.startsWith('{"kind":"review"'))) show(JSON.parse(line));
console.log(`\nThe reports: ${report}`);

/** Runs the command as a person would; gives what it wrote to standard output. */
function run(options, stdout = "inherit") {
  const { status, stdout: text } = spawnSync(process.execPath, [command, ...options], {
    stdio: ["ignore", stdout, "inherit"],
    encoding: "utf8",
    maxBuffer: 2 ** 30,
  });
  if (status !== 0) process.exitCode = 1;
  return text ?? "";
}

/** The first sentence of each answer. */
function show({ person, sessions, rows, answers, diagnosis }) {
  console.log(`\n${person}, ${sessions} sessions, ${rows} acquisitions; verdict: ${Object.values(diagnosis.verdict).join(", ")}`);
  for (const [question, answer] of [
    ["what costs most", answers.costsMost[0]],
    ["is it real?", answers.isItReal.find((sentence) => /for real/.test(sentence)) ?? answers.isItReal[0]],
    ["the equipment?", answers.isItTheEquipment.at(-2) ?? answers.isItTheEquipment[0]],
    ["what next", answers.whatNext[0]],
    ["when to stop", answers.whenToStop[0]],
    ["not known", answers.cannotSay.join("; ")],
  ]) {
    console.log(`  ${question.padEnd(16)} ${answer ?? ""}`);
  }
}
