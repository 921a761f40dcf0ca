import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import { fitSpeedAccuracy } from "../../src/pacing/fit-speed-accuracy.js";
import { recommendPace } from "../../src/pacing/recommend-pace.js";
import type { SpeedAccuracyLaw } from "../../src/pacing/types.js";
import { NINETY } from "./ninety-presses.js";
import { LINEAR, pacedTrials } from "./paced-person.js";

const linear = (floor: number, slope: number): SpeedAccuracyLaw => {
  const axis = { scatter: { form: "linear", floor, slope } } as const;
  return { along: axis, across: axis };
};
const time = (result: ReturnType<typeof recommendPace>): number => (result.movementTime.ok ? result.movementTime.value : Number.NaN);

describe("recommendPace against outside values", () => {
  // Source: Rayleigh distribution (textbook): s = 20/sqrt(-2 ln(1 - p)), T = .012 * 400/(s - 2); with NumPy 1.24: .4408, .5806, .7779
  it.each([
    [0.7, 0.4408],
    [0.85, 0.5806],
    [0.95, 0.7779],
  ])("gives the pace for a share of %d by the closed form", (wanted, expected) => {
    const result = recommendPace(linear(2, 0.012), { wanted, amplitude: 400, width: 40 });
    expect(time(result)).toBeCloseTo(4.8 / (20 / Math.sqrt(-2 * Math.log(1 - wanted)) - 2), 9);
    expect(time(result)).toBeCloseTo(expected, 4);
    expect(result).toMatchObject({ verdict: "clear", hitShare: expect.closeTo(wanted, 9) });
  });
  // Source: SciPy 1.10.1 optimize.minimize_scalar of -(1 - exp(-200/(2 + 4.8/T)^2))/(T + .25): .5186 s at .794
  it("gives the pace with the most hits per second, which is not a clean one", () => {
    const { mostProductive } = recommendPace(linear(2, 0.012), { wanted: 0.95, amplitude: 400, width: 40 });
    expect(mostProductive.movementTime).toMatchObject({ value: expect.closeTo(0.5186, 4) });
    expect(mostProductive.hitShare).toBeCloseTo(0.794, 3);
    expect(mostProductive.hitsPerSecond).toBeCloseTo(mostProductive.hitShare! / (0.51856605 + 0.25), 6);
  });
  // Source: normal distribution by table: a strip of W/s = 2.073, 2.879, 3.920 holds 70, 85, 95 %
  it.each([
    [0.7, 2.073],
    [0.85, 2.879],
    [0.95, 3.92],
  ])("gives the pace for a strip at %d", (wanted, widths) => {
    const law: SpeedAccuracyLaw = { along: { scatter: { form: "power", factor: 0.02, amplitudeExponent: 1, timeExponent: 1 } } };
    expect(time(recommendPace(law, { wanted, amplitude: 400, width: 40 })) / ((8 * widths) / 40)).toBeCloseTo(1, 3);
  });
  // Source: a target too small at any pace: s = 2/sqrt(-2 ln .15) = 1.03 px is below the floor of 2 px
  it("says that a target is too small at any pace", () => {
    const result = recommendPace(linear(2, 0.012), { wanted: 0.85, amplitude: 400, width: 4 });
    expect(result).toMatchObject({ verdict: "none", movementTime: { ok: false, why: "outOfReach" }, hitShare: null });
  });
  // Source: SciPy 1.10.1: law by optimize.minimize (see fit-speed-accuracy.test.ts), P(T) by integrate.quad over the circle, optimize.brentq and minimize_scalar
  it.each([
    [0.7, 0.39076569950316453],
    [0.8, 0.45683057983433745],
  ])("gives the pace of fitted scatter and bias at %d", (wanted, expected) => {
    const result = recommendPace(NINETY, { wanted, amplitude: 400, speed: "trial" });
    expect(time(result)).toBeCloseTo(expected, 7);
    expect(result.mostProductive.movementTime).toMatchObject({ value: expect.closeTo(0.483403389766737, 6) });
    expect(result.mostProductive.hitShare).toBeCloseTo(0.8323592023333961, 6);
  });
  // Source: R 4.2.2 glm, probit of hits on log(T) and log(A/W): exp((qnorm(.8) - 8.14048910634 + 2.0034979771 log(10))/3.52018968908)
  it("gives the pace by the hits alone", () => {
    const { byHits } = recommendPace(NINETY, { wanted: 0.8, amplitude: 400, speed: "trial", lapse: 0 });
    const expected = Math.exp((0.8416212335729143 - 8.14048910634 + 2.0034979771 * Math.log(10)) / 3.52018968908);
    expect(byHits).toMatchObject({ value: expect.closeTo(expected, 6) });
  });
});

