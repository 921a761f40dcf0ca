// Summaries of parts, merged in any order, are the summary of the whole: to the byte, and by a stranger's arithmetic.
import { copyFileSync, existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import { fc, test } from "@fast-check/vitest";
import { mean, sampleStandardDeviation } from "simple-statistics";
import { afterAll, describe, expect, it } from "vitest";
import { mergeTallies } from "../../src/tally/merge-tallies.js";
import { readTally } from "../../src/tally/read-tally.js";
import type { Tally } from "../../src/tally/types.js";
import { formatRecording } from "../../src/trace/format-recording.js";
import { parseRecording } from "../../src/trace/parse-recording.js";
import { folderWith, lines, removeFolders, run, sitting } from "./run-command.js";

afterAll(removeFolders);

const people = ["Ada", "Bo", '=1+1,"x"', "Zoë 漢😀"];
const texts = people.flatMap((person, k) => [1, 2, 3].map((day) => sitting(person, 3 * k + day, { movements: 5 + 3 * day + k })));
const study = folderWith(Object.fromEntries(texts.map((text, i) => [`${String(i).padStart(2, "0")}.jsonl`, text])));
const tallied = async (...given: readonly string[]): Promise<string> => {
  const { code, out, err } = await run([...given, "--form", "tally"]);
  expect({ code, err }).toEqual({ code: 0, err: "" });
  return out;
};
const merged = async (...parts: readonly string[]): Promise<string> => {
  const { code, out, err } = await run(["--form", "tally"], parts);
  expect({ code, err }).toEqual({ code: 0, err: "" });
  return out;
};
const whole = await tallied(study);
const own = whole.trimEnd().split("\n");
/** Without a page of differences. */
const isWhole = (text: string): boolean => text === whole;
const tallies = (text: string): Tally[] => lines(text) as unknown as Tally[];

describe("tallies against outside values", () => {
  it("give the mean and SD of each person's rows, and over people, that DuckDB and simple-statistics take from the table", async () => {
    const table = join(study, "..", `${Date.now()}-table.csv`);
    expect((await run([study, "--form", "csv", "--out", table])).code).toBe(0);
    const connection = await (await DuckDBInstance.create(":memory:")).connect();
    // Source: DuckDB (@duckdb/node-api 1.5.6), avg, stddev_samp, min and max over the csv form
    const reader = await connection.runAndReadAll(
      `select ltrim(person, ''''), count("primary")::int, avg("primary"), stddev_samp("primary"), min("primary"), max("primary")
       from read_csv('${table}', header = true, quote = '"', escape = '"', delim = ',') where "primary" is not null group by all order by 1`,
    );
    const rows = reader.getRows() as [string, number, number, number, number, number][];
    connection.closeSync();
    const all = mergeTallies(tallies(whole));
    const groups = readTally(all, { by: ["person"] }).groups;
    expect(groups.map(({ labels }) => labels.person).sort()).toEqual(rows.map(([person]) => person).sort());
    for (const { labels, measures } of groups) {
      const [, n, average, sd, min, max] = rows.find(([person]) => person === labels.person)!;
      const { primaryTime } = measures;
      expect([primaryTime!.n, primaryTime!.min, primaryTime!.max]).toEqual([n, min, max]);
      // sums of some forty doubles in another order
      expect(primaryTime!.mean.ok && primaryTime!.mean.value / average).toBeCloseTo(1, 12);
      expect(primaryTime!.sd.ok && primaryTime!.sd.value / sd).toBeCloseTo(1, 12);
    }
    // Source: simple-statistics 7.12.1, mean and sampleStandardDeviation of the people's means
    const across = readTally(all, { across: "person", by: [] }).groups[0]!.measures.primaryTime!.acrossUnits!;
    const means = rows.map(([, , average]) => average);
    expect(across.mean.ok && across.mean.value).toBeCloseTo(mean(means), 12);
    expect(across.sd.ok && across.sd.value).toBeCloseTo(sampleStandardDeviation(means), 12);
  });
});

describe("tallies properties", () => {
  it("hold a line for each session by person and session, as the library merges them", () => {
    expect(own).toHaveLength(12);
    expect(own.every((line) => line.startsWith('{"kind":"tally","header":{'))).toBe(true);
    const { header, groups } = mergeTallies(tallies(whole));
    expect(groups).toEqual(tallies(whole).flatMap((one) => one.groups));
    expect(header).toEqual(tallies(whole)[0]!.header);
    // the library's bytes, too
    expect(groups.map((group) => JSON.stringify({ kind: "tally", header, groups: [group] }))).toEqual(own);
  });
  it("are their own merge, and are read from folders, files and pipes", async () => {
    expect(await merged(whole)).toSatisfy(isWhole);
    const folder = folderWith({ "b.jsonl": `${own.slice(5).join("\r\n")}\r\n\r\n`, "a.txt": own.slice(0, 5).reverse().join("\n") });
    expect(await tallied(join(folder, "b.jsonl"), join(folder, "a.txt"))).toSatisfy(isWhole);
  });
  const share = fc.array(fc.nat({ max: 3 }), { minLength: texts.length, maxLength: texts.length });
  test.prop([share, fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }), fc.boolean()], { numRuns: 8 })(
    "of parts are those of the whole to the byte, whatever the parts, their order and the steps",
    async (part, order, inSteps) => {
      const parts = await Promise.all(
        order.map((k) => {
          const mine = texts.filter((_, i) => part[i] === k);
          return mine.length === 0 ? "" : run(["--form", "tally"], [mine.reverse().join("")]).then(({ out }) => out);
        }),
      );
      const [first, second, ...rest] = parts.filter((text) => text !== "");
      const begun = inSteps && second !== undefined ? [await merged(first!, second)] : [first!, second ?? ""];
      expect(await merged(...rest, ...begun)).toSatisfy(isWhole);
    },
  );
  test.prop([fc.array(fc.integer({ min: 1, max: 3000 }), { minLength: 1, maxLength: 8 })], { numRuns: 15 })(
    "come in pieces of any sizes",
    async (sizes) => {
      const bytes = Buffer.from(`\ufeff \n${whole}`);
      const pieces: Uint8Array[] = [];
      for (let at = 0, i = 0; at < bytes.length; i++) {
        const size = sizes[i % sizes.length]!;
        pieces.push(bytes.subarray(at, at + size));
        at += size;
      }
      expect((await run(["--form", "tally"], pieces)).out).toSatisfy(isWhole);
    },
  );
  it("stand beside recordings in one run", async () => {
    const path = join(folderWith({ "a.jsonl": texts.slice(0, 7).join("") }), "a.jsonl");
    const rest = await tallied(...[7, 8, 9, 10, 11].map((i) => join(study, `${String(i).padStart(2, "0")}.jsonl`)));
    expect((await run(["--form", "tally", path, "-"], [rest])).out).toSatisfy(isWhole);
    // a session that is there in both ways counts once
    const { out, err, code } = await run(["--form", "tally", path, "-"], [whole]);
    expect({ code, same: out === whole }).toEqual({ code: 1, same: true });
    expect(err.trim().split("\n")).toHaveLength(7);
    expect(err).toContain(`standard input:4: the session of "Ada" at 2026-03-01T18:00:00Z was read from ${path} already, and counts once`);
  });
  it("of one person are those of the person alone", async () => {
    const { out } = await run(["--form", "tally", "--person", "Bo"], [whole]);
    expect(out).toBe(
      own
        .filter((line) => line.includes('"person":"Bo"'))
        .map((line) => `${line}\n`)
        .join(""),
    );
  });
});

