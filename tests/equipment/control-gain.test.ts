import { fc, test } from "@fast-check/vitest";
import { unit } from "mathjs";
import { describe, expect, it } from "vitest";
import { controlGain } from "../../src/equipment/control-gain.js";
import { createRandom } from "../../src/math/random.js";

/** Strokes of 10 to 500 counts whose gain grows with this power of speed, the pointer in whole pixels. */
function strokes(n: number, exponent: number, seed: number) {
  const random = createRandom(seed);
  const device = Array.from({ length: n }, () => Math.round(Math.exp(random.uniform(Math.log(10), Math.log(500)))));
  const duration = device.map(() => random.uniform(0.1, 0.5));
  const pointer = device.map((d, i) => Math.max(1, Math.round(0.7 * d * (d / duration[i]! / 1000) ** exponent)));
  return { device, pointer, duration };
}

describe("controlGain against outside values", () => {
  // Source: mathjs 15 units (inch, cm, mm), an independent conversion
  it.each([
    [400, 0.022],
    [800, 0.05],
    [1600, 0.0125],
    [3200, 0.4],
  ])("turns %d counts per inch and %f degrees per count into distances", (countsPerInch, degPerCount) => {
    const { mmPerTurn, degPerMm, countsPerTurn } = controlGain({ countsPerInch, degPerCount });
    const turn = unit(360 / degPerCount / countsPerInch, "inch");
    expect(mmPerTurn! / turn.toNumber("mm")).toBeCloseTo(1, 12);
    expect(degPerMm! * turn.toNumber("mm")).toBeCloseTo(360, 9);
    expect(countsPerTurn! * degPerCount).toBeCloseTo(360, 9);
  });

  // Source: by hand, 2.54 * 360 / (800 * 0.05) = 22.86 cm
  it("gives a worked example", () => expect(controlGain({ countsPerInch: 800, degPerCount: 0.05 }).mmPerTurn).toBeCloseTo(228.6, 9));

  // Source: by hand: one pixel of 0.254 mm per count at 100 counts per inch is as far as the hand went, a gain of 1
  it("gives the gain without a unit", () => {
    const { gain, pxPerMm } = controlGain({ countsPerInch: 100, pxPerCount: 1, mmPerPx: 0.254 });
    expect(gain).toBeCloseTo(1, 12);
    expect(pxPerMm! * 0.254).toBeCloseTo(1, 12);
  });

  // Source: SciPy 1.10.1 stats.linregress of log gain on log speed, interval with stats.t on 10 degrees of freedom
  it("fits the power of speed", () => {
    const measured = {
      device: [40, 80, 120, 200, 300, 420, 60, 150, 260, 500, 90, 330],
      duration: [0.2, 0.2, 0.25, 0.3, 0.3, 0.35, 0.4, 0.4, 0.4, 0.3, 0.15, 0.6],
      pointer: [22, 47, 72, 125, 196, 277, 33, 91, 163, 345, 55, 200],
    };
    const { curve, accelerated } = controlGain({ measured });
    expect(curve!.exponent).toEqual({
      ok: true,
      value: expect.closeTo(0.09623266893643204, 10),
      unit: "1",
      n: 12,
      interval: [expect.closeTo(0.08326179555478598, 9), expect.closeTo(0.10920354231807809, 9)],
      level: 0.95,
    });
    expect(accelerated).toBe(true);
  });
});

