// What periods of so many sessions can show, and how the options bear on it.
import { describe, expect, it } from "vitest";
import { type CompareOptions, compare } from "../../../src/learning/compare.js";

const SESSIONS = [1, 2, 4, 3, 2];
const plain = { kind: "difference", worthwhile: 1, autocorrelation: 0 } as const;
const needed = (options: CompareOptions, before = SESSIONS, after = before) =>
  compare(before, after, { ...plain, ...options }).sessionsNeeded;

describe("what two periods can show", () => {
  // Source: SciPy 1.10.1: the smallest k with stats.nct power of at least 0.8, at sd = pooled SD and at its stats.chi2.ppf ends; a median has sqrt(pi/2) of the
  // standard error of a mean (normal values, textbook)
  it.each([
    ["mean", 0.95, 22, [11, 76]],
    ["median", 0.95, 34, [16, 119]],
    ["mean", 0.8, 13, [8, 28]],
  ] as const)("sessions needed for a %s at %d", (centre, level, value, interval) =>
    expect(needed({ centre, level })).toEqual({ ok: true, value, unit: "session", n: 10, interval, level }),
  );

  // Source: SciPy 1.10.1, smallest k with stats.nct power of at least 0.8 at 5 % two-sided, by worthwhile change in session SDs
  it.each([
    [3, 4, 5],
    [2.5, 4, 5],
    [2, 6, 7],
    [1.7, 7, 8],
    [1.5, 9, 10],
    [1.3, 11, 12],
    [1.1, 15, 16],
    [1, 17, 18],
    [0.9, 21, 22],
    [0.7, 34, 35],
    [0.5, 64, 65],
  ])("sessions needed for %d SD", (worthwhile, apart, pairs) => {
    // an SD of 1 in both periods, and pairs whose differences have an SD of the root of 2
    const [low, high] = [-Math.SQRT1_2, Math.SQRT1_2];
    expect(needed({ worthwhile }, [low, high])).toMatchObject({ ok: true, value: apart });
    expect(needed({ worthwhile, paired: true }, [0, 0], [1, -1])).toMatchObject({ ok: true, value: pairs });
  });

  // Source: as above for six pairs: SD of the differences over the root of 2, 5 degrees of freedom, a change of 1.5
  it("sessions needed for pairs", () =>
    expect(needed({ paired: true, worthwhile: 1.5 }, [9, 9, 9, 9, 9, 9], [10, 11, 13, 12, 11, 14])).toEqual({
      ok: true,
      value: 10,
      unit: "session",
      n: 6,
      interval: [6, 48],
      level: 0.95,
    }));

  // Source: SciPy 1.10.1: stats.t.ppf(0.975, 8) sd sqrt(2/5), and the shift of stats.nct with a power of 0.8 in its place, times sqrt(pi/2) for a median
  it("changes detected of means and medians", () => {
    const mean = compare(SESSIONS, SESSIONS, plain);
    const median = compare(SESSIONS, SESSIONS, { ...plain, centre: "median" });
    expect(mean.detectable).toEqual([-2.3082159842384633, 2.3082159842384633].map((end) => expect.closeTo(end, 8)));
    expect(median.minimalDetectable).toEqual([-2.0841150609377586, 2.0841150609377586].map((end) => expect.closeTo(end, 9)));
    expect(median.detectable).toEqual([-2.8929197250236776, 2.8929197250236776].map((end) => expect.closeTo(end, 8)));
  });

  // Source: SciPy 1.10.1 stats.t.interval on the differences of logarithms, their SD over the root of 2, and t standard errors, all carried to percent; its
  // quantile of t is right to nine digits (2.5705818366 for 2.5705818356)
  it("pairs in percent", () => {
    const paired = compare([0.71, 0.74, 0.69, 0.72, 0.7, 0.73], [0.68, 0.72, 0.69, 0.67, 0.69, 0.7], {
      paired: true,
      autocorrelation: 0,
    });
    expect(paired.change).toMatchObject({
      value: expect.closeTo(-3.2606170488016937, 10),
      interval: [expect.closeTo(-5.783148221185613, 8), expect.closeTo(-0.6705484518964498, 8)],
      unit: "%",
      n: 6,
    });
    expect(paired.sessionSd).toMatchObject({ value: expect.closeTo(1.7962165982882967, 10), unit: "%" });
    expect(paired.minimalDetectable).toEqual([expect.closeTo(-2.60755350657596, 8), expect.closeTo(2.677367291263213, 8)]);
  });

  // Source: an improvement by 50 % is a factor of 2 on logarithms where lower is better and of 1.5 where higher is, so that the first is easier to see:
  // sessions as (ln 1.5/ln 2)^2, about a third
  it("counts a worthwhile share on the side that is better", () => {
    const wild = [1, 3, 2, 5, 1.5, 4];
    const count = (better: "lower" | "higher"): number => {
      const { sessionsNeeded } = compare(wild, wild, { better, worthwhile: 50, autocorrelation: 0 });
      return sessionsNeeded.ok ? sessionsNeeded.value : Number.NaN;
    };
    expect(count("lower") / count("higher")).toBeCloseTo((Math.log(1.5) / Math.log(2)) ** 2, 1);
  });

  it("takes two percent of the level before for a worthwhile difference, by mean or median", () => {
    const before = [-1, -2, -6];
    const worthwhile = (centre: "mean" | "median") => compare(before, before, { kind: "difference", centre }).worthwhile;
    expect(worthwhile("mean")).toBeCloseTo(0.06, 12);
    expect(worthwhile("median")).toBeCloseTo(0.04, 12);
    expect(compare([1, 2], [2, 3]).worthwhile).toBe(2);
    expect(compare([], [], { kind: "difference" }).worthwhile).toBe(0);
  });
});