describe("a task that is run twice", () => {
  it("gives the bytes it gave, and counts once: a file that is named twice, a copy of it, and sessions of both kinds", async () => {
    const folder = folderWith({ "1.jsonl": own.slice(0, 6).join("\n"), "2.jsonl": own.slice(6).join("\n") });
    const paths = ["1.jsonl", "2.jsonl"].map((name) => join(folder, name));
    const twice = await run([...paths, paths[0]!, "--form", "tally"]);
    expect(twice).toMatchObject({ code: 0, out: whole });
    expect(twice.err).toBe(`${paths[0]}: skipped, given before\n`);
    const copy = join(folder, "again.jsonl");
    copyFileSync(paths[0]!, copy);
    const again = await run([...paths, copy, "--form", "tally"]);
    expect(again).toMatchObject({ code: 1, out: whole });
    expect(again.err.trim().split("\n")).toEqual(
      own.slice(0, 6).map((line, i) => {
        const { person, session } = JSON.parse(line).groups[0].labels;
        const told = `the session of ${JSON.stringify(person)} at ${session} was read from ${paths[0]}:${i + 1} already, and counts once`;
        return `${copy}:${i + 1}: ${told}`;
      }),
    );
  });
  it("counts once when its instant is written in another time zone", async () => {
    const ada = own.find((line) => line.includes("2026-03-01T18:00:00Z"))!;
    const shifted = ada.replace("2026-03-01T18:00:00Z", "2026-03-01T19:00:00+01:00");
    expect(shifted).not.toBe(ada);
    expect(await run(["--form", "tally"], [`${ada}\n${shifted}\n`])).toMatchObject({ code: 1, out: `${ada}\n` });
  });
  it("leaves out what nothing would tell from itself: a session without a date", async () => {
    const { session, ...tables } = formatRecording(parseRecording(texts[0]!).session, { form: "csv" });
    expect(session).toContain("startedAt");
    const folder = folderWith(Object.fromEntries(Object.entries(tables).map(([name, text]) => [`${name}.csv`, text])));
    const alone = await run([folder, "--form", "tally"]);
    expect(alone).toMatchObject({ code: 2, out: "" });
    const both = await run([folder, study, "--form", "tally"]);
    expect({ code: both.code, same: both.out === whole }).toEqual({ code: 1, same: true });
    expect(both.err).toMatch(/no date is stated, so that nothing would tell it from itself read twice; left out/);
  });
});

