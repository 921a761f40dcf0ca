import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import { conditionalAccuracy } from "../../src/pacing/conditional-accuracy.js";
import { fitSpeedAccuracy } from "../../src/pacing/fit-speed-accuracy.js";
import { NINETY } from "./ninety-presses.js";
import { LINEAR, pacedTrials } from "./paced-person.js";

const { pace: _, ...UNLABELLED } = NINETY;

describe("conditionalAccuracy against outside values", () => {
  // Source: R 4.2.2 glm(hit ~ T, binomial(logit)) of the same 90 presses: 12.22604937092, standard error 4.01400144397
  it("has the logistic slope", () => {
    const [one] = conditionalAccuracy(UNLABELLED);
    const half = 1.959963984540054 * 4.01400144397;
    expect(one!.slope).toMatchObject({
      value: expect.closeTo(12.22604937092, 6),
      unit: "1/s",
      interval: [expect.closeTo(12.22604937092 - half, 5), expect.closeTo(12.22604937092 + half, 5)],
    });
    expect(one!.bins).toEqual([]);
  });
  // Source: Wilson interval of 17 of 20, textbook and SPEC check: .640 to .948
  it("has bins of equally many presses with Wilson intervals", () => {
    const n = 100;
    const column = (value: number): Float64Array => new Float64Array(n).fill(value);
    const movementTime = Float64Array.from({ length: n }, (_, i) => 0.4 + ((i * 37) % n) / 1000);
    // of the presses in order of time, the last three of each twenty miss
    const hit = movementTime.map((t) => (Math.round((t - 0.4) * 1000) % 20 < 17 ? 1 : 0));
    const [one] = conditionalAccuracy({ movementTime, amplitude: column(400), width: column(40), along: column(0), hit });
    expect(one!.bins).toHaveLength(5);
    for (const [k, bin] of one!.bins.entries()) {
      expect(bin).toMatchObject({
        n: 20,
        from: expect.closeTo(0.4 + k / 50, 12),
        to: expect.closeTo(0.419 + k / 50, 12),
        movementTime: expect.closeTo(0.4095 + k / 50, 12),
      });
      expect(bin.hitShare).toMatchObject({ value: 0.85, interval: [expect.closeTo(0.64, 3), expect.closeTo(0.948, 3)] });
    }
  });
});

describe("conditionalAccuracy properties", () => {
  test.prop([fc.integer({ min: 1, max: 100000 }), fc.integer({ min: 2, max: 8 })], { numRuns: 20 })(
    "shares out all presses of each pace, and no other",
    (seed, bins) => {
      const trials = pacedTrials(createRandom(seed), LINEAR, [0.4, 0.55], 100);
      const curves = conditionalAccuracy(trials, { bins, least: 10 });
      expect(curves.map(({ pace }) => pace)).toEqual(["0.4", "0.55"]);
      for (const curve of curves) {
        expect(curve.bins.reduce((sum, bin) => sum + bin.n, 0)).toBe(100);
        expect(curve.bins.every((bin, k) => k === 0 || bin.from >= curve.bins[k - 1]!.to)).toBe(true);
      }
      expect(JSON.parse(JSON.stringify(curves))).toEqual(curves);
    },
  );
  // a failure costs time and accuracy: slower trials hit less in every pace, slower paces hit more
  it("can run opposite to the function over paces", () => {
    const random = createRandom(9);
    const plain = pacedTrials(random, LINEAR, [0.4, 0.55, 0.75], 150);
    const failed = plain.movementTime.map(() => (random.uniform() < 0.2 ? 1 : 0));
    const trials = {
      ...plain,
      movementTime: plain.movementTime.map((t, i) => t * (1 + 0.3 * failed[i]!)),
      along: plain.along.map((x, i) => x * (1 + failed[i]!)),
      across: plain.across.map((x, i) => x * (1 + failed[i]!)),
    };
    for (const { slope } of conditionalAccuracy(trials)) expect(slope.ok && slope.value < 0).toBe(true);
    const [fastest, , slowest] = fitSpeedAccuracy(trials).paces;
    expect(fastest!.hitShare.ok && slowest!.hitShare.ok && slowest!.hitShare.value > fastest!.hitShare.value + 0.1).toBe(true);
  });
  it("says when there is no slope, and counts timeouts apart", () => {
    const column = (value: number, n = 40): Float64Array => new Float64Array(n).fill(value);
    const times = Float64Array.from({ length: 40 }, (_, i) => 0.4 + i / 100);
    const base = { movementTime: times, amplitude: column(400), width: column(40), along: column(0) };
    const [separated] = conditionalAccuracy({ ...base, hit: times.map((t) => (t > 0.6 ? 1 : 0)) });
    expect(separated!.slope).toMatchObject({ ok: false, why: "notIdentified" });
    const [same] = conditionalAccuracy({ ...base, movementTime: column(0.5), hit: times.map((t) => Math.round(100 * t) % 2) });
    expect(same!.slope).toMatchObject({ ok: false, why: "notIdentified" });
    const [late] = conditionalAccuracy({ ...base, pressed: Float64Array.from({ length: 40 }, (_, i) => (i < 15 ? 1 : 0)) });
    expect(late).toMatchObject({ n: 40, timeouts: 25, slope: { ok: false, why: "tooFew", n: 15 } });
    const empty = new Float64Array(0);
    expect(conditionalAccuracy({ movementTime: empty, amplitude: empty, width: empty, along: empty })).toEqual([]);
  });
});

describe("conditionalAccuracy bad input", () => {
  it.each([
    [{ bins: 1 }, "conditionalAccuracy: options.bins must be a whole number at least 2 and at most 20, got 1"],
    [{ least: 4 }, "conditionalAccuracy: options.least must be a whole number finite and at least 5, got 4"],
    [{ level: 0 }, "conditionalAccuracy: options.level must be above 0 and below 1, got 0"],
  ])("refuses %j", (options, message) => expect(() => conditionalAccuracy(NINETY, options)).toThrow(message));
  it("refuses what is no table", () => expect(() => conditionalAccuracy([] as never)).toThrow(TypeError));
});
