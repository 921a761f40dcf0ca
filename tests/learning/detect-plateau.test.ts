import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { detectPlateau } from "../../src/learning/detect-plateau.js";
import type { PlateauReport, PlateauSeries } from "../../src/learning/plateau/types.js";
import { createRandom } from "../../src/math/random.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";

const daily = (n: number): number[] => Array.from({ length: n }, (_, i) => i);

/** Daily sessions about a course in logarithms, scattering by `sd` of the level. */
function sessions(n: number, sd: number, course: (day: number) => number, seed = 1): { day: number[]; value: number[] } {
  const random = createRandom(seed);
  const day = daily(n);
  return { day, value: day.map((at) => 0.6 * Math.exp(course(at) + random.normal(0, sd))) };
}

const table = readReference("learning/trend.json");

describe("detectPlateau against outside values", () => {
  // Source: learning/trend.json, slope windows: two one-sided t tests computed with SciPy 1.10.1 linregress, errors taken as independent; rel 1e-9, abs 1e-12
  // as stored. The verdict rests on the trend that allows for autocorrelation, which agrees where the test is clear.
  it.skipIf(table === undefined)(
    `gives the two one-sided tests of the textbook (${table === undefined ? SHARED_ABSENT : "slope windows"})`,
    () => {
      const windows = table!.cases.filter(({ name }) => name.startsWith("slope window"));
      expect(windows.length).toBe(4);
      for (const { input, params, expected, tolerance } of windows) {
        const { trend } = judge(input.y, params.equivalenceMargin);
        expect(within(trend.independent!.improvement, expected.slope, tolerance)).toBe(true);
        expect(within(trend.independent!.p, expected.tostP, tolerance)).toBe(true);
        expect(trend.speaks === "for").toBe(expected.flatByTost05);
      }
    },
  );

  function judge(value: number[], margin: number): PlateauReport["evidence"] {
    return detectPlateau({ day: daily(value.length), value }, { kind: "difference", better: "higher", horizon: 1, worthwhile: margin })
      .evidence;
  }

  // Source: SciPy 1.10.1 stats.theilslopes and stats.kendalltau on the logarithms of these values, computed
  it("gives the median slope and the rank correlation of SciPy", () => {
    const value = [0.612, 0.598, 0.605, 0.589, 0.601, 0.593, 0.58, 0.594, 0.586, 0.577, 0.59, 0.581];
    const day = [0, 1, 2, 4, 5, 7, 8, 9, 11, 12, 14, 15];
    const { order } = detectPlateau({ day, value }).evidence;
    expect(order.medianSlope!.improvement).toBeCloseTo(100 * (1 - Math.exp(14 * SLOPE.slope)), 9);
    expect(order.medianSlope!.interval[0]).toBeCloseTo(100 * (1 - Math.exp(14 * SLOPE.high)), 9);
    expect(order.medianSlope!.interval[1]).toBeCloseTo(100 * (1 - Math.exp(14 * SLOPE.low)), 9);
    expect(order.tau).toBeCloseTo(-SLOPE.tau, 12);
    expect(order.speaks).toBe("against");
  });

  // Source: simulation with known truth. The learner still gains exactly what matters: called a plateau in at most 5 % (tests/validation/plateau.ts has all
  // cells); 3.3 binomial standard errors of 150 runs allowed.
  it.each([
    [14, 0.01],
    [30, 0.02],
  ])("seldom calls a plateau in %d sessions of a learner who gains 2 % in two weeks, SD %d", (n, sd) => {
    let wrong = 0;
    for (let seed = 0; seed < 150; seed++) {
      if (detectPlateau(sessions(n, sd, (at) => (Math.log(0.98) * at) / 14, 500 + seed)).verdict === "plateau") wrong++;
    }
    expect(wrong / 150).toBeLessThan(0.05 + 3.3 * Math.sqrt((0.05 * 0.95) / 150));
  });

  // Source: the same, of a flat learner; a test that is told the true scatter tells 92 % of these (normal theory, SD 2 %, 30 sessions)
  it("tells most flat learners after a month at 2 %, and hardly any after two weeks", () => {
    const told = (n: number): number =>
      Array.from({ length: 100 }, (_, seed) => detectPlateau(sessions(n, 0.02, () => 0, 900 + seed)).verdict).filter((v) => v === "plateau")
        .length;
    expect(told(30)).toBeGreaterThan(65);
    expect(told(14)).toBeLessThan(15);
  });
});

/** Of the logarithms, per day. */
const SLOPE = { slope: -0.0029487780741594416, low: -0.004505411930657233, high: -0.0012432206181523166, tau: -0.5757575757575757 };

