// Each warning about figures of reliability at its limit.
import { fc, test } from "@fast-check/vitest";
import { mean, sampleCorrelation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { reliability } from "../../../src/learning/reliability.js";

const warned = (scores: readonly (readonly number[])[], level = 0.95) => reliability(scores, { level }).warnings;

describe("a warning about reliability", () => {
  it("of few people comes from two to nine, of a group with any", () => {
    const people = (n: number) => Array.from({ length: n }, (_, i) => [10 + i, 11 + i + ((7 * i) % 5) - 2]);
    expect(warned(people(1))).toEqual([]);
    expect(warned(people(2))).toEqual(["fewPeople", "groupNotPerson"]);
    expect(warned(people(9))).toEqual(["fewPeople", "groupNotPerson"]);
    expect(warned(people(10))).toEqual(["groupNotPerson"]);
  });

  const table = fc.array(fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 3, maxLength: 3 }), { minLength: 6, maxLength: 6 });
  // Source: the docstring: the F test of the sessions below 1 - level
  test.prop([table, fc.constantFrom(0.6, 0.8, 0.95)], { numRuns: 60 })(
    "of practice goes with the test of the sessions",
    (scores, level) => {
      const { variances, warnings } = reliability(scores, { level });
      expect(warnings.includes("learningBetweenSessions")).toBe(variances!.sessionTest !== null && variances!.sessionTest.p < 1 - level);
    },
  );

  // Source: simple-statistics 7.12.1 sampleCorrelation of each person's mean with the size of what is left; with six people a correlation of 0.7293 has a
  // one-sided p of 0.05 (table of critical values, 4 degrees of freedom)
  test.prop([table, fc.boolean()], { numRuns: 150 })("of errors that grow goes with their correlation", (drawn, growing) => {
    const scores = growing ? drawn.map((row, i) => row.map((v) => 1000 * (i + 1) + (i + 1) * v)) : drawn;
    const rows = scores.map((row) => mean(row));
    const columns = [0, 1, 2].map((j) => mean(scores.map((row) => row[j]!)));
    const all = mean(rows);
    const sizes = scores.map((row, i) => Math.sqrt(row.reduce((sum, v, j) => sum + (v - rows[i]! - columns[j]! + all) ** 2, 0)));
    const r = sampleCorrelation(rows, sizes);
    if (Math.abs(r - 0.7293) < 1e-3) return;
    expect(warned(scores).includes("proportionalError")).toBe(r > 0.7293);
  });

  // Source: by hand: changes of 1, -1, 2, -2 about the means 1 to 4 grow with them as 1, 1, 2, 2 (a correlation of 0.894, one-sided p 0.053 with 2 degrees of
  // freedom); of 1, -2, -3, 4 exactly with them; three people are too few to ask
  it("of errors that grow asks for four people", () => {
    const about = (changes: readonly number[]) => changes.map((change, i) => [100 * (i + 1) - change, 100 * (i + 1) + change]);
    expect(warned(about([1, -1, 2, -2]))).not.toContain("proportionalError");
    expect(warned(about([1, -2, -3, 4]))).toContain("proportionalError");
    expect(warned(about([1, 2, -3]))).not.toContain("proportionalError");
    // no spread of means, or of errors, has no correlation
    expect(warned([1, -2, -3, 4].map((change) => [10 - change, 10 + change]))).not.toContain("proportionalError");
    expect(warned([1, 2, 3, 4].map((level) => [level, level + 1]))).not.toContain("proportionalError");
  });
});
