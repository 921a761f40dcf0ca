import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { minimumJerkSpeed } from "../../src/math/minimum-jerk.js";
import { type JerkForm, logDimensionlessJerk } from "../../src/movement/log-dimensionless-jerk.js";

interface Velocity {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

const FORMS: readonly JerkForm[] = ["velocity", "acceleration", "amplitude"];

function valueFor(velocity: Velocity, sampleRateHz: number, form?: JerkForm): number {
  const estimate = logDimensionlessJerk(velocity, { sampleRateHz, ...(form && { form }) });
  if (!estimate.ok) throw new Error(estimate.why);
  return estimate.value;
}

/** A minimum-jerk stroke along x of `seconds`, with `rest` before and after. */
function stroke(seconds: number, rate: number, rest = 0): Velocity {
  const n = Math.round((seconds + 2 * rest) * rate) + 1;
  const x = Float64Array.from({ length: n }, (_, k) => minimumJerkSpeed((k / rate - rest) / seconds));
  return { x, y: new Float64Array(n) };
}

function turned({ x, y }: Velocity, angle: number, size = 1): Velocity {
  const c = size * Math.cos(angle);
  const s = size * Math.sin(angle);
  return { x: x.map((vx, i) => c * vx - s * y[i]!), y: x.map((vx, i) => s * vx + c * y[i]!) };
}

describe("logDimensionlessJerk against outside values", () => {
  // Source: printed in the docstring of the public script of the method's first author (siva82kb/SPARC, 14b377e, read): five decimals.
  it("gives the published value of a Gaussian bell", () => {
    const x = Float64Array.from({ length: 200 }, (_, k) => Math.exp(-5 * (-1 + 0.01 * k) ** 2));
    expect(valueFor({ x, y: new Float64Array(200) }, 100)).toBeCloseTo(-5.81636, 5);
  });

  // Source: exact integrals of the minimum-jerk movement: jerk 720 A^2/T^5, peak speed 15/8 A/T, peak acceleration 10/sqrt(3) A/T^2,
  // so -ln 204.8, -ln 21.6 and -ln 720. Second differences at 20 kHz come within 1e-3.
  it.each([
    ["velocity", -Math.log(204.8)],
    ["acceleration", -Math.log(21.6)],
    ["amplitude", -Math.log(720)],
  ] as const)("tends to the closed form of one minimum-jerk movement: %s", (form, expected) => {
    expect(Math.abs(valueFor(stroke(0.3, 20000), 20000, form) - expected)).toBeLessThan(1e-3);
  });

  // Source: computed from the stated steps with NumPy 1.24.2 (second differences, duration n / rate, sum over the samples).
  it.each([
    [0.15, 125, -5.2976374497],
    [0.3, 125, -5.34132229808],
    [0.3, 1000, -5.31532275762],
    [1, 1000, -5.3200298925],
  ])("agrees on a stroke of %d s sampled at %d Hz", (seconds, rate, expected) => {
    expect(valueFor(stroke(seconds, rate), rate)).toBeCloseTo(expected, 9);
  });

  // Source: numerical integration (scipy quad) of the jerk of an arc of 90 degrees passed with minimum-jerk progress, T 0.4 s.
  it("takes jerk as a vector, so that what only turns is jerk too", () => {
    const angle = (k: number): number => (Math.PI / 2) * (k / 8000) ** 3 * (10 - 15 * (k / 8000) + 6 * (k / 8000) ** 2);
    const speed = (k: number): number => minimumJerkSpeed(k / 8000);
    const x = Float64Array.from({ length: 8001 }, (_, k) => -Math.sin(angle(k)) * speed(k));
    const y = Float64Array.from({ length: 8001 }, (_, k) => Math.cos(angle(k)) * speed(k));
    expect(Math.abs(valueFor({ x, y }, 20000) + 6.02291694144)).toBeLessThan(1e-3);
  });

  // Source: computed from the stated steps with NumPy 1.24.2: 0.2 s of rest on either side of 0.3 s.
  it("falls by 2.5 with rest before and after", () => {
    expect(valueFor(stroke(0.3, 250, 0.2), 250)).toBeCloseTo(-7.847843387, 9);
    expect(valueFor(stroke(0.3, 250), 250)).toBeCloseTo(-5.29536577948, 9);
  });
});

describe("logDimensionlessJerk properties", () => {
  const velocityArb: fc.Arbitrary<Velocity> = fc
    .array(fc.tuple(fc.integer({ min: -800, max: 800 }), fc.integer({ min: -800, max: 800 })), { minLength: 3, maxLength: 40 })
    .map((pairs) => ({ x: Float64Array.from(pairs, ([vx]) => vx / 8), y: Float64Array.from(pairs, ([, vy]) => vy / 8) }));
  const formArb = fc.constantFrom(...FORMS);
  /** Both are values, equal within rounding, or both are none; a mean of nothing but rounding is neither. */
  const expectLike = (a: Velocity, b: Velocity, rate: number, form: JerkForm, rateB = rate): void => {
    const [one, two] = [logDimensionlessJerk(a, { sampleRateHz: rate, form }), logDimensionlessJerk(b, { sampleRateHz: rateB, form })];
    expect(two.ok).toBe(one.ok);
    if (one.ok && two.ok) expect(Math.abs(two.value - one.value)).toBeLessThan(1e-6);
  };
  /** The net displacement and the jerk of such columns are sums that may cancel, down to rounding once turned. */
  const sound = ({ x, y }: Velocity): boolean => {
    const net = (v: Float64Array): number => v.reduce((sum, value) => sum + value, 0) - (v[0]! + v.at(-1)!) / 2;
    return Math.hypot(net(x), net(y)) > 0.1 && x.some((vx, i) => i > 1 && vx - 2 * x[i - 1]! + x[i - 2]! !== 0);
  };

  test.prop([velocityArb.filter(sound), formArb, fc.integer({ min: 1, max: 359 }), fc.constantFrom(0.25, 1, 60)])(
    "does not change when the movement is turned and grown",
    (velocity, form, degrees, size) => expectLike(velocity, turned(velocity, (degrees * Math.PI) / 180, size), 250, form),
  );

  test.prop([velocityArb, formArb, fc.constantFrom(0.5, 2, 8)])("does not change with pace", (velocity, form, factor) => {
    // the same path in another time: speeds and rate grow together
    const faster = { x: velocity.x.map((v) => factor * v), y: velocity.y.map((v) => factor * v) };
    expectLike(velocity, faster, 125, form, factor * 125);
  });

  test.prop([velocityArb, formArb])("is the same backward", (velocity, form) => {
    expectLike(velocity, { x: velocity.x.slice().reverse(), y: velocity.y.slice().reverse() }, 125, form);
  });

  test.prop([velocityArb, formArb])("is finite or has a reason, and leaves its input as it was", (velocity, form) => {
    const before = structuredClone(velocity);
    const estimate = logDimensionlessJerk(Object.freeze(velocity), { sampleRateHz: 125, form });
    expect(velocity).toEqual(before);
    expect(estimate.ok ? Number.isFinite(estimate.value) : estimate.why).not.toBe(false);
    expect(JSON.parse(JSON.stringify(estimate))).toEqual(estimate);
  });

  // Source: closed form: white noise of SD s in velocity puts 6 s^2/dt^4 into its second difference; with T and peak speed of the stroke that gives the limit below.
  it("is ruled by noise where there is much of it", () => {
    const { x, y } = stroke(0.3, 1000);
    // alternating signs have second differences of 4 s, which is 16 s^2 instead of the 6 s^2 of independent ones
    const noisy = x.map((v, i) => v + (i % 2 === 0 ? 0.05 : -0.05));
    const expected = -Math.log((0.301 ** 3 / Math.max(...noisy) ** 2) * 16 * 0.05 ** 2 * 1000 ** 4 * 0.299);
    expect(Math.abs(valueFor({ x: noisy, y }, 1000) - expected)).toBeLessThan(0.01);
  });
});

describe("logDimensionlessJerk bad input", () => {
  const { x, y } = stroke(0.3, 250);

  it("has no value at rest, at constant velocity, and from two samples", () => {
    const still = new Float64Array(20);
    const none = { ok: false, why: "noSpread", unit: "1", n: 20 };
    expect(logDimensionlessJerk({ x: still, y: still }, { sampleRateHz: 250 })).toEqual(none);
    for (const form of FORMS) expect(logDimensionlessJerk({ x: still.map(() => 3), y: still }, { sampleRateHz: 250, form })).toEqual(none);
    expect(logDimensionlessJerk({ x: x.slice(0, 2), y: y.slice(0, 2) }, { sampleRateHz: 250 })).toMatchObject({
      ok: false,
      why: "tooFew",
      n: 2,
    });
  });
  it("has no amplitude form where the pointer came back to where it began", () => {
    const there = Float64Array.of(0, 1, 0, -1, 0);
    expect(logDimensionlessJerk({ x: there, y: new Float64Array(5) }, { sampleRateHz: 250, form: "amplitude" }).ok).toBe(false);
  });
  it("asks for velocities and for options", () => {
    expect(() => logDimensionlessJerk(null as never, { sampleRateHz: 250 })).toThrow(/^logDimensionlessJerk: velocity must be/);
    expect(() => logDimensionlessJerk({ x, y }, undefined as never)).toThrow(/^logDimensionlessJerk: options must be/);
  });
  it("names the column and the option that is wrong", () => {
    expect(() => logDimensionlessJerk({ x, y: y.slice(1) }, { sampleRateHz: 250 })).toThrow(
      "logDimensionlessJerk: velocity.y must have 76 entries",
    );
    expect(() => logDimensionlessJerk({ x: Float64Array.of(1, Number.NaN, 2), y: new Float64Array(3) }, { sampleRateHz: 250 })).toThrow(
      "velocity.x[1] must be finite, got NaN",
    );
    expect(() => logDimensionlessJerk({ x, y }, { sampleRateHz: 0 })).toThrow("options.sampleRateHz must be finite and above 0, got 0");
    expect(() => logDimensionlessJerk({ x, y }, { sampleRateHz: 250, form: "jerk" as never })).toThrow(
      'options.form must be one of "velocity", "acceleration", "amplitude", got "jerk"',
    );
  });
});
