import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { VERSION } from "../../src/math/version.js";
import { formatRecording } from "../../src/trace/format-recording.js";
import { parseRecording } from "../../src/trace/parse-recording.js";
import { folderWith, lines, removeFolders, run, sitting } from "./run-command.js";

afterAll(removeFolders);

const ada = [1, 3, 5, 7].map((day) => sitting("Ada", day));
const club = folderWith(Object.fromEntries([...ada.map((text, i) => [`ada-${i}.jsonl`, text]), ["bo.jsonl", sitting("Bo", 2)]]));
const kinds = (text: string): Record<string, number> => {
  const counts: Record<string, number> = {};
  for (const { kind } of lines(text)) counts[String(kind)] = (counts[String(kind)] ?? 0) + 1;
  return counts;
};

describe("the command reads", () => {
  it("a folder with several people, in text", async () => {
    const { code, out, err } = await run([club]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out.match(/^Pointing practice of .*$/gm)).toEqual(["Pointing practice of Ada", "Pointing practice of Bo"]);
  });
  it("several sessions from a pipe, cut anywhere", async () => {
    const bytes = new TextEncoder().encode(ada.join(""));
    for (const size of [61, 65_536, bytes.length]) {
      const pieces = Array.from({ length: Math.ceil(bytes.length / size) }, (_, i) => bytes.subarray(i * size, (i + 1) * size));
      const { code, out, err } = await run(["--form", "json"], pieces);
      expect({ code, err }).toEqual({ code: 0, err: "" });
      expect(kinds(out)).toEqual({ acquisition: 100, summary: 4, review: 1 });
    }
  });
  it("its own output's sibling: a folder of CSV tables as one session", async () => {
    const { session } = parseRecording(ada[0]!);
    const tables = formatRecording(session, { form: "csv" });
    const folder = folderWith(Object.fromEntries(Object.entries(tables).map(([name, text]) => [`${name}.csv`, text])));
    const { code, out } = await run(["--form", "csv", folder]);
    expect(code).toBe(0);
    expect(out.trim().split("\r\n")).toHaveLength(26);
  });
  it("a lone table of samples, and says what it had to assume", async () => {
    const { code, err } = await run(["--form", "json", join(folderWith({ "reach.csv": "t,x,y\n0,10,5\n0.008,12,5\n" }), "reach.csv")]);
    expect(code).toBe(0);
    expect(err).toContain("reach.csv: not stated, filled with stand-ins: person, startedAt, equipment.id, space, device");
  });
  it("folders in folders, each once, whatever links lead back", async () => {
    const folder = folderWith({ "a.jsonl": ada[0]!, "notes.txt": "no recording" });
    mkdirSync(join(folder, "inner"));
    writeFileSync(join(folder, "inner", "b.jsonl"), ada[1]!);
    symlinkSync(folder, join(folder, "inner", "back"));
    const { code, out, err } = await run(["--form", "json", folder]);
    expect(code).toBe(0);
    expect(kinds(out).summary).toBe(2);
    expect(err).toContain("notes.txt: skipped, no .jsonl or .csv");
  });
  it("only the person asked for", async () => {
    const { out } = await run([club, "--person", "Bo", "--form", "json"]);
    expect(kinds(out)).toEqual({ acquisition: 25, summary: 1, review: 1 });
  });
});

describe("the command goes on where a file is wrong", () => {
  const broken = {
    "1-empty.jsonl": "",
    "2-binary.jsonl": Uint8Array.from({ length: 300 }, (_, i) => (i * 37) % 256),
    "3-cut.jsonl": ada[2]!.slice(0, -40),
    "4-wrong.jsonl": ada[1]!.replace('"kind":"trial"', '"kind":"trail"'),
    "5-good.jsonl": ada[0]!,
  };
  it("says file and line, reads the rest, and ends with 1", async () => {
    const folder = folderWith(broken);
    mkdirSync(join(folder, "6-folder.jsonl"));
    const { code, out, err } = await run([folder, join(folder, "absent.jsonl"), "--form", "json"]);
    expect(code).toBe(1);
    const said = err.trim().split("\n");
    expect(said.some((line) => /1-empty\.jsonl: is empty$/.test(line))).toBe(true);
    expect(said.some((line) => /2-binary\.jsonl:1/.test(line))).toBe(true);
    expect(said.some((line) => /3-cut\.jsonl: the last line was cut short and left out$/.test(line))).toBe(true);
    expect(said.some((line) => /4-wrong\.jsonl:\d+:\d+: .*"trail"/.test(line))).toBe(true);
    expect(said.some((line) => /absent\.jsonl: cannot be read/.test(line))).toBe(true);
    expect(err).not.toMatch(/\n\s+at /);
    expect(kinds(out).summary).toBe(2);
  });
  it("a broken session in a stream does not swallow the one after it", async () => {
    const { code, out, err } = await run(["--form", "json"], [broken["4-wrong.jsonl"], ada[0]!, ada[2]!]);
    expect(code).toBe(1);
    expect(err).toMatch(/^standard input:\d+:\d+: /);
    expect(kinds(out).summary).toBe(2);
  });
  it("repairs what can be repaired, and says so", async () => {
    const { code, err } = await run([folderWith({ "a.jsonl": broken["4-wrong.jsonl"] }), "--repair", "--form", "json"]);
    expect(code).toBe(0);
    expect(err).toMatch(/a\.jsonl: 1 of \d+ lines left out; first: .*"trail"/);
  });
  it("counts a session that was given twice once", async () => {
    const { code, out, err } = await run([folderWith({ "a.jsonl": ada[0]!, "b.jsonl": ada[0]! }), "--form", "json"]);
    expect(code).toBe(1);
    expect(kinds(out)).toEqual({ acquisition: 25, summary: 1, review: 1 });
    expect(err).toMatch(/b\.jsonl: the session of "Ada" at .* was read from .*a\.jsonl already, and counts once/);
  });
  it("leaves out a person whose lengths have two meanings, and names both files", async () => {
    const view = sitting("Ada", 9, { space: { kind: "view" } });
    const { code, out, err } = await run([folderWith({ "a.jsonl": ada[0]!, "b.jsonl": view, "c.jsonl": sitting("Bo", 2) })]);
    expect(code).toBe(1);
    expect(err).toMatch(/b\.jsonl: view in deg cannot be put together with plane in px of .*a\.jsonl; "Ada" is left out/);
    expect(out).toContain("Pointing practice of Bo");
  });
});

