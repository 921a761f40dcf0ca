// A newcomer's walk, from the README to a report of a recording of one's own: npm run walk. The README's own commands run in a fresh copy of the
// repository without anything made here; then a recording is made on the live page, and the packed command, installed in an empty folder, must say of it
// what the page said. Ends with 1 when a step fails; where there is no Chromium the second half is left out, which is said.
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { check, tellChecks } from "../browser/checks.js";
import { noBrowser } from "../browser/chromium.js";
import { buildSiteIfStale } from "../browser/live-site.js";
import { buildIfStale } from "../checks/build.js";
import { arrive } from "../consumers/stranger.js";
import { readmeCommands } from "./readme-commands.js";
import { recordOneRound } from "./record-one-round.js";

/** What a build or a run leaves behind, and a newcomer does not have. */
const MADE = new Set(["node_modules", "dist", "site", "output", "reports", "coverage", ".git"]);

const folder = mkdtempSync(join(tmpdir(), "walk-"));
try {
  firstMinutes(join(folder, "copy"));
  const without = noBrowser();
  if (without === undefined) await ownRecording();
  else console.log(`skipped: a recording on the live page, ${without}`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = tellChecks();

/** What the README says to try, in a copy without anything that was made here. */
function firstMinutes(copy: string): void {
  cpSync(process.cwd(), copy, { recursive: true, filter: (from) => !MADE.has(basename(from)) });
  const { scripts } = JSON.parse(readFileSync(join(copy, "package.json"), "utf8")) as { scripts: Record<string, string> };
  const commands = readmeCommands(readFileSync(join(copy, "README.md"), "utf8"));
  check(`README: ${commands.length} commands to try`, commands.length > 0);
  for (const command of commands) {
    const named = [...command.matchAll(/npm (?:run )?([a-z:]+)/g)].map(([, name]) => name!).filter((name) => name !== "ci");
    check(
      `README: "${command}" names scripts that are there`,
      named.every((name) => name in scripts),
      named,
    );
    // the tests take minutes, and have a step of their own
    if (command.includes("npm test")) continue;
    const started = performance.now();
    const env = { ...process.env, npm_config_prefer_offline: "true" };
    execFileSync("bash", ["-c", command], { cwd: copy, env, stdio: "pipe", maxBuffer: 1e8 });
    console.log(`      ran "${command}" in ${((performance.now() - started) / 1000).toFixed(0)} s`);
  }
  const reports = readdirSync(join(copy, "examples", "output", "report")).filter((name) => name.endsWith(".html"));
  const whole = reports.filter((name) =>
    readFileSync(join(copy, "examples", "output", "report", name), "utf8").includes("What costs most"),
  );
  check(
    `README: ${reports.length} reports are there, each with an answer to what costs most`,
    reports.length > 0 && whole.length === reports.length,
    reports,
  );
}

/** A recording made on the live page, read by the command of the packed package. */
async function ownRecording(): Promise<void> {
  buildIfStale();
  buildSiteIfStale();
  const { path, said } = await recordOneRound();
  const { plain } = await arrive();
  cpSync(path, join(plain, "mine.jsonl"));
  const run = (...args: string[]): string => execFileSync("npx", ["aimed-movement", ...args], { cwd: plain, encoding: "utf8" });
  const text = run("mine.jsonl", "--quiet");
  run("mine.jsonl", "--form", "html", "--out", "pages", "--quiet");
  const pages = readdirSync(join(plain, "pages"));
  check("command: one page, of the visitor", pages.join() === "visitor.html", pages);
  const html = readFileSync(join(plain, "pages", "visitor.html"), "utf8");
  for (const [form, report] of [
    ["text", text],
    ["html", html],
  ] as const) {
    check(`command, ${form}: ${said.acquisitions} acquisitions, as the page said`, report.includes(`${said.acquisitions} acquisitions`));
    const missing = said.times.filter(([stretch, mean]) => !report.includes(stretch) || !report.includes(mean));
    check(`command, ${form}: the same ${said.times.length} mean times as the page`, said.times.length > 4 && missing.length === 0, missing);
  }
}
