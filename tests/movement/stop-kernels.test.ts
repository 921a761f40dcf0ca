import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { minimumJerkPosition, minimumJerkSpeed } from "../../src/math/minimum-jerk.js";
import { observedGain, reliabilityOfErrors, unbiasedGain } from "../../src/movement/correction/gain-bias.js";
import { dampingRatio } from "../../src/movement/stop/damping-ratio.js";
import { overshoot } from "../../src/movement/stop/overshoot.js";
import { settlingTime } from "../../src/movement/stop/settling-time.js";
import { speedSkew } from "../../src/movement/stop/speed-skew.js";
import { swings } from "../../src/movement/stop/swings.js";

const RATE = 1000;
const column = (n: number, at: (i: number) => number): Float64Array => Float64Array.from({ length: n }, (_, i) => at(i));
/** A unit step of a damped spring, 20 rad/s, less its resting place. */
const spring = (zeta: number) => {
  const r = Math.sqrt(1 - zeta * zeta);
  return column(RATE + 1, (i) => {
    const a = (20 * i) / RATE;
    return -Math.exp(-zeta * a) * (Math.cos(r * a) + (zeta / r) * Math.sin(r * a));
  });
};
const segmentOf = (x: Float64Array, y: Float64Array = new Float64Array(x.length), t0 = 0) => ({ x, y, t0, sampleRateHz: RATE });
const ORIGIN = { x: 0, y: 0 };

describe("stop kernels against outside values", () => {
  // Source: closed form of the second-order step, settling to 5 % at 20 rad/s, mpmath 1.2.1 (40 digits). A chord of 1 ms stands for the curve.
  it.each([
    [0.2, 0.687221820914],
    [0.4, 0.380439069372],
    [0.7, 0.144991026304],
  ])("settles as a spring of damping %d does", (zeta, time) => {
    expect(settlingTime(segmentOf(spring(zeta)), 0, RATE + 1, ORIGIN, 0.05, 0)).toBeCloseTo(time, 5);
  });
  // Source: minimum-jerk strokes 330 forth and 30 back, last time outside a band of 10: SciPy brentq on the closed form, 0.518173996752 s, 0.168173996752 s after the primary's end.
  it("settles after an overshoot and return as the closed form does", () => {
    const x = column(1200, (i) => 330 * minimumJerkPosition((i / RATE - 0.1) / 0.25) - 30 * minimumJerkPosition((i / RATE - 0.4) / 0.2));
    expect(settlingTime(segmentOf(x), 0, 1200, { x: 300, y: 0 }, 10, 0.35)).toBeCloseTo(0.168173996752, 5);
  });
  // Source: closed form, damping of a spring from the decrement of its swings. Parabolas through 1 ms samples.
  it.each([0.1, 0.25, 0.5, 0.8])("finds the damping %d of a spring", (zeta) => {
    expect(dampingRatio(spring(zeta), 0, RATE + 1, 0, 1e-6)).toBeCloseTo(zeta, 5);
  });
  // Source: closed form, overshoot exp(-pi z / sqrt(1 - z^2)): 0.254 at 0.4; first crossing (pi - acos z) / (w sqrt(1 - z^2)): 0.108144 s.
  // The highest of 1 ms samples lies up to 20^2 0.001^2 / 8 = 5e-5 of the swing below its top.
  it("finds overshoot and first crossing of a spring", () => {
    const { farthest, crossing } = overshoot(spring(0.4), 0, RATE + 1);
    expect(farthest).toBeCloseTo(0.25382672198, 4);
    expect(crossing! / RATE).toBeCloseTo(0.108144049592, 5);
  });
  // Source: closed form. A symmetrical bell has no skew; the density of an exponential has 2; SciPy 1.17.1 beta(2, 4).stats("s") = 0.4677.
  it("gives bells the skew of their density", () => {
    expect(
      speedSkew(
        column(201, (i) => minimumJerkSpeed(i / 200)),
        0,
        201,
      ),
    ).toBeCloseTo(0, 12);
    expect(
      speedSkew(
        column(40001, (i) => Math.exp(-i / 1000)),
        0,
        40001,
      ),
    ).toBeCloseTo(2, 5);
    expect(
      speedSkew(
        column(2001, (i) => (i / 2000) * (1 - i / 2000) ** 3),
        0,
        2001,
      ),
    ).toBeCloseTo(0.46770717334674267, 5);
  });
  // Source: closed form lambda g + 1 - lambda: 0.76 at reliability 0.8 and gain 0.7; simulated 0.7601 (NumPy default_rng(5), n 400000).
  it("shows a gain nearer to 1 through noise, and undoes it", () => {
    expect(observedGain(0.7, 0.8)).toBeCloseTo(0.76, 12);
    expect(unbiasedGain(0.76, 0.8)).toBeCloseTo(0.7, 12);
    expect(reliabilityOfErrors(25, 5)).toBeCloseTo(0.8, 12);
  });
});

