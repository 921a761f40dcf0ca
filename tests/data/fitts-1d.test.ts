import { describe, expect, it } from "vitest";
import { reviewThroughput } from "../../src/fitts/review-throughput.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";
import { fitts1dFigures } from "./fitts-1d-facts.js";
import { fitts1dRows, fitts1dTrials } from "./read-fitts-1d.js";

const present = sharedPath("data", "fitts-1d", "facts.json") !== undefined;

// Source: data/fitts-1d/facts.json (nine decimals), made by the NumPy script beside it from the same table, independently of this project.
describe.skipIf(!present)(`fitts-1d${present ? "" : `: ${SHARED_ABSENT}`}`, () => {
  const rows = fitts1dRows();

  it("has every throughput, cell and regression of the reference, both selections, people and groups", () => {
    const figures = fitts1dFigures()!;
    // 11 people and 2 groups in 2 selections: 16 cells of 9 figures, throughput, and 5 figures of a line
    expect(figures.length).toBe(3 + 2 * (11 * (16 * 9 + 1 + 5) + 2 * (3 + 5)));
    expect(
      figures.filter(([, got, expected]) => !(Math.abs(got - expected) <= 2e-9 * Math.max(1, Math.abs(expected)))).map(([name]) => name),
    ).toEqual([]);
  });

  // Source: data/fitts-1d/README.md: gross misses are left in; same-side rows make the nominal amplitude of the random recordings untrue
  it("is told what its README tells: outliers, and the same-side trials of the random recordings by the distance covered", () => {
    const { warnings, suspect } = reviewThroughput(fitts1dTrials(rows, "reversal"));
    expect(warnings).toContain("outliers");
    expect(suspect.doublePress).toEqual([]);
    const random = rows.filter((row) => row.presentation === "random");
    const trials = fitts1dTrials(random, "all");
    const covered = random.map((row, i) =>
      i > 0 && random[i - 1]!.trial + 1 === row.trial ? Math.abs(row.x - random[i - 1]!.x) : row.amplitude,
    );
    const { suspect: told } = reviewThroughput({ ...trials, travelled: Float64Array.from(covered) });
    expect(told.travelledTooLittle.length).toBeGreaterThan(200);
  });
});