describe("tallies bad input", () => {
  const refused = async (line: string, ...options: string[]) => {
    const { code, out, err } = await run([...options, "--form", "tally"], [`${own[0]}\n${line}\n${own[1]}\n`]);
    // the lines around it are read
    expect({ code, out }).toEqual({ code: 1, out: `${own[0]}\n${own[1]}\n` });
    return err;
  };
  const changed = (
    change: (tally: { kind: string; header: Record<string, never>; groups: Record<string, never>[] }) => unknown,
  ): string => {
    const given = JSON.parse(own[2]!);
    return JSON.stringify(change(given) ?? given);
  };
  it.each([
    ["no JSON", "kind", /^standard input:2: must be a tally as JSON: .*\n$/],
    ["no object", "7", /^standard input:2: must be a tally as JSON, got 7\n$/],
    ["nothing", "null", /^standard input:2: must be a tally as JSON, got null\n$/],
    ["half a line", own[2]!.slice(0, 900), /^standard input:2: must be a tally as JSON: .*\n$/],
    ["two lines in one", own[2]! + own[2]!, /^standard input:2: must be a tally as JSON: .*\n$/],
    [
      "a line of a recording",
      texts[0]!.split("\n")[0]!,
      /^standard input:2: kind must be "tally" where the first line is one, got "session"\n$/,
    ],
    ["no header", '{"kind":"tally","groups":[]}', /^standard input:2: header must be .*\n$/],
    ["no groups", changed(({ header }) => ({ kind: "tally", header })), /^standard input:2: groups must be a list, got undefined\n$/],
    ["no session", changed((all) => ({ ...all, groups: [] })), /^standard input:2: must be the tally of one session, got 0 groups\n$/],
    [
      "two sessions",
      changed((all) => ({ ...all, groups: [all.groups[0], all.groups[0]] })),
      /^standard input:2: must be the tally of one session, got 2 groups\n$/,
    ],
    [
      "another version",
      own[2]!.replace(/"version":"[^"]*"/, '"version":"0.1.0"'),
      /^standard input:2: tallies must be made alike, but the library's version is "0\.1\.0" in this line and "[^"]*" in this run; .*\n$/,
    ],
    ["other measures", own[2]!.replace('"covariances":[', '"covariances":["acquisitionTime",'), /^standard input:2: .*covariances|joint/],
    [
      "other labels",
      own[2]!.replace('"labels":["person","session"]', '"labels":["person"]'),
      /options\.labels is \["person"\] in this line/,
    ],
    [
      "a count that does not agree",
      own[2]!.replace('"missing":0', '"missing":1'),
      /^standard input:2: groups\[0\]\.measures\.\w+\.n \+ missing must be \d+, got \d+\n$/,
    ],
    [
      "a session that is no date",
      own[2]!.replace(/"session":"2026[^"]*"/, '"session":"Monday"'),
      /^standard input:2: groups\[0\]\.labels\.session must be the date and time of a session, got "Monday"\n$/,
    ],
  ] as const)("a line that holds %s is named with file and line", async (_, line, words) => {
    expect(await refused(line)).toMatch(words);
  });
  test.prop([fc.nat({ max: own[2]!.length }), fc.nat({ max: 40 }), fc.constantFrom("", "0", "null", "}", '"', ",", "[]", "-1", "1e999")])(
    "a damaged line never takes the lines around it along",
    async (at, length, put) => {
      const damaged = own[2]!.slice(0, at) + put + own[2]!.slice(at + length);
      const { out, err } = await run(["--form", "tally"], [`${own[0]}\n${damaged}\n${own[1]}\n`]);
      expect(out.includes(`${own[0]}\n`)).toBe(true);
      // of the line itself, or of the next that it has become the twin of
      expect(err).toMatch(/^(standard input:[123]: .*\n)*$/);
      // what is taken is a tally in every respect: it is read again, and stays as it is
      expect(await run(["--form", "tally"], [out])).toEqual({ code: 0, out, err: "" });
    },
  );
  it("bytes that are no text, a line that is too long, and a last line that was cut", async () => {
    const bytes = Buffer.concat([Buffer.from(`${own[0]}\n`), Buffer.of(0xff, 0xfe, 0x0a), Buffer.from(own[1]!.slice(0, -300))]);
    const { code, out, err } = await run(["--form", "tally"], [bytes]);
    expect({ code, out }).toEqual({ code: 1, out: `${own[0]}\n` });
    expect(err.split("\n")).toEqual([
      "standard input:2: must be UTF-8 text, got other bytes",
      "standard input:3: the last line was cut short; run what wrote it again",
      "",
    ]);
    const long = await run(["--form", "tally"], [`${own[0]}\n${own[1]!.padEnd(40_000)}\n`], { mostBytes: 20_000 });
    expect(long.err).toMatch(/^standard input:2: a line must have at most [\d.]+ MiB, got more\n$/);
  });
  it.each(["text", "csv", "json", "html", "parquet"])("are nothing that %s can be made of", async (form) => {
    const path = join(folderWith({ "part.jsonl": whole }), "part.jsonl");
    const { code, out, err } = await run([path, "--form", form]);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toBe(`${path}: holds tallies, which --form tally alone can read, got --form ${form}\nno session could be read\n`);
  });
  it("a run without acquisitions writes nothing", async () => {
    const out = join(folderWith({}), "none.jsonl");
    const path = join(folderWith({ "reach.csv": "t,x,y\n0,10,5\n0.008,12,5\n" }), "reach.csv");
    const { code, err } = await run([path, "--form", "tally", "--out", out]);
    expect(code).toBe(2);
    expect(err).toContain("reach.csv: holds no acquisition to tally\nthere is nothing to tally\n");
    expect(existsSync(out)).toBe(false);
  });
  it("a result is not written over what it is made of", async () => {
    const path = join(folderWith({}), "whole.jsonl");
    writeFileSync(path, whole);
    expect(await run([path, "--form", "tally", "--out", path])).toMatchObject({ code: 2 });
    expect(readFileSync(path, "utf8")).toSatisfy(isWhole);
  });
});
