import { test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { ThroughputWarning } from "../../src/fitts/cells/throughput-warnings.js";
import { reviewThroughput } from "../../src/fitts/review-throughput.js";
import { throughput } from "../../src/fitts/throughput.js";
import type { PointingTrials } from "../../src/fitts/types.js";
import { changed, joinTrials, type Pointer, reordered, simulateTrials, trialsArb, trueThroughput } from "./simulated-trials.js";

const steady: Pointer = { seed: 3, n: 25, intercept: 0.05, slope: 0.18, pace: 1 };
const keep = (trials: PointingTrials, test: (i: number) => boolean): PointingTrials =>
  reordered(
    trials,
    Array.from(trials.along.keys()).filter((i) => test(i)),
  );
const said = (trials: PointingTrials): readonly ThroughputWarning[] => reviewThroughput(trials).warnings;

describe("reviewThroughput against outside values", () => {
  // Source: closed form: on MT = a + b IDe throughput IDe/MT is 1/b everywhere when a = 0, and moves with the pace otherwise
  it.each([0, 0.2, 0.5])("foretells what another pace on the line does, with an intercept of %d s", (intercept) => {
    const pointer = { ...steady, n: 200, intercept, timeSd: 0.02 };
    const { tradeOff } = reviewThroughput(simulateTrials(pointer));
    const here = trueThroughput(pointer);
    expect(tradeOff!.narrower).toBeCloseTo(trueThroughput({ ...pointer, pace: 1 / 1.5 }) / here, 1.9);
    expect(tradeOff!.wider).toBeCloseTo(trueThroughput({ ...pointer, pace: 1.5 }) / here, 1.9);
    expect(tradeOff!.intercept).toBeCloseTo(intercept, 1.5);
  });

  // Source: Soukoreff and MacKenzie 2004 (seven recommendations, recalled) and its critics' list of misuses: each made on purpose
  it("names each misuse when it is made, and none when none is", () => {
    const good = simulateTrials(steady);
    // 4 in 100 of normal endpoints lie outside the nominal width at this pace, and one in 370 beyond three SD
    expect(said(good).filter((word) => word !== "outliers")).toEqual([]);
    const misuse = (trials: PointingTrials, word: ThroughputWarning) => expect(said(trials)).toContain(word);
    misuse(simulateTrials({ ...steady, n: 6 }), "fewTrials");
    // one cell of the sixteen is enough
    misuse(
      keep(good, (i) => i < 9 || i >= 25),
      "fewTrials",
    );
    misuse(
      keep(good, (i) => good.amplitude[i] === 128 && good.width[i]! > 20),
      "fewCells",
    );
    misuse(
      keep(good, (i) => good.amplitude[i] === 4 * good.width[i]!),
      "narrowRange",
    );
    misuse({ ...good, along: good.along.map((v, i) => (good.width[i] === 16 ? 1 : v)) }, "cellsLeftOut");
    misuse({ ...good, movementTime: good.movementTime.map((t) => t * 1000) }, "implausible");
    misuse({ ...good, movementTime: good.movementTime.map((t) => t + 0.6) }, "intercept");
    misuse(simulateTrials({ ...steady, pace: 2.2 }), "lowHitShare");
    misuse(
      keep(good, (i) => Math.abs(good.along[i]!) <= good.width[i]! / 2),
      "hitsOnly",
    );
    const unsigned = { ...good, along: good.along.map(Math.abs) };
    misuse(unsigned, "unsigned");
    misuse(
      keep(unsigned, (i) => i < 10),
      "unsigned",
    );
    // nine deviations of one sign may be chance
    expect(said(keep(unsigned, (i) => i < 9))).not.toContain("unsigned");
    misuse({ ...good, movementTime: changed(good.movementTime, 7, 0.05) }, "doublePresses");
    misuse({ ...good, along: changed(good.along, 7, -100) }, "outliers");
    misuse(joinTrials([good, simulateTrials({ ...steady, pace: 2.5, seed: 4, person: "2" })]), "differentStrategies");
    misuse(simulateTrials({ ...steady, intercept: 0.5 }), "dependsOnPace");
  });
});

describe("reviewThroughput properties", () => {
  test.prop([trialsArb])("holds the result of throughput and is plain data", (trials) => {
    const review = reviewThroughput(trials);
    expect(review.result).toEqual(throughput(trials));
    expect(JSON.parse(JSON.stringify(review))).toEqual(review);
    expect(review.hitShare.n).toBe(trials.along.length);
  });

  it("takes as many cells as there are, even one for each of 150,000 trials", () => {
    const n = 150_000;
    const many = {
      amplitude: Float64Array.from({ length: n }, (_, i) => 100 + i),
      width: new Float64Array(n).fill(20),
      movementTime: new Float64Array(n).fill(0.5),
      along: new Float64Array(n).fill(-1),
    };
    const { result, warnings } = reviewThroughput(many);
    expect(result.throughput).toMatchObject({ ok: false, why: "tooFew" });
    expect(warnings).toContain("cellsLeftOut");
  });

  it("lies to either side of today's throughput when the line is above the origin", () => {
    const { tradeOff } = reviewThroughput(simulateTrials({ ...steady, intercept: 0.3 }));
    expect(tradeOff!.narrower).toBeGreaterThan(1);
    expect(tradeOff!.wider).toBeLessThan(1);
  });

  it("says the same of one person as of the person twice", () => {
    const trials = simulateTrials(steady);
    const twice = joinTrials([trials, { ...trials, person: trials.person!.map(() => "other") }]);
    expect(reviewThroughput(twice).tradeOff!.slope).toBeCloseTo(reviewThroughput(trials).tradeOff!.slope, 12);
  });
});

describe("reviewThroughput bad input", () => {
  it("refuses what throughput refuses", () => {
    expect(() => reviewThroughput(simulateTrials(steady), { level: 0 })).toThrow(/options\.level must be above 0 and below 1, got 0/);
    expect(() => reviewThroughput(null as never)).toThrow(/trials\.along must be a Float64Array, got undefined/);
  });
  it("has no line without three cells, and nothing to say of nothing", () => {
    const empty = {
      amplitude: new Float64Array(0),
      width: new Float64Array(0),
      movementTime: new Float64Array(0),
      along: new Float64Array(0),
    };
    expect(reviewThroughput(empty)).toMatchObject({ warnings: [], tradeOff: null, hitShare: { ok: false, why: "tooFew" } });
  });
});
