import { fc, test } from "@fast-check/vitest";
import { linearRegression } from "simple-statistics";
import { describe, expect, it } from "vitest";
import type { PractisedBlock } from "../../src/practice/blocks/types.js";
import { type JudgeBlocksOptions, judgeBlocks } from "../../src/practice/judge-blocks.js";

const block = (hits: number, given: Partial<PractisedBlock> = {}): PractisedBlock => ({ trials: 30, hits, symptoms: false, ...given });
const good = block(29);

describe("judgeBlocks against outside values", () => {
  // Source: SciPy 1.10.1 stats.binom.cdf(25, 30, 0.95): chance that a steady 95 % fall below 85 % of 30
  it("calls a block of 30 poor as often as the binomial law says", () => {
    const poor = Array.from({ length: 31 }, (_, hits) => hits).filter((hits) => judgeBlocks([block(hits), block(hits)]).stop);
    let [chance, term] = [0, 0.05 ** 30];
    for (let hits = 0; hits <= 30; hits++) {
      if (poor.includes(hits)) chance += term;
      term *= ((30 - hits) / (hits + 1)) * 19;
    }
    expect(poor.at(-1)).toBe(25);
    expect(chance).toBeCloseTo(0.015635510128533148, 12);
  });

  // Source: simple-statistics linearRegression: slope of the logarithms of three latencies beside ln 1.1
  test.prop([
    fc.tuple(
      ...([0, 1, 2].map(() => fc.double({ min: 0.15, max: 0.6, noNaN: true })) as [
        fc.Arbitrary<number>,
        fc.Arbitrary<number>,
        fc.Arbitrary<number>,
      ]),
    ),
  ])("finds latency growing where the least-squares slope says so", (latencies) => {
    const { m } = linearRegression(latencies.map((latency, i) => [i, Math.log(latency)]));
    fc.pre(Math.abs(m - Math.log(1.1)) > 1e-6);
    const { because } = judgeBlocks(latencies.map((latency) => block(30, { latency })));
    expect(because.some(({ cause }) => cause === "latency")).toBe(m > Math.log(1.1));
  });

  // Source: arithmetic: 1.96 root 2 standard errors of 3 px is 8.3 px; 20 + 8.3 = 28.3, with 20 the least mean of two blocks in a row
  it("finds a primary error that has grown beyond the smallest detectable change, twice", () => {
    const at = (...errors: number[]) =>
      judgeBlocks(
        errors.map((primaryError) => block(30, { primaryError })),
        { detectable: 1.96 * Math.SQRT2 * 3 },
      );
    expect(at(21, 19, 24, 28.2, 29).stop).toBe(false);
    expect(at(21, 19, 24, 28.4, 29).because[0]!.cause).toBe("primaryError");
    expect(at(21, 19, 24, 28.4, 29).advice).toBe("stopOrSwitchPart");
    expect(at(20, 28.4, 29).stop).toBe(true);
    expect(at(28.4, 29).notJudged).toContain("primaryError");
  });

  // Source: common practice, no source: symptoms end the day, whatever the figures
  it("stops for the day at any symptom", () => {
    const verdict = judgeBlocks([block(30, { symptoms: true }), good, good]);
    expect(verdict).toMatchObject({ stop: true, advice: "stopToday" });
    expect(verdict.because[0]!.reason).toContain("clinician");
    expect(judgeBlocks([good, { ...block(10), symptoms: true }]).because.map(({ cause }) => cause)).toEqual(["symptoms"]);
  });

  it("needs two poor blocks in a row, at the slow pace", () => {
    expect(judgeBlocks([block(20), good, block(20)]).advice).toBe("goOn");
    expect(judgeBlocks([good, block(20), block(20)]).advice).toBe("stopOrSwitchPart");
    const fast = { movementTime: 0.5 };
    const slow = { movementTime: 0.58 };
    expect(judgeBlocks([block(20, fast), block(20, fast)], { slowPace: 0.6 })).toMatchObject({ stop: false, advice: "slowDown" });
    expect(judgeBlocks([block(20, slow), block(20, fast)], { slowPace: 0.6 }).because[0]!.reason).toContain("slow pace");
    expect(judgeBlocks([block(20, slow), block(20, slow)], { slowPace: 0.6 }).advice).toBe("stopOrSwitchPart");
  });
  it("takes exactly 0.10 below the wanted share as clean enough", () => {
    const of20 = (hits: number): PractisedBlock => ({ trials: 20, hits });
    expect(judgeBlocks([of20(17), of20(17)]).stop).toBe(false);
    expect(judgeBlocks([of20(16), of20(16)]).stop).toBe(true);
    expect(judgeBlocks([of20(16), of20(16)], { wanted: 0.9 }).stop).toBe(false);
  });
  it("says what could not be judged", () => {
    expect(judgeBlocks([])).toEqual({
      stop: false,
      advice: "goOn",
      because: [],
      notJudged: ["symptoms", "hitShare", "primaryError", "latency"],
    });
    const full = [1, 2, 3].map(() => block(30, { latency: 0.25, primaryError: 9 }));
    expect(judgeBlocks(full, { detectable: 2 }).notJudged).toEqual([]);
    expect(
      judgeBlocks([
        { trials: 9, hits: 0 },
        { trials: 9, hits: 0 },
      ]).notJudged,
    ).toContain("hitShare");
  });
});