describe("detectPlateau properties", () => {
  it("calls steady gains and steady losses what they are", () => {
    expect(detectPlateau(sessions(20, 0.01, (at) => -0.01 * at)).verdict).toBe("improving");
    expect(detectPlateau(sessions(20, 0.01, (at) => 0.01 * at)).verdict).toBe("declining");
    expect(
      detectPlateau(
        sessions(20, 0.01, (at) => 0.01 * at),
        { better: "higher" },
      ).verdict,
    ).toBe("improving");
  });

  it("shows every line of evidence for a learner who has stopped", () => {
    const { day, value } = sessions(50, 0.01, (at) => 0.5 * Math.exp(-0.3 * at), 3);
    const { verdict, evidence, recent, warnings } = detectPlateau({ day, value });
    expect(verdict).toBe("plateau");
    expect(evidence).toMatchObject({ trend: { speaks: "for" }, order: { speaks: "for" }, asymptote: { speaks: "for" } });
    expect(recent.from).toBeGreaterThan(5);
    expect(warnings).toContain("earlierCourse");
  });

  // an equivalence test with so few sessions could pass by luck alone
  test.prop([
    fc.integer({ min: 0, max: 7 }),
    fc.double({ min: 0.1, max: 90, noNaN: true }),
    fc.double({ min: 0.1, max: 1000, noNaN: true }),
    fc.integer({ min: 0, max: 1000 }),
  ])("is never certain of fewer than eight sessions, whatever the options", (n, worthwhile, horizon, seed) => {
    const series = sessions(n, 1e-4, () => 0, seed);
    const { verdict, why } = detectPlateau({ ...series, day: series.day.map((at) => 10 * at) }, { worthwhile, horizon });
    expect([verdict, why]).toEqual(["cannotTell", "tooFewSessions"]);
  });

  it("is not certain of many sessions within few days", () => {
    const { day, value } = sessions(30, 0.001, () => 0);
    expect(detectPlateau({ day: day.map((at) => at / 4), value }).why).toBe("tooShort");
  });

  test.prop([fc.integer({ min: 0, max: 10_000 }), fc.double({ min: 0.001, max: 1000, noNaN: true })])(
    "says the same in any unit, and from any first day",
    (seed, scale) => {
      const { day, value } = sessions(16, 0.02, (at) => 0.2 * Math.exp(-0.2 * at), seed);
      const one = detectPlateau({ day, value });
      const other = detectPlateau({ day: day.map((at) => at + 700), value: value.map((v) => scale * v) });
      expect(other.verdict).toBe(one.verdict);
      expect(other.recent).toEqual(one.recent);
      expect(other.evidence.trend.chances.gain).toBeCloseTo(one.evidence.trend.chances.gain, 8);
    },
  );

  test.prop([fc.integer({ min: 0, max: 10_000 })])("mirrors itself when better is the other way", (seed) => {
    const { day, value } = sessions(20, 0.02, (at) => -0.002 * at, seed);
    const level = value.reduce((a, b) => a + b) / value.length;
    const options = { kind: "difference", worthwhile: 0.01 } as const;
    const one = detectPlateau({ day, value }, options);
    const other = detectPlateau({ day, value: value.map((v) => 2 * level - v) }, { ...options, better: "higher" });
    expect(other.verdict).toBe(one.verdict);
    expect(other.evidence.trend.chances.gain).toBeCloseTo(one.evidence.trend.chances.gain, 8);
  });

  it("can be fed one session at a time: what came later changes nothing of what was said", () => {
    const { day, value } = sessions(30, 0.01, (at) => 0.3 * Math.exp(-0.3 * at));
    const fed: { day: number[]; value: number[] } = { day: [], value: [] };
    const said = day.map((at, i) => {
      fed.day.push(at);
      fed.value.push(value[i]!);
      return detectPlateau(fed).verdict;
    });
    expect(said.slice(0, 7)).toEqual(new Array(7).fill("cannotTell"));
    expect(said[19]).toBe(detectPlateau({ day: day.slice(0, 20), value: value.slice(0, 20) }).verdict);
  });

  it("judges only the sessions on the present equipment", () => {
    const { day, value } = sessions(40, 0.01, (at) => (at < 20 ? 0.1 : 0), 5);
    const equipment = day.map((at) => (at < 20 ? "old" : "new"));
    const { recent, warnings } = detectPlateau({ day, value, equipment });
    expect(recent.from).toBeGreaterThanOrEqual(20);
    expect(warnings).toContain("equipmentChanged");
  });

  it("does not call a plateau while the task is too easy, or while another measure still gets better", () => {
    const series = sessions(40, 0.01, () => 0, 8);
    expect(detectPlateau(series).verdict).toBe("plateau");
    const easy = detectPlateau({ ...series, hitShare: series.day.map(() => 0.99) });
    expect(easy).toMatchObject({ verdict: "cannotTell", why: "contradicted", warnings: ["taskTooEasy"] });
    const spread = { value: sessions(40, 0.05, (at) => -0.02 * at, 9).value, better: "lower" } as const;
    const narrowing = detectPlateau({ ...series, alongside: { spread } });
    expect(narrowing).toMatchObject({ why: "contradicted", evidence: { alongside: [{ name: "spread", speaks: "against" }] } });
  });

  it("sees a step within the recent sessions", () => {
    const { day, value } = sessions(24, 0.003, (at) => (at < 18 ? 0.08 : 0), 2);
    const { verdict, evidence } = detectPlateau({ day, value });
    expect(verdict).not.toBe("plateau");
    expect(evidence.segments).toMatchObject({ speaks: "against", steps: [18] });
  });

  it("asks for more sessions the more they scatter", () => {
    const needed = [0.01, 0.02, 0.04].map((sd) => detectPlateau(sessions(12, sd, () => 0, 4)).sessionsNeeded ?? 0);
    expect(needed[0]!).toBeLessThan(needed[1]!);
    expect(needed[1]!).toBeLessThan(needed[2]!);
  });

  it("says that it cannot judge values without scatter, or none at all", () => {
    expect(detectPlateau({ day: daily(20), value: new Array(20).fill(0.6) })).toMatchObject({
      verdict: "cannotTell",
      why: "noScatter",
      sessionsNeeded: null,
    });
    expect(detectPlateau({ day: [], value: [] })).toMatchObject({ verdict: "cannotTell", why: "tooFewSessions", n: 0 });
  });

  test.prop([fc.array(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), { maxLength: 25 }), fc.boolean()])(
    "gives plain data and leaves its input alone",
    (value, same) => {
      const day = Object.freeze(value.map((_, i) => (same ? 1 : i)));
      const report = detectPlateau({ day, value: Object.freeze([...value]) as readonly number[] });
      expect(JSON.parse(JSON.stringify(report))).toEqual(report);
      expect(structuredClone(report)).toEqual(report);
    },
  );
});

