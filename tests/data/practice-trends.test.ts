// Source: data/practice-laparoscopy/facts.json and data/practice-rotation/facts.json (nine digits), made by the NumPy and SciPy scripts
// beside them from the same series: 12 learners of a laparoscopic task, and 12 people whose cursor was rotated.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { SHARED_ABSENT, sharedPath } from "../shared.js";
import { readTable } from "./read-table.js";
import { expectKendall, expectLine, type KendallFacts, type LineFacts } from "./trend-facts.js";

type Rows = readonly Record<string, string>[];

function read(folder: string): { rows: Rows; facts: Record<string, Record<string, Record<string, KendallFacts & LineFacts>>> } | undefined {
  const series = sharedPath("data", folder, "series.csv");
  const facts = sharedPath("data", folder, "facts.json");
  return series && facts ? { rows: readTable(series), facts: JSON.parse(readFileSync(facts, "utf8")) } : undefined;
}

const column = (rows: Rows, name: string): Float64Array => Float64Array.from(rows, (row) => Number(row[name]));

const laparoscopy = read("practice-laparoscopy");
describe.skipIf(laparoscopy === undefined)(`trends of practice-laparoscopy (skipped: ${SHARED_ABSENT})`, () => {
  const learners = Object.entries(laparoscopy?.facts.learners ?? {});
  it("has the 12 learners", () => expect(learners.length).toBe(12));

  it.each(learners)("%s has the stored Mann-Kendall test, Theil-Sen slope and lines", (name, facts) => {
    const rows = laparoscopy!.rows.filter((row) => row.learner === name);
    const [trial, duration] = [column(rows, "trial"), column(rows, "duration")];
    expectKendall(trial, duration, facts.kendall!);
    expectLine(trial.slice(-6), duration.slice(-6), facts.olsLast6!);
    expectLine(trial.map(Math.log), duration.map(Math.log), facts.logLog!);
  });
});

const rotation = read("practice-rotation");
describe.skipIf(rotation === undefined)(`trends of practice-rotation (skipped: ${SHARED_ABSENT})`, () => {
  const people = Object.entries(rotation?.facts.participants ?? {});
  it("has the 12 people", () => expect(people.length).toBe(12));

  it.each(people)("%s has the stored trend of the last 40 trials of the rotated block, missing ones left out", (name, facts) => {
    const rows = rotation!.rows.filter((row) => {
      return row.participant === name && row.block === "rotated" && Number(row.trialInBlock) > 60 && row.deviation_deg !== "";
    });
    const [trial, deviation] = [column(rows, "trialInBlock"), column(rows, "deviation_deg")];
    expectKendall(trial, deviation, facts.kendallLast40!);
    expectLine(trial, deviation, facts.olsLast40!);
  });
});
