// A run that is stopped, at whatever moment, and gone on with gives the bytes of one that was not.
import { spawn } from "node:child_process";
import { appendFileSync, existsSync, readdirSync, readFileSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fc, test } from "@fast-check/vitest";
import { afterAll, describe, expect, it } from "vitest";
import { bundleCommand } from "./bundle-command.js";
import { killAndResume } from "./kill-and-resume.js";
import { folderWith, removeFolders, run, sitting } from "./run-command.js";

const { command, remove } = bundleCommand();
afterAll(() => {
  removeFolders();
  remove();
});

const texts = [1, 2, 3, 4, 5, 6].map((day) => sitting(day % 2 === 0 ? "Bo" : "Ada", day, { movements: 12 }));
const folder = folderWith({
  "a.jsonl": texts[0]!,
  "b.jsonl": texts.slice(1, 4).join(""),
  "c.jsonl": texts[4]!.replace('"kind":"trial"', '"kind":"trail"'),
  "d.jsonl": texts[5]!,
  "e.jsonl": texts[0]!,
});

const journalLines = (path: string): number => (existsSync(path) ? readFileSync(path, "latin1").split("\n").length - 2 : 0);

interface Left {
  readonly out: string;
  readonly journal: string;
  readonly code: number | null;
  readonly err: string;
}

/** A run that got a signal when its journal held some sessions: what it left. */
async function ended(form: string, signal: "SIGKILL" | "SIGTERM", sessions = 3, ...options: string[]): Promise<Left> {
  const out = join(folderWith({}), "out");
  const child = spawn(process.execPath, [command, folder, "--form", form, "--out", out, ...options]);
  let err = "";
  child.stderr.on("data", (text) => {
    err += text;
  });
  const closed = new Promise<number | null>((done) => child.on("close", done));
  const journal = `${out}.journal`;
  const end = Date.now() + 20_000;
  while (journalLines(journal) < sessions && Date.now() < end) await new Promise((go) => setTimeout(go, 1));
  child.kill(signal);
  return { out, journal, code: await closed, err };
}

const killed = (form: string, sessions?: number, ...options: string[]): Promise<Left> => ended(form, "SIGKILL", sessions, ...options);

const bytesAt = (out: string): string[] =>
  existsSync(join(out, "Bo.html"))
    ? readdirSync(out).map((name) => name + readFileSync(join(out, name), "utf8"))
    : [readFileSync(out, "latin1")];

