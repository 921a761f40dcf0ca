import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import {
  type PracticeRetention,
  type PracticeRetentionOptions,
  practiceRetention,
  type RetentionScores,
} from "../../src/learning/practice-retention.js";
import type { Estimate } from "../../src/math/estimate.js";

const scores: RetentionScores = {
  start: [1.02, 0.95, 1.08, 0.99, 1.05],
  end: [0.7, 0.66, 0.74, 0.69, 0.72],
  retention: [0.8, 0.75, 0.83, 0.78, 0.79],
};

/** Value and interval in one list. */
function figuresOf(estimate: Estimate): number[] {
  if (!estimate.ok) throw new Error(estimate.why);
  return [estimate.value, ...(estimate.interval ?? [])];
}
const close = (values: readonly number[], digits: number): unknown[] => values.map((value) => expect.closeTo(value, digits));

/** A list of `length` trials that meets a criterion of 0.6 for the first time at trial `at`. */
const reaching = (at: number, length = 40): number[] => Array.from({ length }, (_, i) => (i + 1 < at ? 1 : 0.5));
const saved = (first: readonly number[][], again: readonly number[][], run?: number): NonNullable<PracticeRetention["savings"]> =>
  practiceRetention({ ...scores, savings: { first, again, criterion: 0.6, ...(run === undefined ? {} : { run }) } }).savings!;

describe("practiceRetention against outside values", () => {
  // Source: R 4.2.2: t.test of one sample and of two (Welch)
  it("has the absolute score, gain and difference of R", () => {
    const { absolute, gain, difference } = practiceRetention(scores);
    expect(figuresOf(absolute)).toEqual(close([0.79, 0.753799584784563, 0.826200415215437], 12));
    expect(figuresOf(gain)).toEqual(close([0.316, 0.252622296187173, 0.379377703812827], 12));
    expect(figuresOf(difference)).toEqual(close([0.088, 0.0446009763974675, 0.1313990236025327], 12));
  });

  // Source: R 4.2.2: Fieller's equation solved by uniroot, the variance of the end in both parts
  it("has the percentage of R", () =>
    expect(figuresOf(practiceRetention(scores).percentage)).toEqual(close([27.84810126582281, 15.24636607890307, 40.55862573136265], 9)));

  // Source: savings as described by Murre for Ebbinghaus' measure: 25 repetitions, then 20: 20 %. A study page: 5, then 2: 60 %. A textbook's transfer by
  // savings (Woodworth and Schlosberg, as reprinted in Polish): 20 trials, then 12: 40 %
  it.each([
    [25, 20, 20],
    [5, 2, 60],
    [20, 12, 40],
  ])("saves as published: %d trials, then %d are %d %%", (first, again, percent) => {
    const { percent: found, first: counted } = saved([reaching(first)], [reaching(again)]);
    expect(found).toEqual({ ok: true, value: expect.closeTo(percent, 12), unit: "%", n: 1 });
    expect(counted).toEqual([first]);
  });

  // Source: R 4.2.2: Fieller's equation for mean(n2)/mean(n1) solved by uniroot
  it("has an interval for savings on several tasks", () => {
    const { percent } = saved(
      [25, 22, 30, 27].map((at) => reaching(at)),
      [20, 15, 21, 19].map((at) => reaching(at)),
    );
    expect(figuresOf(percent)).toEqual(close([27.884615384615, 8.836445413509, 43.208351824875], 10));
  });
});