describe("judgeBlocks properties", () => {
  const blocks = fc.array(
    fc.record(
      {
        trials: fc.constantFrom(5, 20, 30),
        hits: fc.integer({ min: 0, max: 5 }),
        primaryError: fc.double({ min: 0, max: 50, noNaN: true }),
        latency: fc.double({ min: 0.1, max: 0.8, noNaN: true }),
        movementTime: fc.double({ min: 0.3, max: 1, noNaN: true }),
        symptoms: fc.boolean(),
      },
      { requiredKeys: ["trials", "hits"], noNullPrototype: true },
    ),
    { maxLength: 6 },
  );
  const options: fc.Arbitrary<JudgeBlocksOptions> = fc.record(
    { wanted: fc.constantFrom(0.7, 0.95), detectable: fc.constantFrom(1, 10), slowPace: fc.constantFrom(0.4, 0.8) },
    { requiredKeys: [], noNullPrototype: true },
  );

  test.prop([blocks, options])("is plain data, the same for the same blocks, and leaves them alone", (list, given) => {
    const before = JSON.stringify(list);
    const verdict = judgeBlocks(Object.freeze(list), given);
    expect(JSON.parse(JSON.stringify(verdict))).toEqual(verdict);
    expect(judgeBlocks(list, given)).toEqual(verdict);
    expect(JSON.stringify(list)).toBe(before);
  });

  test.prop([blocks, options])("stops where advice says so, with a reason, and always at symptoms", (list, given) => {
    const { stop, advice, because } = judgeBlocks(list, given);
    expect(stop).toBe(advice === "stopToday" || advice === "stopOrSwitchPart");
    expect(because.length > 0).toBe(advice !== "goOn");
    if (list.some(({ symptoms }) => symptoms === true)) expect(advice).toBe("stopToday");
  });

  test.prop([blocks, fc.constantFrom(0.1, 10)])("does not depend on the unit of the error", (list, factor) => {
    const scaled = list.map((one) => (one.primaryError === undefined ? one : { ...one, primaryError: one.primaryError * factor }));
    const causes = (some: readonly PractisedBlock[], detectable: number) =>
      judgeBlocks(some, { detectable }).because.map(({ cause }) => cause);
    expect(causes(scaled, 3.3 * factor)).toEqual(causes(list, 3.3));
  });

  test.prop([fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 30 })])(
    "never goes on with fewer hits where it stops with more",
    (a, b) => {
      const stops = (hits: number) => judgeBlocks([block(hits), block(hits)]).stop;
      if (stops(Math.max(a, b))) expect(stops(Math.min(a, b))).toBe(true);
    },
  );
});

describe("judgeBlocks bad input", () => {
  const bad = (blocks: unknown, options?: unknown) => () => judgeBlocks(blocks as PractisedBlock[], options as JudgeBlocksOptions);
  it.each([
    [[{ trials: 0, hits: 0 }], {}, "judgeBlocks: blocks[0].trials must be a whole number"],
    [[good, { trials: 10, hits: 11 }], {}, "judgeBlocks: blocks[1].hits must be a whole number at least 0 and at most 10, got 11"],
    [[block(3, { primaryError: -1 })], {}, "judgeBlocks: blocks[0].primaryError must be finite and at least 0, got -1"],
    [[block(3, { latency: 0 })], {}, "judgeBlocks: blocks[0].latency must be finite and above 0, got 0"],
    [[block(3, { movementTime: Number.NaN })], {}, "judgeBlocks: blocks[0].movementTime must be finite and above 0, got NaN"],
    [[], { wanted: 1 }, "judgeBlocks: options.wanted must be above 0.1 and at most 0.999, got 1"],
    [[], { detectable: 0 }, "judgeBlocks: options.detectable must be finite and above 0, got 0"],
    [[], { slowPace: -1 }, "judgeBlocks: options.slowPace must be finite and above 0, got -1"],
  ])("refuses %j with %j", (blocks, options, message) => {
    expect(bad(blocks, options)).toThrow(RangeError);
    expect(bad(blocks, options)).toThrow(message);
  });
  it.each([
    [null, {}, "judgeBlocks: blocks must be a list, got null"],
    [[3], {}, "judgeBlocks: blocks[0] must be an object, got 3"],
    [[{ ...good, symptoms: "no" }], {}, 'judgeBlocks: blocks[0].symptoms must be true or false, got "no"'],
    [[], null, "judgeBlocks: options must be an object, got null"],
  ])("refuses the kind of %j with %j", (blocks, options, message) => {
    expect(bad(blocks, options)).toThrow(TypeError);
    expect(bad(blocks, options)).toThrow(message);
  });
});