describe("the command writes", () => {
  it("one page per person, under names that lead nowhere", async () => {
    const names = ["../../x", "x", "<script>alert(1)</script>", "=cmd()", "CON", "con", "a\nb", "\u202Egnp", "é".repeat(200)];
    const files = Object.fromEntries(names.map((name, i) => [`${i}.jsonl`, sitting(name, 2, { movements: 5 })]));
    const out = join(folderWith({}), "pages");
    const { code } = await run([folderWith(files), "--form", "html", "--out", out, "--quiet"]);
    expect(code).toBe(0);
    const pages = readdirSync(out);
    expect(pages).toHaveLength(names.length);
    expect(new Set(pages.map((name) => name.toLowerCase())).size).toBe(names.length);
    expect(pages.every((name) => /^[\p{L}\p{N}-]+\.html$/u.test(name) && name.length < 100)).toBe(true);
    expect(pages.every((name) => !readFileSync(join(out, name), "utf8").includes("<script"))).toBe(true);
  });
  it("cells that no spreadsheet runs, and numbers that stay numbers", async () => {
    const { out } = await run([folderWith({ "a.jsonl": sitting('=1+1,"x"', 2, { movements: 3 }) }), "--form", "csv"]);
    const [header, row] = out.split("\r\n");
    expect(header!.startsWith("person,session,file,unit,trial,target")).toBe(true);
    // Source: RFC 4180, section 2.5 to 2.7: a field with commas or quotes is quoted, and its quotes doubled
    expect(row!.startsWith(`"'=1+1,""x""",2026-03-02T18:00:00Z,`)).toBe(true);
    expect(row).toMatch(/,-\d/);
    expect(row).not.toMatch(/'-\d/);
  });
  it("to a file, whole or not at all, and never over what it reads", async () => {
    const folder = folderWith({ "a.jsonl": ada[0]! });
    const target = join(folder, "out", "table.csv");
    expect((await run([join(folder, "a.jsonl"), "--form", "csv", "--out", target])).code).toBe(0);
    expect(readFileSync(target, "utf8").split("\r\n")).toHaveLength(27);
    expect(readdirSync(join(folder, "out"))).toEqual(["table.csv"]);
    const over = await run([join(folder, "a.jsonl"), "--form", "json", "--out", join(folder, "a.jsonl")]);
    expect(over.code).toBe(2);
    expect(over.err).toContain("--out must not be a file that is read");
    expect(readFileSync(join(folder, "a.jsonl"), "utf8")).toBe(ada[0]);
    const nothing = await run([join(folder, "absent.jsonl"), "--form", "csv", "--out", join(folder, "none.csv")]);
    expect(nothing.code).toBe(2);
    expect(existsSync(join(folder, "none.csv"))).toBe(false);
  });
  it("the same whatever the run", async () => expect(await run([club, "--form", "json"])).toEqual(await run([club, "--form", "json"])));
});

describe("the command tells how it is used", () => {
  it("on request", async () => {
    expect(await run(["--version"])).toEqual({ code: 0, out: `${VERSION}\n`, err: "" });
    const { code, out } = await run(["--help"]);
    expect(code).toBe(0);
    for (const option of ["form", "out", "person", "minutes", "wanted", "among", "repair", "seed", "workers", "resume", "quiet"])
      expect(out).toContain(`--${option}`);
    expect(out.split("\n").every((line) => line.length <= 140)).toBe(true);
  });
  it.each([
    [["--form", "pdf"], '--form must be one of text, html, csv, parquet, json, tally, got "pdf"'],
    [["--minutes", "5"], '--minutes must be a number from 10 to 240, got "5"'],
    [["--wanted", "x"], '--wanted must be a number from 0.5 to 0.99, got "x"'],
    [["--seed", "1.5"], '--seed must be a whole number, got "1.5"'],
    [["--workers", "0"], '--workers must be a number from 1 to 256, got "0"'],
    [["--workers", "1.5"], '--workers must be a whole number, got "1.5"'],
    [["--resume"], "--resume goes on with the file of --out, got none"],
    [["--colour"], "Unknown option '--colour'"],
    [["--out", ""], "--out must name a file or folder, got nothing"],
  ])("and refuses %j with 2", async (argv, message) => {
    const { code, out, err } = await run([...argv, club]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toContain(message);
    expect(err.trim().split("\n")).toHaveLength(1);
  });
  it("and where nothing is given and nothing is piped", async () => {
    const { code, err } = await run([]);
    expect(code).toBe(2);
    expect(err).toContain("aimed-movement [options] [PATH ...]");
  });
  it("and that pages of several people need a folder", async () => {
    const { code, err } = await run([club, "--form", "html", "--quiet"]);
    expect(code).toBe(2);
    expect(err).toContain("--out must name a folder for the pages of 2 people");
  });
});