describe("a run that was killed", () => {
  it.each(["csv", "parquet", "json", "tally", "text", "html"])(
    "gives the same %s when it is gone on with, and tells the same",
    { timeout: 60_000 },
    async (form) => {
      const whole = join(folderWith({}), "out");
      const told = await run([folder, "--form", form, "--out", whole, "--person", "Bo"]);
      const { out, journal } = await killed(form, 3, "--person", "Bo");
      expect(existsSync(journal)).toBe(true);
      const again = await run([folder, "--form", form, "--out", out, "--person", "Bo", "--resume"]);
      expect({ code: again.code, err: again.err.replaceAll(out, whole) }).toEqual({ code: told.code, err: told.err });
      expect(bytesAt(out)).toEqual(bytesAt(whole));
      expect(readdirSync(join(out, "..")).filter((name) => name !== "out")).toEqual([]);
    },
  );
  it("five times, at random moments", { timeout: 120_000 }, async () => {
    const { whole, resumed, kills } = await killAndResume(command, folder, "csv", 5, 31);
    expect(kills).toBeGreaterThan(0);
    expect(resumed.equals(whole)).toBe(true);
  });
  // Source: POSIX: a process that a signal ended is told as 128 plus its number, 15 for SIGTERM
  it("or told to end says what there is to go on with", async () => {
    const { out, journal, code, err } = await ended("csv", "SIGTERM");
    expect(code).toBe(143);
    expect(err).toMatch(/\d sessions are done; go on with --resume, or remove .*out\.journal\n$/);
    expect(readdirSync(join(out, ".."))).toEqual(["out.journal"]);
    expect((await run([folder, "--form", "csv", "--out", out, "--resume"])).code).toBe(1);
    expect(existsSync(journal)).toBe(false);
    expect(readFileSync(out, "latin1")).toBe(await wholeCsv());
  });
  it("is not begun anew unless its journal is removed", async () => {
    const { out, journal } = await killed("csv");
    const { code, err } = await run([folder, "--form", "csv", "--out", out]);
    expect(code).toBe(2);
    expect(err).toMatch(/an earlier run was stopped after \d sessions; go on with --resume, or remove .*out\.journal/);
    expect(existsSync(journal)).toBe(true);
  });
  it("is refused with other options, other files and files that have changed", async () => {
    const { out, journal } = await killed("csv");
    const refused = async (...argv: string[]): Promise<string> => {
      const { code, err } = await run([...argv, "--out", out, "--resume"]);
      expect(code).toBe(2);
      expect(existsSync(journal)).toBe(true);
      return err;
    };
    expect(await refused(folder, "--form", "csv", "--seed", "2")).toContain("--seed was 1, and is 2");
    expect(await refused(folder, "--form", "json")).toContain('--form was "csv", and is "json"');
    expect(await refused(join(folder, "a.jsonl"), "--form", "csv")).toMatch(/it read .*b\.jsonl, which this one does not/);
    expect((await run(["--form", "csv", "--out", out, "--resume"], [texts[0]!])).err).toContain(
      "standard input and pipes cannot be read again",
    );
    const head = readFileSync(journal, "utf8");
    writeFileSync(journal, head.replace(/"version":"[^"]*"/, '"version":"0.0.1"'));
    expect(await refused(folder, "--form", "csv")).toMatch(/it was of version 0\.0\.1, this is \d/);
    writeFileSync(journal, head);
    const later = new Date(Date.now() + 5000);
    utimesSync(join(folder, "d.jsonl"), later, later);
    expect(await refused(folder, "--form", "csv")).toMatch(/d\.jsonl has changed: it had \d+ bytes written .*, it has \d+ bytes written /);
  });
  test.prop([fc.nat(), fc.constantFrom("cut", "flip", "tail")], { numRuns: 8 })(
    "with its journal damaged anywhere behind its first line",
    async (at, damage) => {
      const { whole, left } = await torn();
      const out = join(folderWith({}), "out");
      const journal = `${out}.journal`;
      const bytes = Buffer.from(left);
      writeFileSync(journal, bytes);
      const first = bytes.indexOf(10) + 1;
      const place = first + (at % (bytes.length - first));
      if (damage === "cut") writeFileSync(journal, bytes.subarray(0, place));
      else if (damage === "tail") appendFileSync(journal, '{"sum":"0000');
      else {
        bytes[place] = bytes[place]! ^ 1;
        writeFileSync(journal, bytes);
      }
      await run([folder, "--form", "csv", "--out", out, "--resume", "--quiet"]);
      expect(readFileSync(out, "latin1")).toBe(whole);
    },
  );
  it("writes over no file that only has the name of a journal", async () => {
    const home = folderWith({ "out.journal": "mine" });
    const { code, err } = await run([folder, "--form", "csv", "--out", join(home, "out")]);
    expect(code).toBe(2);
    expect(err).toContain("is no journal of this program");
    expect(readdirSync(home)).toEqual(["out.journal"]);
  });
});

let once: Promise<{ readonly whole: string; readonly left: Buffer }> | undefined;
/** A whole table and the journal of a run that was killed: made once, since each case damages a copy. */
function torn(): NonNullable<typeof once> {
  once ??= (async () => ({ whole: await wholeCsv(), left: readFileSync((await killed("csv", 4)).journal) }))();
  return once;
}

async function wholeCsv(): Promise<string> {
  const out = join(folderWith({}), "out");
  await run([folder, "--form", "csv", "--out", out, "--quiet"]);
  return readFileSync(out, "latin1");
}
