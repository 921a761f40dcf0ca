import { readFileSync } from "node:fs";
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { effectiveWidth } from "../../src/fitts/effective-width.js";
import { indexOfDifficulty } from "../../src/fitts/index-of-difficulty.js";
import { normalQuantile } from "../../src/math/normal-quantile.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";

const path = sharedPath("reference", "fitts", "models.json");
const models = path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));
const deviations = fc.array(
  fc.integer({ min: -1e5, max: 1e5 }).map((v) => v / 1000),
  { minLength: 2, maxLength: 30 },
);
/** A list with this sample standard deviation. */
const withSd = (sd: number): number[] => [-sd / Math.SQRT2, sd / Math.SQRT2];

describe("effectiveWidth against outside values", () => {
  // Source: NumPy std(ddof=1), computed; reference table fitts/throughput-iso.json, one direction (constructed trials, ten digits stored)
  it("is 4.133 sample standard deviations", () => {
    const along = [4, 6, -11, -9, 12, -2, -3, 11, 5, -7, 18, 1];
    expect(effectiveWidth(along)).toMatchObject({ ok: true, value: expect.closeTo(36.94391469, 7), unit: "px", n: 12, level: 0.95 });
  });

  // Source: fitts/models.json, dual normal model (Bi, Li and Zhai 2013, abstract read; computed with the factor sqrt(2 pi e) unrounded)
  it.skipIf(models === undefined)(`takes the instrument's own spread out (else: ${SHARED_ABSENT})`, () => {
    const unrounded = Math.sqrt(2 * Math.PI * Math.E) / 4.133;
    for (const { A, sigma, sigma_a, We_corrected, ID_dual, ID_We } of models.dualGaussian.cases) {
      const corrected = effectiveWidth(withSd(sigma), { deviceSd: sigma_a, unit: "mm" });
      const plain = effectiveWidth(withSd(sigma), { unit: "mm" });
      if (!corrected.ok || !plain.ok) throw new Error("must have a width");
      expect(corrected.value * unrounded).toBeCloseTo(We_corrected, 8);
      expect(indexOfDifficulty(A, corrected.value * unrounded)).toBeCloseTo(ID_dual, 8);
      expect(indexOfDifficulty(A, plain.value * unrounded)).toBeCloseTo(ID_We, 8);
    }
  });

  // Source: closed form: 4.133 SD/2 = 2.0665 holds 96.12 % of a normal variable (SciPy 1.10.1 norm.cdf)
  it("holds about 96 % of normal deviations", () => {
    const n = 4001;
    const normal = Array.from({ length: n }, (_, i) => normalQuantile((i + 0.5) / n));
    const width = effectiveWidth(normal);
    const inside = normal.filter((v) => width.ok && Math.abs(v) <= width.value / 2).length / n;
    expect(inside).toBeCloseTo(0.9612, 3);
  });
});

describe("effectiveWidth properties", () => {
  test.prop([deviations, fc.integer({ min: -1e6, max: 1e6 })])("does not change with a constant bias", (along, bias) => {
    const [one, other] = [effectiveWidth(along), effectiveWidth(along.map((v) => v + bias))];
    expect(other.ok).toBe(one.ok);
    if (one.ok && other.ok) expect(Math.abs(other.value - one.value)).toBeLessThan(1e-6);
  });

  test.prop([deviations])("grows with the scale of the deviations and keeps its value inside the interval", (along) => {
    const [one, twice] = [effectiveWidth(along), effectiveWidth(along.map((v) => 2 * v))];
    if (!one.ok || !twice.ok) return;
    expect(twice.value).toBeCloseTo(2 * one.value, 9);
    expect(one.interval![0] <= one.value && one.value <= one.interval![1]).toBe(true);
  });

  test.prop([deviations, fc.integer({ min: 0, max: 60 })])(
    "is smaller the more the instrument adds, and never claims a width below its resolution",
    (along, deviceSd) => {
      const [plain, corrected] = [effectiveWidth(along), effectiveWidth(along, { deviceSd })];
      if (!plain.ok) return;
      if (corrected.ok) expect(corrected.value).toBeLessThanOrEqual(plain.value);
      else expect(corrected.why).toBe("belowResolution");
      expect(corrected.ok).toBe(plain.value / 4.133 > deviceSd);
    },
  );

  test.prop([deviations])("leaves its input alone and survives JSON", (along) => {
    const result = effectiveWidth(Object.freeze(along.slice()));
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(effectiveWidth(Float64Array.from(along))).toEqual(result);
  });
});

describe("effectiveWidth bad input", () => {
  it("names the bad entry", () => {
    expect(() => effectiveWidth([1, Number.NaN])).toThrow(/effectiveWidth: along\[1\] must be finite, got NaN/);
    expect(() => effectiveWidth("12" as never)).toThrow(TypeError);
    expect(() => effectiveWidth([1, "2"] as never)).toThrow(/along\[1\] must be a number/);
  });
  it("names options out of range", () => {
    expect(() => effectiveWidth([1, 2], { level: 1 })).toThrow(/options\.level must be above 0 and below 1, got 1/);
    expect(() => effectiveWidth([1, 2], { deviceSd: -1 })).toThrow(/options\.deviceSd must be finite and at least 0, got -1/);
  });
  it("needs two trials that differ", () => {
    expect(effectiveWidth([3])).toEqual({ ok: false, why: "tooFew", unit: "px", n: 1 });
    expect(effectiveWidth([3, 3])).toEqual({ ok: false, why: "noSpread", unit: "px", n: 2 });
  });
});
