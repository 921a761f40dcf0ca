import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { detectSubmovements } from "../../src/movement/detect-submovements.js";
import type { KinematicSegment } from "../../src/trace/uniform.js";
import { recover } from "../recovery.js";
import { readReference, SHARED_ABSENT } from "../shared.js";
import { compose } from "./bells.js";

/** The noise floor at which the bar after the primary, 2 noise floors, is 5 % of the largest speed as in the tables. */
const fivePercent = (profile: KinematicSegment): number => 0.025 * Math.max(...profile.speed);

const table = readReference("kinematics/submovements.json");

describe.skipIf(table === undefined)(
  `detectSubmovements against outside values (${table === undefined ? SHARED_ABSENT : "reference tables"})`,
  () => {
    for (const c of table?.cases.filter((entry) => entry.expected.separableByPeaks === true) ?? []) {
      // Source: exact peaks of composed minimum-jerk profiles; kinematics/submovements.json. Peak times to one sample.
      it(`finds each component of a separable profile at its peak: ${c.name}`, () => {
        const fs = 1000;
        const profile = compose(c.input.components, fs, c.expected.sampled[fs].n);
        const { submovements } = detectSubmovements(profile, { noiseFloor: fivePercent(profile) });
        const expected: number[][] = c.expected.peaks.filter(
          (peak: number[]) => peak[2]! > 0.05 * Math.max(...c.expected.peaks.map((p: number[]) => p[1]!)),
        );
        expect(submovements.length).toBe(expected.length);
        submovements.forEach((bell, k) => {
          expect(Math.abs(bell.peak - expected[k]![0]!)).toBeLessThanOrEqual(1 / fs);
        });
      });
    }

    // Source: least onset spacing that shows two peaks, exact; kinematics/submovements.json. Half a percent of the duration either side, 5 %
    // prominence. Equal pairs are left out: they show three humps there, of which rounding makes the highest.
    it("begins to see a second bell at the exact least spacing", () => {
      const rows = table!.cases[0]!.expected.table as { amplitudeRatio: number; durationRatio: number; spacing5Percent: number }[];
      for (const { amplitudeRatio, durationRatio, spacing5Percent } of rows.filter((row) => row.amplitudeRatio < 1)) {
        const count = (spacing: number): number => {
          const pair = [
            { onset: 0.1, duration: 0.5, amplitude: 300, directionDeg: 0 },
            { onset: 0.1 + 0.5 * spacing, duration: 0.5 * durationRatio, amplitude: 300 * amplitudeRatio, directionDeg: 0 },
          ];
          const profile = compose(pair, 2000, 2600);
          return detectSubmovements(profile, { minSpacing: 0, noiseFloor: fivePercent(profile) }).submovements.length;
        };
        expect(count(spacing5Percent - 0.005)).toBe(1);
        expect(count(spacing5Percent + 0.005)).toBe(2);
      }
    });
  },
);

describe("detectSubmovements against outside values", () => {
  // Source: displacement and rest of two components, closed form.
  it("bounds bells by the rest between them and gives their displacement", () => {
    const pair = [
      { onset: 0.1, duration: 0.3, amplitude: 300, directionDeg: 0 },
      { onset: 0.55, duration: 0.2, amplitude: 30, directionDeg: 180 },
    ];
    const { submovements, primary } = detectSubmovements(compose(pair, 1000, 900));
    expect(primary).toBe(0);
    expect(submovements.map((bell) => Math.round(bell.dx))).toEqual([300, -30]);
    // the line through the root of speed points at most 0.015 durations beyond rest, over 5-40 % a little more
    expect(Math.abs(submovements[0]!.end - 0.4)).toBeLessThan(0.02 * 0.3);
    expect(Math.abs(submovements[1]!.start - 0.55)).toBeLessThan(0.02 * 0.2);
  });
});