describe("practiceRetention properties", () => {
  const value = fc.integer({ min: 1, max: 5000 }).map((v) => v / 1000);
  const list = (minLength: number): fc.Arbitrary<number[]> => fc.array(value, { minLength, maxLength: 8 });
  const any = fc.record({ start: list(0), end: list(0), retention: list(0) });

  test.prop([any, fc.constantFrom("lower" as const, "higher" as const)])(
    "leaves its input alone and returns plain data",
    (given, better) => {
      const savings = Object.freeze({ first: [given.start], again: [given.retention], criterion: 1, run: 2 });
      const frozen = Object.freeze({
        start: Object.freeze(given.start),
        end: Object.freeze(given.end),
        retention: given.retention,
        savings,
      });
      const result = practiceRetention(frozen, Object.freeze({ better }));
      expect(JSON.parse(JSON.stringify(result))).toEqual(result);
      expect(structuredClone(result)).toEqual(result);
      for (const estimate of [result.absolute, result.gain, result.difference, result.percentage]) {
        if (!estimate.ok) continue;
        const [least, most] = estimate.interval!;
        const hair = 1e-9 * Math.max(1, Math.abs(estimate.value));
        expect(least - hair <= estimate.value && estimate.value <= most + hair).toBe(true);
      }
    },
  );

  it("turns round with the measure: negated values, higher better", () => {
    const negate = (list: ArrayLike<number>): number[] => Array.from(list, (v) => -v);
    const one = practiceRetention(scores);
    const other = practiceRetention(
      { start: negate(scores.start), end: negate(scores.end), retention: negate(scores.retention) },
      { better: "higher" },
    );
    expect(figuresOf(other.gain)).toEqual(close(figuresOf(one.gain), 12));
    expect(figuresOf(other.percentage)).toEqual(close(figuresOf(one.percentage), 9));
    expect(figuresOf(other.absolute)[0]).toBeCloseTo(-0.79, 12);
  });

  it("gives no percentage of a gain that is not told from 0, and says so", () => {
    const { percentage, absolute, warnings } = practiceRetention({ ...scores, start: [0.7, 0.68, 0.75, 0.71, 0.69] });
    expect(percentage).toEqual({ ok: false, why: "notIdentified", unit: "%", n: 5 });
    expect(absolute.ok).toBe(true);
    expect(warnings).toEqual(["gainNotShown"]);
  });

  it("may lose more than was gained, or gain more", () => {
    expect(figuresOf(practiceRetention({ ...scores, retention: [1.2, 1.25, 1.22, 1.28, 1.24] }).percentage)[0]).toBeGreaterThan(100);
    expect(figuresOf(practiceRetention({ ...scores, retention: [0.6, 0.62, 0.61, 0.6, 0.63] }).percentage)[0]).toBeLessThan(0);
  });

  it("bounds savings when a criterion was not met", () => {
    const never = Array.from({ length: 19 }, () => 1);
    // 20 trials or more at first, 10 again: at least half saved
    expect(saved([never], [reaching(10)])).toMatchObject({
      first: [null],
      again: [10],
      percent: { ok: false, why: "notIdentified" },
      bounds: [50, null],
    });
    // 40 trials at first, 20 or more again: at most half
    expect(saved([reaching(40)], [never]).bounds).toEqual([null, 50]);
    expect(saved([never], [never]).bounds).toEqual([null, null]);
    const censored = practiceRetention({ ...scores, savings: { first: [never], again: [never], criterion: 0.6 } });
    expect(censored.warnings).toEqual(["censored"]);
  });

  it("counts a run to its last trial, and starts again after a bad one", () => {
    const trials = [1, 0.5, 0.5, 1, 0.5, 0.5, 0.5, 1];
    expect(saved([trials], [trials], 3).first).toEqual([7]);
    expect(saved([trials], [trials], 2).first).toEqual([3]);
    expect(saved([trials], [trials], 4).first).toEqual([null]);
  });
});

describe("practiceRetention bad input", () => {
  it("is not ok with fewer than two values", () => {
    const { absolute, gain, difference, percentage, warnings } = practiceRetention({ ...scores, retention: [0.8] });
    expect(absolute).toEqual({ ok: false, why: "tooFew", unit: "s", n: 1 });
    expect(gain.ok).toBe(true);
    expect(difference).toEqual({ ok: false, why: "tooFew", unit: "s", n: 1 });
    expect(percentage).toEqual({ ok: false, why: "tooFew", unit: "%", n: 1 });
    expect(warnings).toEqual(["fewValues"]);
  });

  it.each([
    ["scores must be an object of lists, got null", TypeError, null, {}],
    ["scores.start must be a list of numbers, got undefined", TypeError, {}, {}],
    ["scores.end[0] must be finite, got NaN", RangeError, { ...scores, end: [Number.NaN] }, {}],
    ["options.level must be above 0 and below 1, got 0", RangeError, scores, { level: 0 }],
    ['options.better must be one of "lower", "higher", got "more"', RangeError, scores, { better: "more" }],
    ["scores.savings must be an object, got 5", TypeError, { ...scores, savings: 5 }, {}],
    [
      "scores.savings.criterion must be finite, got NaN",
      RangeError,
      { ...scores, savings: { first: [[1]], again: [[1]], criterion: Number.NaN } },
      {},
    ],
    [
      "scores.savings.run must be a whole number",
      RangeError,
      { ...scores, savings: { first: [[1]], again: [[1]], criterion: 1, run: 0 } },
      {},
    ],
    [
      "scores.savings.first must be an array of at least one list",
      TypeError,
      { ...scores, savings: { first: [], again: [[1]], criterion: 1 } },
      {},
    ],
    [
      "scores.savings.again[0] must be a list of numbers, got 1",
      TypeError,
      { ...scores, savings: { first: [[1]], again: [1], criterion: 1 } },
      {},
    ],
  ] as const)("says: %s", (message, kind, given, options) => {
    const run = (): unknown => practiceRetention(given as unknown as RetentionScores, options as PracticeRetentionOptions);
    expect(run).toThrow(kind);
    expect(run).toThrow(`practiceRetention: ${message}`);
  });
});
