// Golden results: what the library says of the recordings in examples/data. A number that changes here changes for every user, so that a new
// fingerprint must stand under "Numbers" in CHANGELOG.md beside what moved and why. UPDATE_GOLDEN=1 writes the new results.
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { analyze, summarize, toTable } from "../src/movement/index.js";
import { assessSampling, parseRecording } from "../src/trace/index.js";

const file = (path: string): URL => new URL(path, import.meta.url);
const GOLDEN = file("fixtures/golden.json");
/** Eight digits: enough to notice any change of method, too few for the last bits that processors may differ in. */
const rounded = (_: string, value: unknown): unknown => (typeof value === "number" ? Number(value.toPrecision(8)) : value);

function results(): string {
  const names = readdirSync(file("../examples/data/")).filter((name) => name.endsWith(".jsonl"));
  const found = names.sort().map((name) => {
    const { session } = parseRecording(readFileSync(file(`../examples/data/${name}`), "utf8"));
    const rows = session.recordings.flatMap((recording) => analyze(recording));
    return { name, sampling: session.recordings.map(({ trace }) => assessSampling(trace)), summary: summarize(rows), rows: toTable(rows) };
  });
  return `${JSON.stringify(found, rounded, 1)}\n`;
}

describe("golden results", () => {
  if (process.env.UPDATE_GOLDEN !== undefined) writeFileSync(GOLDEN, results());
  const golden = readFileSync(GOLDEN, "utf8");

  it("are what the library says of the example recordings today", () => expect(results()).toBe(golden));

  it("are announced in the changelog under Numbers", () => {
    const fingerprint = createHash("sha256").update(golden).digest("hex").slice(0, 12);
    const numbers = /### Numbers\n([\s\S]*?)(?=\n##|$)/.exec(readFileSync(file("../CHANGELOG.md"), "utf8"))?.[1] ?? "";
    expect(numbers).toContain(fingerprint);
  });
});
