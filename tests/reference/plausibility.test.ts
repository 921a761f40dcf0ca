// Source: shared reference table fitts/plausibility.json: sampling error of a standard deviation computed with SciPy 1.17.1; ranges recalled from
// Soukoreff and MacKenzie 2004 (warnings only). Its device models and intercepts are tested beside the movement-time models.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { reviewThroughput } from "../../src/fitts/review-throughput.js";
import { chiSquareQuantile } from "../../src/math/chi-square-quantile.js";
import { logGamma } from "../../src/math/gamma.js";
import { simulateTrials } from "../fitts/simulated-trials.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";

const path = sharedPath("reference", "fitts", "plausibility.json");
const table = path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));

describe.skipIf(table === undefined)(`plausibility${table === undefined ? `: ${SHARED_ABSENT}` : ""}`, () => {
  it("few trials understate the spread by the table's share, and its normal interval is the table's", () => {
    for (const { n, c4, low, high } of table.We_sampling.cases) {
      const expectedSd = Math.sqrt(2 / (n - 1)) * Math.exp(logGamma(n / 2) - logGamma((n - 1) / 2));
      expect(expectedSd).toBeCloseTo(c4, 8);
      expect(Math.sqrt((n - 1) / chiSquareQuantile(0.975, n - 1))).toBeCloseTo(low, 8);
      expect(Math.sqrt((n - 1) / chiSquareQuantile(0.025, n - 1))).toBeCloseTo(high, 8);
    }
  });

  it("no published mouse throughput of the standard's kind is called implausible, and a record of 12.5 bit/s by any method is", () => {
    const said = (bits: number) =>
      reviewThroughput(simulateTrials({ seed: 1, n: 15, intercept: 0, slope: 1 / bits, pace: 1 })).warnings.includes("implausible");
    const mouse = table.throughput.filter(({ device }: { device: string }) => device === "mouse");
    const { low, high } = mouse.find(({ source }: { source: string }) => source.includes("9241"));
    expect([low, high].map(said)).toEqual([false, false]);
    expect(said(Math.max(...mouse.map(({ high: most }: { high?: number }) => most ?? 0)))).toBe(true);
  });

  it("an intercept outside the credible range is named", () => {
    const { low, high } = table.intercept_credible_ms;
    const said = (ms: number) =>
      reviewThroughput(simulateTrials({ seed: 2, n: 30, intercept: ms / 1000, slope: 0.5, pace: 1, timeSd: 0.01 })).warnings.includes(
        "intercept",
      );
    expect([low - 60, low + 60, high - 60, high + 60].map(said)).toEqual([true, false, false, true]);
  });
});
