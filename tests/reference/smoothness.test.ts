import { describe, expect, it } from "vitest";
import { findPeaks } from "../../src/movement/bell/peaks.js";
import { logDimensionlessJerk } from "../../src/movement/log-dimensionless-jerk.js";
import { spectralArcLength } from "../../src/movement/spectral-arc-length.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("kinematics/smoothness.json");
const cases = (start: string): [string, ReferenceCase][] =>
  (table?.cases ?? []).filter((c) => c.name.startsWith(start)).map((c) => [c.name, c]);
const one = (name: string): ReferenceCase => table!.cases.find((c) => c.name === name)!;

interface Component {
  readonly onset: number;
  readonly duration: number;
  readonly amplitude: number;
  readonly directionDeg: number;
}

/** Speed of a minimum-jerk stroke over one unit of time and length. */
function bell(s: number): number {
  return s <= 0 || s >= 1 ? 0 : 30 * s * s * (1 - s) * (1 - s);
}

function velocityOf(components: readonly Component[], n: number, rate: number) {
  const component = (turn: (a: number) => number) =>
    Float64Array.from({ length: n }, (_, k) =>
      components.reduce((sum, { onset, duration, amplitude, directionDeg }) => {
        return sum + ((amplitude * turn((directionDeg * Math.PI) / 180)) / duration) * bell((k / rate - onset) / duration);
      }, 0),
    );
  return { x: component(Math.cos), y: component(Math.sin) };
}

function speedOf({ x, y }: { x: Float64Array; y: Float64Array }): Float64Array {
  return x.map((value, i) => Math.sqrt(value * value + y[i]! * y[i]!));
}

/** With the table's tremor, which is added to the speed and takes slow ends below 0. */
function sampledSpeed(input: ReferenceCase["input"], rate: number): Float64Array {
  const { amplitude = 0, hz = 0, phase = 0 } = input.tremor ?? {};
  return speedOf(velocityOf(input.components, input.n, rate)).map(
    (speed, k) => speed + amplitude * Math.sin((2 * Math.PI * hz * k) / rate + phase),
  );
}

function arc(speed: Float64Array, sampleRateHz: number, maxHz: number, more: { threshold?: number; padLevel?: number } = {}): number {
  const estimate = spectralArcLength(speed, { sampleRateHz, maxHz, ...more });
  if (!estimate.ok) throw new Error(estimate.why);
  return estimate.value;
}

function jerk(
  velocity: { x: Float64Array; y: Float64Array },
  sampleRateHz: number,
  form: "velocity" | "acceleration" | "amplitude",
): number {
  const estimate = logDimensionlessJerk(velocity, { sampleRateHz, form });
  if (!estimate.ok) throw new Error(estimate.why);
  return estimate.value;
}

