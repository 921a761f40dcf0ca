// What a folder of real files holds besides good recordings.
import { execFileSync } from "node:child_process";
import {
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { fc, test } from "@fast-check/vitest";
import { afterAll, describe, expect, it } from "vitest";
import { formatRecording } from "../../src/trace/format-recording.js";
import { parseRecording } from "../../src/trace/parse-recording.js";
import { folderWith, lines, removeFolders, run, sitting } from "./run-command.js";

afterAll(removeFolders);

const [ada, bo] = [sitting("Ada", 1, { movements: 4 }), sitting("Bo", 2, { movements: 4 })];
const tables = Object.fromEntries(
  Object.entries(formatRecording(parseRecording(ada).session, { form: "csv" })).map(([name, text]) => [`${name}.csv`, text]),
);
const summaries = (out: string) => lines(out).filter(({ kind }) => kind === "summary");

describe("the command, among files of other kinds,", () => {
  it("tells of every file beside tables that it does not read, and reads sessions there", async () => {
    const folder = folderWith({ ...tables, "notes.csv": "a,b\n", "readme.txt": "", "bo.jsonl": bo });
    const { code, out, err } = await run(["--form", "json", folder]);
    expect(code).toBe(0);
    expect(summaries(out).map(({ person }) => person)).toEqual(["Ada", "Bo"]);
    expect(err).toMatch(/^2 files skipped, no \.jsonl or \.csv of ours; first: .*notes\.csv$/m);
  });
  it("reads what is named, whatever its name, and a pipe", async () => {
    const folder = folderWith({ "ada.recording": ada });
    const pipe = join(folder, "pipe");
    execFileSync("mkfifo", [pipe]);
    const writing = import("node:fs/promises").then(({ writeFile }) => writeFile(pipe, bo));
    const { code, out } = await run(["--form", "json", join(folder, "ada.recording"), pipe]);
    await writing;
    expect(code).toBe(0);
    expect(summaries(out)).toHaveLength(2);
    // one that lies in a folder would never end
    expect((await run(["--form", "json", folder])).err).toContain("skipped");
  });
  it("tells of what is given twice, and of links to it", async () => {
    const folder = folderWith({ "a.jsonl": ada });
    symlinkSync(join(folder, "a.jsonl"), join(folder, "b.jsonl"));
    symlinkSync(join(folder, "nowhere"), join(folder, ".#lock"));
    const { code, out, err } = await run(["--form", "json", folder, join(folder, "a.jsonl")]);
    expect(code).toBe(0);
    expect(summaries(out)).toHaveLength(1);
    expect(err).toMatch(/2 files skipped, given before; first: .*b\.jsonl/);
    symlinkSync(join(folder, "nowhere.jsonl"), join(folder, "c.jsonl"));
    symlinkSync(join(folder, "d.jsonl"), join(folder, "d.jsonl"));
    const again = await run(["--form", "json", folder]);
    expect(again.code).toBe(1);
    expect(again.err).toMatch(/c\.jsonl: cannot be read: .*no such file/);
    expect(again.err).toMatch(/d\.jsonl: cannot be read: .*symbolic links/);
  });
  it.skipIf(process.getuid?.() === 0)("tells of what it may not read", async () => {
    const folder = folderWith({ "a.jsonl": ada, "b.jsonl": bo });
    const { chmodSync } = await import("node:fs");
    chmodSync(join(folder, "a.jsonl"), 0);
    const { code, out, err } = await run(["--form", "json", folder]);
    expect(code).toBe(1);
    expect(err).toMatch(/a\.jsonl: permission denied/);
    expect(summaries(out)).toHaveLength(1);
  });
  it("keeps tables without a date apart, and out of an order of time that nobody knows", async () => {
    const { "session.csv": _, ...undated } = tables;
    const folder = folderWith({});
    for (const name of ["one", "two"]) {
      mkdirSync(join(folder, name));
      for (const [table, text] of Object.entries(undated)) writeFileSync(join(folder, name, table), text);
    }
    const { code, out, err } = await run(["--form", "json", folder]);
    expect(code).toBe(1);
    expect(lines(out).filter(({ kind }) => kind === "acquisition")).toHaveLength(8);
    expect(lines(out).filter(({ kind }) => kind === "review")).toHaveLength(0);
    expect(err).toMatch(/one: no date is stated, so that it has no place among the sessions of "unknown"/);
    expect((await run([join(folder, "one")])).code).toBe(0);
  });
  it("takes no table for text that is none, nor one that is too large to hold", async () => {
    const folder = folderWith({ ...tables, "marks.csv": Uint8Array.of(0x74, 0xff, 0x0a) });
    const { code, err } = await run([folder]);
    expect(code).toBe(2);
    expect(err).toMatch(/marks\.csv: must be UTF-8 text, got other bytes\nno session could be read\n$/);
    truncateSync(join(folder, "marks.csv"), 2 ** 27 + 1);
    expect((await run([folder])).err).toContain("one session must have at most 128 MiB, got more");
  });
  it("takes apart a stream of files of which one was cut", async () => {
    const half = ada.slice(0, -30);
    for (const options of [[], ["--repair"]]) {
      const { code, out, err } = await run(["--form", "json", ...options], [half + bo]);
      expect(code).toBe(0);
      expect(err).toContain("standard input: the last line was cut short and left out");
      expect(summaries(out).map(({ person, acquisitions }) => [person, acquisitions])).toEqual([
        ["Ada", summaries((await run(["--form", "json"], [half])).out)[0]!.acquisitions],
        ["Bo", 4],
      ]);
    }
  });
  it("names lines of the file, also in its second session", async () => {
    const wrong = bo.replace('"kind":"press"', '"kind":"pressed"');
    const all = ada + wrong;
    const line = all.slice(0, all.indexOf('"kind":"pressed"')).split("\n").length;
    expect((await run(["--form", "json"], [all])).err).toMatch(new RegExp(`^standard input:${line}:\\d+: kind must be`));
    const repaired = await run(["--form", "json", "--repair"], [all]);
    expect(repaired.err).toContain(`standard input:${line}:`);
    expect(summaries(repaired.out)[1]!.file).toBe(`standard input:${ada.split("\n").length}`);
  });
  it("orders sessions by the instant, whatever the zone of their clocks", async () => {
    const at = (startedAt: string) => sitting("Ada", 1, { movements: 4 }, { startedAt });
    // Source: ISO 8601: 23:30 at -05:00 is 04:30 of the next day in UTC, after 05:00 at +01:00
    const { out } = await run(["--form", "json"], [at("2026-03-02T23:30:00-05:00"), at("2026-03-03T05:00:00+01:00")]);
    const review = lines(out).find(({ kind }) => kind === "review")!;
    expect([review.from, review.to]).toEqual(["2026-03-03T05:00:00+01:00", "2026-03-02T23:30:00-05:00"]);
    const twice = await run(["--form", "json"], [at("2026-03-03T05:00:00+01:00"), at("2026-03-03T04:00:00Z")]);
    expect(twice.code).toBe(1);
    expect(twice.err).toContain("counts once");
  });
  it("says that nobody of that name was there", async () => {
    const { code, err } = await run(["--person", "Zoe\u001b[31m"], [ada, bo]);
    expect(code).toBe(2);
    expect(err).toBe('none of the 2 sessions read is of "Zoe\\u001b[31m"\n');
  });
  it("refuses a line of 100 MB with its number, and reads what comes after it", async () => {
    const long = `{"kind":"samples","t":[${"0,".repeat(8_500_000)}0]}\n`;
    const [head, ...rest] = ada.split("\n");
    const { code, out, err } = await run(
      ["--form", "json"],
      [`${head}\n`, ...Array.from({ length: 6 }, () => long.slice(0, -1)), "\n", rest.join("\n"), bo],
    );
    expect(code).toBe(1);
    expect(err).toContain("standard input:2:1: line must have at most 16777216 characters, got more");
    expect(summaries(out).map(({ person }) => person)).toEqual(["Bo"]);
  });
});

describe("the command, where it writes,", () => {
  it("writes over none of the tables it reads, nor over a page that is read", async () => {
    const folder = folderWith(tables);
    for (const name of ["samples.csv", "targets.csv"]) {
      const { code, err } = await run([folder, "--form", "csv", "--out", join(folder, name)]);
      expect(code).toBe(2);
      expect(err).toContain("--out must not be a file that is read");
      expect(readFileSync(join(folder, name), "utf8")).toBe(tables[name]);
    }
    const pages = folderWith({ "Ada.html": ada });
    const { code, err } = await run([join(pages, "Ada.html"), "--form", "html", "--out", pages]);
    expect(code).toBe(2);
    expect(err).toContain("is a file that is read");
    expect(readFileSync(join(pages, "Ada.html"), "utf8")).toBe(ada);
  });
  it("writes into a pipe as it is, and keeps a link a link", async () => {
    const folder = folderWith({ "a.jsonl": ada, "old.csv": "old" });
    symlinkSync(join(folder, "old.csv"), join(folder, "link"));
    linkSync(join(folder, "old.csv"), join(folder, "twin"));
    expect((await run([join(folder, "a.jsonl"), "--form", "csv", "--out", join(folder, "link")])).code).toBe(0);
    expect(lstatSync(join(folder, "link")).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(folder, "old.csv"), "utf8").split("\r\n")).toHaveLength(6);
    expect(readFileSync(join(folder, "twin"), "utf8")).toBe("old");
    const pipe = join(folder, "pipe");
    execFileSync("mkfifo", [pipe]);
    // opened for both, so that neither end waits for the other
    const { closeSync, constants, openSync, readSync } = await import("node:fs");
    const handle = openSync(pipe, constants.O_RDWR | constants.O_NONBLOCK);
    expect((await run([join(folder, "a.jsonl"), "--form", "csv", "--out", pipe])).code).toBe(0);
    const bytes = Buffer.alloc(1e5);
    expect(bytes.toString("utf8", 0, readSync(handle, bytes)).split("\r\n")).toHaveLength(6);
    closeSync(handle);
    expect(statSync(pipe).isFIFO()).toBe(true);
    expect(readdirSync(folder).filter((name) => name.endsWith(".part"))).toEqual([]);
  });
  it("leaves nothing behind where the file cannot get its name", async () => {
    const folder = folderWith({ "a.jsonl": ada });
    for (const [form, out] of [
      ["csv", folder],
      ["html", join(folder, "a.jsonl")],
      ["csv", join(folder, "a.jsonl", "below.csv")],
    ] as const) {
      const { code, err } = await run([join(folder, "a.jsonl"), "--form", form, "--out", out]);
      expect(code).toBe(2);
      expect(err.trim().split("\n")).toHaveLength(1);
    }
    expect(readdirSync(folder)).toEqual(["a.jsonl"]);
  });
  it("gives a table without acquisitions its header", async () => {
    const { code, out } = await run(["--form", "csv", "--quiet"], ["t,x,y\n0,1,2\n0.01,2,2\n"]);
    expect(code).toBe(0);
    expect(out).toMatch(/^person,session,file,unit,trial,.*,flags\r\n$/);
  });
  it("draws charts on a page, as images that fetch nothing", async () => {
    const { code, out, err } = await run(["--form", "html"], [ada]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out.match(/<img src="data:image\/svg\+xml,/g)?.length).toBeGreaterThanOrEqual(3);
    for (const [, svg] of out.matchAll(/<img src="data:image\/svg\+xml,([^"]*)"/g)) {
      const drawing = decodeURIComponent(svg!);
      expect(drawing).toMatch(/^<svg/);
      // Source: SVG 2: what an image fetches stands in href, xlink:href or url(), apart from the names of its own parts
      expect(drawing).not.toMatch(/href="(?!#)|url\((?!#)|<image|<script/);
    }
  });
});

describe("the command, given anything,", () => {
  const whole = new TextEncoder().encode(ada + bo);
  const damaged = fc
    .array(fc.tuple(fc.integer({ min: 0, max: whole.length - 1 }), fc.uint8Array({ maxLength: 6 }), fc.integer({ min: 0, max: 400 })), {
      maxLength: 4,
    })
    .map((edits) =>
      edits.reduce((bytes, [at, put, skip]) => Buffer.concat([bytes.subarray(0, at), put, bytes.subarray(at + skip)]), Buffer.from(whole)),
    );
  const cut = fc.integer({ min: 0, max: whole.length }).map((end) => Buffer.from(whole.subarray(0, end)));
  const noise = fc.uint8Array({ maxLength: 300 }).map((bytes) => Buffer.from(bytes));
  const options = fc.tuple(fc.constantFrom("json", "csv", "text"), fc.boolean());
  test.prop([fc.oneof(noise, cut, damaged), options], { numRuns: 60 })(
    "ends with a code and lines of words",
    async (bytes, [form, repair]) => {
      const { code, out, err } = await run(["--form", form, ...(repair ? ["--repair"] : [])], [bytes]);
      expect([0, 1, 2]).toContain(code);
      expect(err).not.toMatch(/^\s+at |TypeError|undefined|is not a function/m);
      if (code !== 0) expect(err).toMatch(/^(standard input|no session|")/);
      if (code === 2) expect(out).toBe("");
      if (form === "json") for (const line of lines(out)) expect(line).toHaveProperty("kind");
      if (err === "" && form === "json") expect(summaries(out).length).toBeGreaterThan(0);
    },
  );
  test.prop([
    fc.array(fc.oneof(fc.string({ unit: "binary" }), fc.constantFrom("--form", "--out=", "-x", "--", "--seed=-1", "--minutes", "é")), {
      maxLength: 4,
    }),
  ])("on its command line ends with 2 and plain lines", async (argv) => {
    fc.pre(!argv.some((argument) => argument === "-" || existsSync(argument)));
    const { code, out, err } = await run([...argv, "no\u202e.jsonl", "--quiet"]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toMatch(/^(?:[^\p{Cc}\u202e]+\n)+$/u);
  });
});