describe("detectSubmovements properties", () => {
  const component = fc.record({
    duration: fc.double({ min: 0.1, max: 0.3, noNaN: true }),
    amplitude: fc.double({ min: 10, max: 400, noNaN: true }),
    directionDeg: fc.double({ min: 0, max: 360, noNaN: true }),
    pause: fc.double({ min: 0.05, max: 0.2, noNaN: true }),
  });
  test.prop([fc.array(component, { minLength: 1, maxLength: 4 })])(
    "returns bells in order that do not overlap, each around its peak",
    (parts) => {
      let at = 0.1;
      const components = parts.map(({ pause, ...part }) => {
        const placed = { onset: at, ...part };
        at += part.duration + pause;
        return placed;
      });
      const { submovements } = detectSubmovements(compose(components, 500, Math.ceil((at + 0.1) * 500)), { noiseFloor: 1 });
      submovements.forEach((bell, k) => {
        expect(bell.start).toBeLessThan(bell.peak);
        expect(bell.peak).toBeLessThan(bell.end);
        if (k > 0) expect(bell.start).toBeGreaterThanOrEqual(submovements[k - 1]!.end);
      });
    },
  );

  test.prop([fc.double({ min: -Math.PI, max: Math.PI, noNaN: true })])("turns with the scene", (angle) => {
    const components = [
      { onset: 0.1, duration: 0.3, amplitude: 300, directionDeg: 0 },
      { onset: 0.5, duration: 0.2, amplitude: 40, directionDeg: 90 },
    ];
    const plain = detectSubmovements(compose(components, 500, 400));
    const turned = detectSubmovements(
      compose(
        components.map((c) => ({ ...c, directionDeg: c.directionDeg + (angle * 180) / Math.PI })),
        500,
        400,
      ),
    );
    turned.submovements.forEach((bell, k) => {
      const before = plain.submovements[k]!;
      expect(bell.dx).toBeCloseTo(before.dx * Math.cos(angle) - before.dy * Math.sin(angle), 6);
      expect(bell.peakSpeed).toBeCloseTo(before.peakSpeed, 6);
    });
  });

  it("leaves out a late bell that moves the pointer by no more than 2.5 quanta", () => {
    const pair = [
      { onset: 0.1, duration: 0.3, amplitude: 300, directionDeg: 0 },
      { onset: 0.6, duration: 0.15, amplitude: 2.4, directionDeg: 0 },
    ];
    const profile = compose(pair, 500, 500);
    expect(detectSubmovements(profile, { quantum: 1 }).submovements.length).toBe(1);
    expect(detectSubmovements(profile, { quantum: 0.9 }).submovements.length).toBe(2);
  });

  it("leaves its input as it was and survives JSON", () => {
    const profile = compose([{ onset: 0.1, duration: 0.3, amplitude: 300, directionDeg: 0 }], 500, 400);
    const before = structuredClone(profile);
    const result = detectSubmovements(profile);
    expect(profile).toEqual(before);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });

  // Recovery on simulated truth, a small run; `npm run validation` prints every bin at every rate.
  it("recovers corrections of simulated movements and invents none", () => {
    const found = recover(250, [31], 200);
    const clear = found.corrections.filter((c) => c.over4px && c.spacing !== "below -50");
    expect(clear.filter((c) => c.found).length / clear.length).toBeGreaterThanOrEqual(0.95);
    expect(found.falseAlarms).toBeLessThanOrEqual(0.02 * found.pure);
    expect(found.lost).toBe(0);
  });
});

describe("detectSubmovements bad input", () => {
  const profile = compose([{ onset: 0.1, duration: 0.3, amplitude: 300, directionDeg: 0 }], 500, 400);
  it("refuses a negative noise floor and names it", () => {
    expect(() => detectSubmovements(profile, { noiseFloor: -1 })).toThrow(
      "detectSubmovements: options.noiseFloor must be finite and at least 0, got -1",
    );
  });
  it("refuses columns of unequal length", () => {
    expect(() => detectSubmovements({ ...profile, x: new Float64Array(3) })).toThrow(/profile\.x must have 400 entries/);
  });
  it("refuses a speed that is not finite and names the entry", () => {
    const speed = profile.speed.slice();
    speed[7] = Number.NaN;
    expect(() => detectSubmovements({ ...profile, speed })).toThrow(/profile\.speed\[7\] must be finite, got NaN/);
  });
  it("finds nothing at rest", () => {
    expect(detectSubmovements(compose([], 500, 400), { noiseFloor: 1 })).toEqual({ submovements: [], primary: null });
  });
});
