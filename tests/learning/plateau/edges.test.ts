// Verdicts, breaks of a course and forecasts of sessions just at their limits.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { detectPlateau } from "../../../src/learning/detect-plateau.js";
import { recentStretch } from "../../../src/learning/plateau/recent-stretch.js";
import { effectiveCount } from "../../../src/learning/trend/effective-count.js";
import { lagOne } from "../../../src/learning/trend/lag-one.js";
import { unbiasedLagOne } from "../../../src/learning/trend/unbiased-lag-one.js";
import { linearRegression } from "../../../src/math/linear-regression.js";
import { createRandom } from "../../../src/math/random.js";

const daily = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
const drawn = (n: number, sd: number, slope: number, seed: number) => {
  const random = createRandom(seed);
  return { day: daily(n), value: daily(n).map((at) => 0.6 * Math.exp(slope * at + random.normal(0, sd))) };
};

describe("the recent stretch", () => {
  const day = Float64Array.from(daily(20));
  const stepAt = (cut: number) => day.map((at) => (at < cut ? 0 : 5));
  // Source: by hand: two exact levels leave nothing at all; what is left is one exact level, without a further break
  it("begins at a step between two exact levels, beyond all doubt", () =>
    expect(recentStretch(day, stepAt(10), 8, 5)).toEqual({ from: 10, support: Number.MAX_VALUE }));
  // Source: the docstring: at least `least` values over at least `span`: the last 8 of 20 daily values span 7 days; four values before
  it.each([
    [12, 8, 7, true],
    [12, 9, 7, false],
    [12, 8, 7.5, false],
    [4, 8, 7, true],
    [3, 8, 7, false],
  ])("begins at %d of 20 with %d values over %d days: %s", (cut, least, span, found) => {
    expect(recentStretch(day, stepAt(cut), least, span).from === cut).toBe(found);
  });
  // Source: the criterion written out on regressions of both parts (linearRegression): m ln(whole/parts) - 3 ln m, m the values that count as independent
  test.prop([fc.integer({ min: 1, max: 1e6 })], { numRuns: 20 })("is supported by the criterion of two lines", (seed) => {
    const random = createRandom(seed);
    const x = Float64Array.from({ length: 24 }, (_, i) => 1.5 * i);
    const y = x.map((at, i) => (i < 11 ? 9 - 0.3 * at : 2 + 0.05 * at) + random.normal(0, 0.3));
    const line = (from: number, to: number) => linearRegression([x.slice(from, to)], y.slice(from, to))!;
    const cuts = Array.from({ length: 24 - 8 - 4 + 1 }, (_, k) => 4 + k);
    const sums = cuts.map((cut) => line(0, cut).residualSum + line(cut, 24).residualSum);
    const least = Math.min(...sums);
    const cut = cuts[sums.indexOf(least)]!;
    const rest = Float64Array.from([...line(0, cut).residuals, ...line(cut, 24).residuals]);
    const count = effectiveCount(24, unbiasedLagOne(lagOne(rest)!, 24, 2));
    const support = count * Math.log(line(0, 24).residualSum / least) - 3 * Math.log(count);
    const found = recentStretch(x, y, 8, 10);
    // a further break in the later part is another matter
    if (found.from !== cut && found.from !== 0) return;
    expect(found).toEqual(support > 10 ? { from: cut, support: expect.closeTo(support, 6) } : { from: 0, support: 0 });
  });
});