describe("recommendPace properties", () => {
  const lawArb = fc.tuple(fc.double({ min: 0, max: 3, noNaN: true }), fc.double({ min: 0.005, max: 0.03, noNaN: true }));
  const share = fc.double({ min: 0.3, max: 0.97, noNaN: true });

  test.prop([lawArb, share, fc.double({ min: 0.2, max: 5, noNaN: true })])(
    "meets the share, grows with it, and goes with the units",
    ([floor, slope], wanted, factor) => {
      const aim = { amplitude: 400, width: 40 };
      const result = recommendPace(linear(floor, slope), { ...aim, wanted });
      if (!result.movementTime.ok) return;
      expect(result.hitShare).toBeCloseTo(wanted, 8);
      expect(time(recommendPace(linear(floor, slope), { ...aim, wanted: wanted * 0.9 }))).toBeLessThan(time(result));
      const grown = recommendPace(linear(factor * floor, slope), { amplitude: factor * 400, width: factor * 40, wanted });
      expect(time(grown)).toBeCloseTo(time(result), 8);
      // seconds of another length
      expect(time(recommendPace(linear(floor, factor * slope), { ...aim, wanted }))).toBeCloseTo(factor * time(result), 6);
    },
  );
  it("has its interval about the value, wider at a higher level, and plain data", () => {
    const trials = pacedTrials(createRandom(21), LINEAR, [0.4, 0.55, 0.75], 100);
    const [wide, narrow] = [0.95, 0.6].map((level) => recommendPace(trials, { wanted: 0.85, level }));
    for (const { bounds, movementTime } of [wide!, narrow!]) {
      expect(bounds.low).toBeLessThan(movementTime.ok ? movementTime.value : Number.NaN);
      expect(bounds.high).toBeGreaterThan(movementTime.ok ? movementTime.value : Number.NaN);
    }
    expect(wide!.bounds.low).toBeLessThan(narrow!.bounds.low!);
    expect(wide!.bounds.high).toBeGreaterThan(narrow!.bounds.high!);
    expect(JSON.parse(JSON.stringify(wide))).toEqual(wide);
    expect(recommendPace(fitSpeedAccuracy(trials), { wanted: 0.85 })).toEqual(wide);
  });
  it("gives nothing where the trials do not carry it", () => {
    const few = recommendPace(pacedTrials(createRandom(2), LINEAR, [0.4, 0.55, 0.7], 10));
    expect(few).toMatchObject({ verdict: "none", movementTime: { ok: false, why: "tooFew", n: 30 }, mostProductive: { hitShare: null } });
    const close = recommendPace(pacedTrials(createRandom(2), LINEAR, [0.5, 0.55, 0.6], 30));
    expect(close.movementTime).toMatchObject({ ok: false, why: "notIdentified" });
  });
  it("warns of a pace and of a distance that were not tried", () => {
    const trials = pacedTrials(createRandom(5), LINEAR, [0.4, 0.55, 0.75], 200);
    const far = recommendPace(trials, { wanted: 0.98 });
    expect(far.warnings).toContain("extrapolated");
    expect(far.verdict).not.toBe("clear");
    expect(recommendPace(trials, { amplitude: 700 }).warnings).toContain("otherAmplitude");
    expect(recommendPace(trials, { amplitude: 420 }).warnings).not.toContain("otherAmplitude");
  });
  it("leaves an end open where scatter hardly changes with pace", () => {
    const results = Array.from({ length: 20 }, (_, seed) =>
      recommendPace(pacedTrials(createRandom(seed), { scatter: () => 10.4, bias: () => 0 }, [0.4, 0.55, 0.75], 20), { wanted: 0.85 }),
    );
    expect(results.filter(({ verdict }) => verdict === "clear").length).toBeLessThanOrEqual(2);
    const given = results.filter(({ movementTime }) => movementTime.ok);
    expect(given.length).toBeGreaterThan(5);
    for (const { bounds, warnings } of given) expect(warnings.includes("openEnded")).toBe(bounds.low === null || bounds.high === null);
  });
  test.prop([fc.integer({ min: 1, max: 100000 })], { numRuns: 25 })("has no end at the edge of what is looked at", (seed) => {
    const trials = pacedTrials(createRandom(seed), LINEAR, [0.42, 0.55, 0.7], 20);
    const { law } = fitSpeedAccuracy(trials);
    const { bounds, movementTime } = recommendPace(trials, { wanted: 0.9 });
    const [low, high] = law!.times!;
    if (bounds.low !== null) expect(bounds.low / low).toBeGreaterThan(0.8001);
    if (bounds.high !== null) expect(bounds.high / high).toBeLessThan(1.1999);
    if (movementTime.ok) expect(movementTime.interval === undefined).toBe(bounds.low === null || bounds.high === null);
  });
  it("slows down for a smaller target, another bias, and a longer overhead", () => {
    const aim = { wanted: 0.85, amplitude: 400, width: 40 };
    const plain = recommendPace(linear(2, 0.012), aim);
    expect(time(recommendPace(linear(2, 0.012), { ...aim, width: 36 }))).toBeGreaterThan(time(plain));
    const axis = { scatter: { form: "linear", floor: 2, slope: 0.012 } } as const;
    const biased: SpeedAccuracyLaw = { along: { ...axis, bias: { level: 6, slope: 0, at: 0.5 } }, across: axis };
    expect(time(recommendPace(biased, aim))).toBeGreaterThan(time(plain));
    const long = recommendPace(linear(2, 0.012), { ...aim, overhead: 1 }).mostProductive.movementTime;
    expect(long.ok && plain.mostProductive.movementTime.ok && long.value > plain.mostProductive.movementTime.value).toBe(true);
  });
});

describe("recommendPace bad input", () => {
  const law = linear(2, 0.012);
  it.each([
    [law, { amplitude: 400 }, "recommendPace: options.width must be given with a stated law, got undefined"],
    [law, { amplitude: 400, width: 40, wanted: 1 }, "recommendPace: options.wanted must be below 1, got 1"],
    [law, { amplitude: -1, width: 40 }, "recommendPace: options.amplitude must be finite and above 0, got -1"],
    [law, { amplitude: 400, width: 40, overhead: -1 }, "recommendPace: options.overhead must be finite and at least 0, got -1"],
    [linear(-2, 0.012), { amplitude: 400, width: 40 }, "recommendPace: source.along.scatter.floor must be finite and at least 0, got -2"],
    [
      { along: law.along },
      { amplitude: 400, width: 40, shape: "circle" as const },
      'recommendPace: options.shape must be one of "strip", got "circle"',
    ],
  ])("refuses %#", (source, options, message) => expect(() => recommendPace(source, options)).toThrow(message));
  it("refuses what is no object", () => expect(() => recommendPace(3 as never)).toThrow(TypeError));
});