describe("detectPlateau bad input", () => {
  const series: PlateauSeries = { day: [0, 1], value: [1, 2] };
  it.each([
    [{ ...series, day: [1, 0] }, {}, "detectPlateau: series.day[1] must be at least 1, the day before it, got 0"],
    [{ ...series, value: [1] }, {}, "detectPlateau: series.value must have 2 entries like series.day, got 1"],
    [{ ...series, value: [1, 0] }, {}, 'detectPlateau: series.value[1] must be above 0 for options.kind "percent", got 0'],
    [{ ...series, value: [1, Number.NaN] }, {}, "detectPlateau: series.value[1] must be finite, got NaN"],
    [{ ...series, hitShare: [0.5, 1.5] }, {}, "detectPlateau: series.hitShare[1] must be from 0 to 1, got 1.5"],
    [{ ...series, equipment: ["a"] }, {}, "detectPlateau: series.equipment must have 2 entries like series.day, got 1"],
    [series, { worthwhile: 0 }, "detectPlateau: options.worthwhile must be above 0 and at most 99, got 0"],
    [series, { horizon: 0 }, "detectPlateau: options.horizon must be finite and above 0, got 0"],
    [series, { kind: "difference" }, 'detectPlateau: options.worthwhile must be given for options.kind "difference", got undefined'],
  ] as const)("refuses %j with %j", (given, options, message) => {
    expect(() => detectPlateau(given as PlateauSeries, options)).toThrow(new RangeError(message));
  });

  it("refuses what is of another kind", () => {
    expect(() => detectPlateau(null as never)).toThrow("detectPlateau: series must be an object, got null");
    expect(() => detectPlateau({ day: "0", value: [] } as never)).toThrow(TypeError);
    expect(() => detectPlateau({ ...series, equipment: [1, 2] } as never)).toThrow(
      "detectPlateau: series.equipment[0] must be a string, got 1",
    );
    expect(() => detectPlateau({ ...series, alongside: { pace: { value: [1, 2], better: "up" } } } as never)).toThrow(
      'detectPlateau: series.alongside.pace.better must be "lower" or "higher", got "up"',
    );
    expect(() => detectPlateau(series, { better: "up" } as never)).toThrow(RangeError);
  });
});
