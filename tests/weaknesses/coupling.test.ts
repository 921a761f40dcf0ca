// The table in the docs is the table of the study.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { WEAKNESSES } from "./coupling.js";
import { MEASURES, type MeasureName } from "./measures.js";

const page = readFileSync(new URL("../../docs/what-moves-what.md", import.meta.url), "utf8");
// a formatter may pad the cells
const rows = page.split("\n").map((line) => line.split("|").map((cell) => cell.trim()));
const rowOf = (first: string): string[] | undefined => rows.find((cells) => cells[1] === first);

describe("coupling table", () => {
  it.each(Object.entries(WEAKNESSES))("%s stands in the docs with what it moves", (name, { worse, target, moves }) => {
    const cells = rowOf(`${name}: ${worse}`);
    expect(cells?.[2]).toBe(`\`${target}\``);
    const moved = Object.entries(moves).map(([measure, why]) => `\`${measure}\` (${why})`);
    expect(cells?.[3]).toBe(moved.join("; ") || "nothing");
  });

  it.each(Object.keys(MEASURES) as MeasureName[])("%s stands in the docs with its field", (name) => {
    expect(rowOf(`\`${name}\``)?.[2]).toBe(`\`${MEASURES[name].field}\``);
  });

  it("names a target among the measures that have a truth", () => {
    for (const { target } of Object.values(WEAKNESSES)) expect("truth" in MEASURES[target]).toBe(true);
  });
});
