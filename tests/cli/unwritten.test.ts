// What cannot be written, and what is left of it: nothing.
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { folderWith, lines, removeFolders, run, sitting } from "./run-command.js";

afterAll(removeFolders);

const [ada, bo] = [sitting("Ada", 1, { movements: 4 }), sitting("Bo", 2, { movements: 4 })];
const inView = sitting("Ada", 3, { movements: 4, space: { kind: "view" } });

describe("the command, where a page cannot be written,", () => {
  it("writes the others and ends with 1", async () => {
    const out = folderWith({});
    mkdirSync(join(out, "Ada.html"));
    const { code, err } = await run(["--form", "html", "--out", out], [ada, bo]);
    expect(code).toBe(1);
    expect(err).toMatch(/^1 page in /m);
    expect(err).toMatch(/^"Ada": EISDIR: .*$/m);
    expect(readdirSync(out)).toEqual(["Ada.html", "Bo.html"]);
  });
  it("ends with 2 when none could be", async () => {
    const out = folderWith({});
    mkdirSync(join(out, "Ada.html"));
    const { code, err } = await run(["--form", "html", "--out", out], [ada]);
    expect(code).toBe(2);
    expect(err).toMatch(/^"Ada": EISDIR: .*\n$/);
    expect(readdirSync(out)).toEqual(["Ada.html"]);
  });
});

describe("the command, where nobody can be reviewed,", () => {
  it.each(["text", "html"])("ends with 2 and writes no %s", async (form) => {
    const out = join(folderWith({}), "out");
    const { code, err } = await run(["--form", form, "--out", out], [ada, inView]);
    expect(code).toBe(2);
    expect(err).toMatch(
      /^standard input:\d+: view in deg cannot be put together with plane in px of standard input; "Ada" is left out of the review\n$/,
    );
    expect(existsSync(out)).toBe(false);
  });
  it("still writes the acquisitions, each with its unit", async () => {
    const json = await run(["--form", "json"], [ada, inView]);
    expect(json.code).toBe(1);
    const rows = lines(json.out);
    expect(rows.filter(({ kind }) => kind === "acquisition").map(({ unit }) => unit)).toEqual([
      "px",
      "px",
      "px",
      "px",
      "deg",
      "deg",
      "deg",
      "deg",
    ]);
    expect(rows.filter(({ kind }) => kind === "review")).toEqual([]);
    const csv = await run(["--form", "csv"], [ada, inView]);
    expect({ code: csv.code, err: csv.err }).toEqual({ code: 0, err: "" });
    expect(
      csv.out
        .split("\r\n")
        .slice(1, -1)
        .map((row) => row.split(",")[3]),
    ).toEqual(["px", "px", "px", "px", "deg", "deg", "deg", "deg"]);
  });
});

describe("the command, where a file is to be made,", () => {
  it("makes the folders above it", async () => {
    const folder = folderWith({});
    expect((await run(["--form", "csv", "--out", join(folder, "a", "b", "c.csv")], [ada])).code).toBe(0);
    expect(readFileSync(join(folder, "a", "b", "c.csv"), "utf8").split("\r\n")).toHaveLength(6);
  });
  // Node 20's own making of folders never comes back from this one
  it.skipIf(!existsSync("/proc/self"))("ends where the system makes none", { timeout: 10_000 }, async () => {
    const { code, out, err } = await run(["--form", "csv", "--out", "/proc/aimed-movement/a.csv"], [ada]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toMatch(/^aimed-movement: ENOENT: .*\n$/);
  });
  it("is not held up by what a run that was killed left behind", async () => {
    const folder = folderWith({ "all.csv": "old" });
    writeFileSync(join(folder, `all.csv.${process.pid}.part`), "left");
    expect((await run(["--form", "csv", "--out", join(folder, "all.csv")], [ada])).code).toBe(0);
    expect(readFileSync(join(folder, "all.csv"), "utf8").split("\r\n")).toHaveLength(6);
  });
  it("lets no second run write the same file, by whatever name, while the first does", async () => {
    const folder = folderWith({});
    const file = join(folder, "new", "all.csv");
    const both = await Promise.all([ada, bo].map((text) => run(["--form", "csv", "--out", file], [text])));
    expect(both.map(({ code }) => code).sort()).toEqual([0, 2]);
    const refused = both.find(({ code }) => code === 2)!;
    expect(refused.err).toMatch(
      /^aimed-movement: --out .*all\.csv: another run is writing it \(process \d+ on .* since .*\); if that has ended, remove /,
    );
    expect(readdirSync(join(folder, "new"))).toEqual(["all.csv"]);
    expect(readFileSync(file, "utf8").split("\r\n")).toHaveLength(6);
  });
});

describe("the command, told to be quiet,", () => {
  it("says errors alone", async () => {
    const folder = folderWith({ "a.jsonl": ada.slice(0, -9), "b.jsonl": "", "c.txt": "" });
    const loud = await run(["--form", "json", folder]);
    const quiet = await run(["--form", "json", "--quiet", folder]);
    expect(loud.err.split("\n")).toHaveLength(4);
    expect(quiet.err).toMatch(/^.*b\.jsonl: is empty\n$/);
    expect([loud.code, quiet.code]).toEqual([1, 1]);
    expect(quiet.out).toBe(loud.out);
  });
  it("counts standard input that is named twice once, as a file", async () => {
    const { code, out, err } = await run(["--form", "json", "-", "-"], [ada]);
    expect(code).toBe(0);
    expect(lines(out).filter(({ kind }) => kind === "summary")).toHaveLength(1);
    expect(err).toBe("-: skipped, given before\n");
  });
  it("takes each of several people", async () => {
    const { out } = await run(["--form", "json", "--person", "Ada", "--person", "Cy"], [ada, bo, sitting("Cy", 3, { movements: 4 })]);
    expect(lines(out).flatMap(({ kind, person }) => (kind === "summary" ? [person] : []))).toEqual(["Ada", "Cy"]);
  });
});