describe("stop kernels properties", () => {
  it("needs no settling when all lies within the band, or the last excursion came before", () => {
    const x = column(100, (i) => 99 - i);
    expect(settlingTime(segmentOf(x), 0, 100, ORIGIN, 200, 0)).toBe(0);
    expect(settlingTime(segmentOf(x), 0, 100, ORIGIN, 10, 0.095)).toBe(0);
    expect(settlingTime(segmentOf(x), 0, 100, ORIGIN, 9.5, 0)).toBeCloseTo(0.0895, 12);
  });
  it("counts up to the last sample while it is still outside", () => {
    const x = column(50, () => 5);
    expect(settlingTime(segmentOf(x), 0, 50, ORIGIN, 1, 0.01)).toBeCloseTo(0.039, 12);
  });
  it("finds the exact crossing of a straight path in two dimensions", () => {
    // from (10, 3) to (0, 3) in one step: distance 5 at x = 4
    const segment = segmentOf(Float64Array.of(10, 0), Float64Array.of(3, 3));
    expect(settlingTime(segment, 0, 2, ORIGIN, 5, 0)).toBeCloseTo(0.6 / RATE, 12);
  });
  it("crosses the band where the path does, when one step leads past the centre", () => {
    expect(settlingTime(segmentOf(Float64Array.of(12, -8)), 0, 2, ORIGIN, 10, 0)).toBeCloseTo(0.1 / RATE, 12);
  });
  it("settles alike at 1.7e9 s", () => {
    const late = settlingTime(segmentOf(spring(0.3), undefined, 1.7e9), 0, RATE + 1, ORIGIN, 0.05, 1.7e9);
    expect(late).toBeCloseTo(settlingTime(segmentOf(spring(0.3)), 0, RATE + 1, ORIGIN, 0.05, 0), 6);
  });
  test.prop([
    fc.array(fc.double({ min: -9, max: 9, noNaN: true }), { minLength: 1, maxLength: 30 }),
    fc.double({ min: 0.1, max: 8, noNaN: true }),
  ])("agrees with a fine look at the straight lines between samples", (values, band) => {
    const found = settlingTime(segmentOf(Float64Array.from(values)), 0, values.length, ORIGIN, band, 0) * RATE;
    let last = 0;
    for (let k = 0; k <= (values.length - 1) * 200; k++) {
      const i = Math.min(Math.floor(k / 200), values.length - 1);
      const next = values[Math.min(i + 1, values.length - 1)]!;
      if (Math.abs(values[i]! + (k / 200 - i) * (next - values[i]!)) > band) last = k / 200;
    }
    expect(Math.abs(found - last)).toBeLessThanOrEqual(1 / 200 + 1e-9);
  });
  it("leaves out samples outside the range", () => {
    const x = Float64Array.of(50, 3, -2, 1, 50);
    expect(settlingTime(segmentOf(x), 1, 4, ORIGIN, 4, 0)).toBe(0);
    expect(overshoot(x, 1, 4)).toEqual({ farthest: 3, crossing: 1 });
    expect(speedSkew(Float64Array.of(99, 1, 2, 1, 99), 1, 4)).toBeCloseTo(0, 12);
    expect(swings(Float64Array.of(9, -9, 9, -9, 9), 1, 4, 0, 1).map((s) => s.index)).toEqual([2]);
  });

  it("has no damping with one swing, with growing swings, or below the least swing", () => {
    const growing = column(400, (i) => Math.exp(i / 100) * Math.sin(i / 10));
    expect(dampingRatio(growing, 0, 400, 0, 0)).toBeUndefined();
    expect(dampingRatio(spring(0.4), 0, 250, 0, 0)).toBeUndefined();
    expect(dampingRatio(spring(0.4), 0, RATE + 1, 0, 0.1)).toBeUndefined();
  });
  it("takes rests and halts for no swings", () => {
    const halted = [0, 0, 0, 1, 2, 2, 2, 3, 4, 4, 4];
    expect(swings(Float64Array.from(halted), 0, halted.length, 2.5, 0)).toEqual([]);
  });
  it("takes a flat top and several tops on one side for one swing", () => {
    const x = Float64Array.of(-9, 2, 2, -1, 5, -6, 0);
    expect(swings(x, 0, x.length, 0, 1.5).map((s) => Math.sign(s.height))).toEqual([1, -1]);
    expect(swings(x, 0, x.length, 0, 1.5)[0]!.height).toBeGreaterThan(5);
  });

  it("has no overshoot short of the centre", () => {
    expect(overshoot(Float64Array.of(-5, -2, -1), 0, 3)).toEqual({ farthest: 0 });
    expect(overshoot(Float64Array.of(-5, 0, -1), 0, 3)).toEqual({ farthest: 0, crossing: 1 });
  });
  it("counts a start beyond the centre as crossed", () => {
    expect(overshoot(Float64Array.of(4, 1), 0, 2)).toEqual({ farthest: 4, crossing: 0 });
  });

  it("has no skew without speed or of one sample", () => {
    expect(speedSkew(new Float64Array(9), 0, 9)).toBeUndefined();
    expect(speedSkew(Float64Array.of(0, 3, 0), 0, 3)).toBeUndefined();
  });
  test.prop([fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 3, maxLength: 50 }), fc.double({ min: 0.1, max: 100, noNaN: true })])(
    "turns the sign of the skew with time, and does not change it with scale",
    (values, scale) => {
      const skew = speedSkew(Float64Array.from(values), 0, values.length);
      const back = speedSkew(Float64Array.from(values).reverse(), 0, values.length);
      const scaled = speedSkew(
        Float64Array.from(values, (v) => v * scale),
        0,
        values.length,
      );
      if (skew === undefined) expect([back, scaled]).toEqual([undefined, undefined]);
      else {
        expect(back).toBeCloseTo(-skew, 8);
        expect(scaled).toBeCloseTo(skew, 8);
      }
    },
  );

  test.prop([fc.double({ min: -1, max: 3, noNaN: true }), fc.double({ min: 0.05, max: 1, noNaN: true })])(
    "undoes what noise does to a gain",
    (gain, lambda) => {
      expect(unbiasedGain(observedGain(gain, lambda), lambda)).toBeCloseTo(gain, 9);
    },
  );
  it("finds nothing reliable where noise exceeds all that is seen", () => {
    expect(reliabilityOfErrors(4, 9)).toBe(0);
    expect(reliabilityOfErrors(0, 0)).toBe(0);
  });
});