describe.skipIf(table === undefined)(`kinematics/smoothness.json (else: ${SHARED_ABSENT})`, () => {
  // Source: printed in the docstrings of the public script of the method's first author (siva82kb/SPARC, 14b377e, read).
  it("published: Gaussian bell", () => {
    const { expected, tolerance, recomputed } = one("published: Gaussian bell exp(-5 t^2)") as ReferenceCase & {
      recomputed: Record<string, number>;
    };
    const v = Float64Array.from({ length: 200 }, (_, k) => Math.exp(-5 * (-1 + 0.01 * k) ** 2));
    const still = new Float64Array(200);
    expect(within(arc(v, 100, 10), expected.spectralArcLength, tolerance)).toBe(true);
    expect(within(arc(v, 100, 10), recomputed.spectralArcLength!, { rel: 0, abs: 1e-10 })).toBe(true);
    const log = jerk({ x: v, y: still }, 100, "velocity");
    expect(within(log, expected.logDimensionlessJerkDifferences, tolerance)).toBe(true);
    expect(within(-Math.exp(-log), expected.dimensionlessJerkDifferences, { rel: 0, abs: 5.1e-6 })).toBe(true);
  });

  // Source: computed from the stated steps with NumPy 1.24.2; the second differences are those of the speed.
  it.each(cases("sampled"))("%s", (_, { input, params, expected, tolerance }) => {
    const v = sampledSpeed(input, params.sampleRateHz);
    for (const maxHz of [10, 20])
      expect(within(arc(v, params.sampleRateHz, maxHz), expected[`spectralArcLength${maxHz}Hz`], tolerance)).toBe(true);
    const log = jerk({ x: v, y: new Float64Array(v.length) }, params.sampleRateHz, "velocity");
    expect(within(log, expected.logDimensionlessJerkDifferences, tolerance)).toBe(true);
  });

  // Source: scipy.signal.find_peaks 1.10.1; prominence and height of at least 5 % of the largest speed.
  it.each(cases("sampled"))("%s: speed peaks", (_, { input, params, expected }) => {
    const v = sampledSpeed(input, params.sampleRateHz);
    const { index, prominence } = findPeaks(v);
    const least = 0.05 * Math.max(...v);
    expect(index.filter((at, k) => v[at]! >= least && prominence[k]! >= least).length).toBe(expected.speedPeaks);
  });

  // Source: computed from the stated steps with NumPy 1.24.2.
  it("uses a bin exactly at the limit", () => {
    const { params, expected, tolerance } = one("inclusive frequency limit: a bin exactly at the limit is used");
    const v = Float64Array.from({ length: 64 }, (_, k) => (k < 2 ? 1 : 0));
    expect(within(arc(v, params.sampleRateHz, params.maxHz), expected.spectralArcLength, tolerance)).toBe(true);
  });

  // Source: numerical integration of the closed-form spectrum (mpmath). The cut falls on a frequency grid: with 2^10 times as many points as samples the sampled
  // values come within 0.001 of these limits, and not to their stored digits.
  it("tends to the continuous limits of the spectral arc length", () => {
    const { expected } = one("continuous limits of the spectral arc length, no frequency limit");
    const bells = (gap: number | undefined): Float64Array => {
      const stroke = { onset: 0, duration: 0.3, amplitude: 300, directionDeg: 0 };
      const second = gap === undefined ? [] : [{ ...stroke, onset: 0.3 * (1 + gap) }];
      return speedOf(velocityOf([stroke, ...second], 600, 500));
    };
    const limits = [
      [undefined, "oneMovement"],
      [0, "twoEqualGap0T"],
      [0.3, "twoEqualGap0.3T"],
      [0.6, "twoEqualGap0.6T"],
    ] as const;
    for (const [gap, key] of limits) expect(Math.abs(arc(bells(gap), 500, 250, { padLevel: 9 }) - expected[key])).toBeLessThan(2e-3);
  });

  // Source: exact fractions and piecewise polynomials. Second differences at 20 kHz come within 1e-3 of the integral.
  it("tends to the closed forms of the log dimensionless jerk", () => {
    const single = one("log dimensionless jerk of one minimum-jerk movement");
    const sets = [
      [[{ onset: 0, duration: 0.3, amplitude: 300, directionDeg: 0 }], 0.3, single],
      ...cases("log dimensionless jerk, composed").map(([, c]) => [c.input.components, c.expected.duration, c] as const),
      ...cases("log dimensionless jerk of two equal").map(([, c]) => {
        const stroke = { onset: 0, duration: 0.3, amplitude: 300, directionDeg: 0 };
        const gap = c.params.gapOverT;
        return [[stroke, { ...stroke, onset: 0.3 * (1 + gap) }], 0.3 * (2 + gap), c] as const;
      }),
    ] as const;
    expect(sets.length).toBeGreaterThan(10);
    for (const [components, duration, { name, expected }] of sets) {
      const velocity = velocityOf(components, Math.round(duration * 20000) + 1, 20000);
      for (const form of ["velocity", "amplitude", "acceleration"] as const) {
        const want = expected[`${form}Form`];
        expect(Math.abs(jerk(velocity, 20000, form) - want), `${name} ${form}`).toBeLessThan(1e-3);
      }
    }
  });

  // Source: numerical integration (scipy quad) of the closed-form jerk, which is a vector: the second derivative of speed alone misses what turns.
  it.each(cases("circular arc"))("%s", (_, { params, expected }) => {
    const n = Math.round(params.duration * 20000) + 1;
    const angle = (k: number): number => {
      const s = k / (n - 1);
      return ((params.arcDeg * Math.PI) / 180) * s ** 3 * (10 - 15 * s + 6 * s * s);
    };
    const speed = (k: number): number => (((params.arcDeg * Math.PI) / 180) * params.radius * bell(k / (n - 1))) / params.duration;
    const x = Float64Array.from({ length: n }, (_, k) => -Math.sin(angle(k)) * speed(k));
    const y = Float64Array.from({ length: n }, (_, k) => Math.cos(angle(k)) * speed(k));
    expect(Math.abs(jerk({ x, y }, 20000, "velocity") - expected.velocityFormVectorJerk)).toBeLessThan(1e-3);
    const flat = { x: speedOf({ x, y }), y: new Float64Array(n) };
    expect(Math.abs(jerk(flat, 20000, "velocity") - expected.velocityFormSecondDerivativeOfSpeed)).toBeLessThan(1e-3);
  });
});