describe("controlGain properties", () => {
  test.prop([fc.integer({ min: 0, max: 1e6 }), fc.integer({ min: 30, max: 200 })], { numRuns: 60 })(
    "lets a constant gain be constant, and refuses one distance for another",
    (seed, n) => {
      const setting = { countsPerInch: 800, degPerCount: 0.05 };
      const even = controlGain({ ...setting, measured: strokes(n, 0, seed) });
      expect([even.curve!.constant, even.accelerated]).toEqual([true, false]);
      expect(even.mmPerTurn).toBeCloseTo(228.6, 9);
      const steep = controlGain({ ...setting, measured: strokes(n, 0.2, seed) });
      expect(steep).toMatchObject({ accelerated: true, mmPerTurn: null, gain: null, degPerMm: null, countsPerTurn: null, step: 0.05 });
      expect(steep.reason).toMatch(/no one distance/);
      const gains = steep.curve!.points.map(({ gain }) => gain);
      expect(gains).toEqual(gains.slice().sort((a, b) => a - b));
      expect(JSON.parse(JSON.stringify(steep))).toEqual(steep);
    },
  );

  test.prop([fc.double({ min: 100, max: 6400, noNaN: true }), fc.double({ min: 0.001, max: 1, noNaN: true })])(
    "halves the distance when either setting doubles",
    (countsPerInch, degPerCount) => {
      const { mmPerTurn } = controlGain({ countsPerInch, degPerCount });
      expect(controlGain({ countsPerInch: 2 * countsPerInch, degPerCount }).mmPerTurn! * 2).toBeCloseTo(mmPerTurn!, 6);
      expect(controlGain({ countsPerInch, degPerCount: 2 * degPerCount }).mmPerTurn! * 2).toBeCloseTo(mmPerTurn!, 6);
    },
  );

  it("says whether a step is fine enough: a tenth of the target or less", () => {
    const fine = (degPerCount: number): boolean | null => controlGain({ degPerCount, targetWidth: 0.5 }).fineEnough;
    expect([fine(0.05), fine(0.051)]).toEqual([true, false]);
    expect(controlGain({ pxPerCount: 2, targetWidth: 16 })).toMatchObject({ step: 2, stepsPerTarget: 8, fineEnough: false });
  });

  it("gives nothing that the settings do not tell", () => {
    expect(controlGain({})).toEqual({
      gain: null,
      pxPerMm: null,
      degPerMm: null,
      mmPerTurn: null,
      countsPerTurn: null,
      step: null,
      stepsPerTarget: null,
      fineEnough: null,
      curve: null,
      accelerated: false,
      reason: expect.stringMatching(/No movements were measured/),
    });
  });

  it("cannot tell from few or equally fast movements, and then says so", () => {
    const few = controlGain({ degPerCount: 0.1, measured: strokes(9, 0.3, 1) });
    expect(few.curve).toMatchObject({ exponent: { ok: false, why: "tooFew", n: 9 }, constant: null });
    expect(few.countsPerTurn).toBeCloseTo(3600, 9);
    expect(few.reason).toMatch(/do not tell/);
    const alike = { device: Array(20).fill(100), pointer: Array(20).fill(70), duration: Array(20).fill(0.2) };
    expect(controlGain({ measured: alike }).curve).toMatchObject({ exponent: { ok: false, why: "noSpread" }, constant: null });
    expect(controlGain({ measured: { device: [], pointer: [], duration: [] } }).curve!.points).toEqual([]);
  });
});

describe("controlGain bad input", () => {
  it("names the bad value", () => {
    expect(() => controlGain({ countsPerInch: 0 })).toThrow(/controlGain: settings\.countsPerInch must be finite and above 0, got 0/);
    expect(() => controlGain({ degPerCount: Number.NaN })).toThrow(/settings\.degPerCount must be finite and above 0, got NaN/);
    expect(() => controlGain({ measured: { device: [1], pointer: [1, 2], duration: [1] } })).toThrow(
      /settings\.measured\.pointer must have 1 entries like device, got 2/,
    );
    expect(() => controlGain({ measured: { device: [1], pointer: [0], duration: [1] } })).toThrow(
      /settings\.measured\.pointer\[0\] must be finite and above 0, got 0/,
    );
    expect(() => controlGain({ measured: { device: 5, pointer: [1], duration: [1] } as never })).toThrow(
      /measured\.device must be a column/,
    );
    expect(() => controlGain({}, { level: 2 })).toThrow(/options\.level must be above 0 and below 1, got 2/);
    expect(() => controlGain(undefined as never)).toThrow(/settings must be an object, got undefined/);
  });
});