describe("a verdict", () => {
  // Source: the docstring: plateau where the trend says so and nothing contradicts; improving from a chance of 97.5 %, or of 90 % where the curve promises a
  // worthwhile gain; declining from 97.5 % of a loss
  test.prop([fc.integer({ min: 1, max: 1e6 }), fc.integer({ min: 11, max: 22 }), fc.constantFrom(-0.006, -0.003, -0.0015, 0, 0.003)], {
    numRuns: 120,
  })("follows from the evidence", (seed, n, slope) => {
    const { verdict, why, evidence, recent, sessionsNeeded } = detectPlateau(drawn(n, 0.012, slope, seed));
    const { trend, asymptote, segments, alongside } = evidence;
    const against = [asymptote, segments, ...alongside].some(({ speaks }) => speaks === "against");
    const { gain, loss, worthwhileGain, worthwhileLoss } = trend.chances;
    const flat = worthwhileGain <= 0.035 && worthwhileLoss <= 0.2;
    expect(trend.speaks).toBe(flat ? "for" : gain >= 0.975 || loss >= 0.975 ? "against" : "silent");
    const expected = (() => {
      if (recent.sessions < 8) return ["cannotTell", "tooFewSessions"];
      if (recent.days < 10) return ["cannotTell", "tooShort"];
      if (flat) return against ? ["cannotTell", "contradicted"] : ["plateau", null];
      if (gain >= 0.975 || (asymptote.speaks === "against" && gain >= 0.9)) return ["improving", null];
      return loss >= 0.975 ? ["declining", null] : ["cannotTell", "tooNoisy"];
    })();
    expect([verdict, why]).toEqual(expected);
    expect(sessionsNeeded === null).toBe(verdict !== "cannotTell");
    if (sessionsNeeded !== null) expect(sessionsNeeded).toBeGreaterThanOrEqual(1);
  });
  it("has a trend of four sessions, not of three", () => {
    const { day, value } = drawn(4, 0.01, 0, 3);
    expect(detectPlateau({ day, value }).evidence.trend.improvement.ok).toBe(true);
    expect(detectPlateau({ day: day.slice(1), value: value.slice(1) }).evidence.trend.improvement).toMatchObject({
      ok: false,
      why: "tooFew",
    });
  });
});

describe("records", () => {
  // Source: by hand: one record in the last session of n, which has a chance of 1/n; nothing where all sessions are recent
  const withLast = (n: number) => {
    const { day, value } = drawn(n, 0.01, 0, 5);
    return detectPlateau({
      day,
      value: value.map((v, i) => (i === n - 1 ? 0.3 : v)),
      equipment: day.map((at) => (at === n - 1 ? "new" : "old")),
    }).evidence.records;
  };
  it("speak against a plateau up to 5 %", () => {
    expect(withLast(20)).toEqual({ speaks: "against", count: 1, chance: expect.closeTo(1 / 20, 12) });
    expect(withLast(19)).toEqual({ speaks: "silent", count: 1, chance: expect.closeTo(1 / 19, 12) });
  });
  it("are not counted where all sessions are recent", () =>
    expect(detectPlateau(drawn(12, 0.01, -0.02, 5)).evidence.records).toEqual({ speaks: "silent", count: 0, chance: 1 }));
});

describe("the sessions still needed", () => {
  // Source: by hand: at least eight sessions over ten days: every half day, the 21st is the first on day ten; daily, the eleventh
  it.each([
    [10, 0.5, 21],
    [9, 1, 11],
    [6, 2, 8],
  ])("after %d, one every %d days, without much scatter are those up to %d", (n, spacing, wanted) => {
    const { day, value } = drawn(n, 1e-5, 0, 3);
    expect(detectPlateau({ day: day.map((at) => spacing * at), value }).sessionsNeeded).toBe(wanted - n);
  });
  it("are one where they would be enough but for something that contradicts", () => {
    const { day, value } = drawn(30, 0.01, 0, 8);
    expect(detectPlateau({ day, value, hitShare: day.map(() => 1) })).toMatchObject({ why: "contradicted", sessionsNeeded: 1 });
  });
});

describe("a break before the recent sessions", () => {
  it("is none within them", () => {
    const { day, value } = drawn(30, 0.01, 0, 8);
    const apart = { day: day.map((at) => (at < 15 ? at : at + 20)), value, equipment: day.map((at) => (at < 15 ? "old" : "new")) };
    expect(detectPlateau(apart).warnings).toEqual(["equipmentChanged"]);
  });
});
