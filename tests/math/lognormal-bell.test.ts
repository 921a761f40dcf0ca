import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { lognormalPeakTime, lognormalPosition, lognormalSpeed, SIGMA_OF_MINIMUM_JERK } from "../../src/math/lognormal-bell.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("kinematics/minimum-jerk.json");
const mu = fc.double({ min: -1, max: 1, noNaN: true });
const sigma = fc.double({ min: 0.3, max: 1.2, noNaN: true });

describe.skipIf(table === undefined)(
  `lognormal bell against outside values (${table === undefined ? SHARED_ABSENT : "reference tables"})`,
  () => {
    for (const c of table?.cases.filter((entry) => entry.name.startsWith("support-bounded lognormal: ")) ?? []) {
      const { amplitude, duration, onset, mu, sigma } = c.params;
      // Source: closed forms and root finding with mpmath, positions against SciPy's normal distribution; kinematics/minimum-jerk.json.
      it(`has the speed, position and peak of ${c.name}`, () => {
        c.input.t.forEach((t: number, i: number) => {
          const s = (t - onset) / duration;
          expect(within((amplitude / duration) * lognormalSpeed(s, mu, sigma), c.expected.speed[i], c.tolerance)).toBe(true);
          expect(within(amplitude * lognormalPosition(s, mu, sigma), c.expected.position[i], c.tolerance)).toBe(true);
        });
        const peak = lognormalPeakTime(mu, sigma);
        expect(within(onset + duration * peak, c.expected.timeOfPeakSpeed, c.tolerance)).toBe(true);
        expect(within((amplitude / duration) * lognormalSpeed(peak, mu, sigma), c.expected.peakSpeed, c.tolerance)).toBe(true);
      });
    }

    // Source: closed form, kinematics/minimum-jerk.json, "support-bounded lognormal with the peak of a minimum-jerk bell".
    it("has the peak of the minimum-jerk bell at the sigma named after it", () => {
      const { sigma, peakSpeed } = table!.cases.find((entry) => entry.name.endsWith("peak of a minimum-jerk bell"))!.expected;
      expect(SIGMA_OF_MINIMUM_JERK).toBeCloseTo(sigma, 11);
      expect(lognormalSpeed(0.5, 0, SIGMA_OF_MINIMUM_JERK)).toBeCloseTo(peakSpeed, 11);
    });
  },
);

describe("lognormal bell properties", () => {
  test.prop([mu, sigma, fc.double({ min: 0.02, max: 0.98, noNaN: true })])("speed is the slope of position", (m, sd, s) => {
    const h = 1e-5;
    const slope = (lognormalPosition(s + h, m, sd) - lognormalPosition(s - h, m, sd)) / (2 * h);
    // the second derivative of speed, which the difference leaves out, grows as the bell narrows toward an end
    expect(Math.abs(slope - lognormalSpeed(s, m, sd))).toBeLessThan(2e-4);
  });

  test.prop([mu, sigma])("covers the whole amplitude, half of it where the logit equals mu", (m, sd) => {
    expect([lognormalPosition(0, m, sd), lognormalPosition(1, m, sd)]).toEqual([0, 1]);
    expect(lognormalPosition(1 / (1 + Math.exp(-m)), m, sd)).toBeCloseTo(0.5, 12);
  });

  test.prop([mu, sigma])("peaks where it says", (m, sd) => {
    const peak = lognormalPeakTime(m, sd);
    const top = lognormalSpeed(peak, m, sd);
    for (let s = 0.01; s < 1; s += 0.01) expect(lognormalSpeed(s, m, sd)).toBeLessThanOrEqual(top * (1 + 1e-12));
  });

  test.prop([mu, sigma, fc.double({ min: 0, max: 1, noNaN: true })])("is its own mirror image with mu reversed", (m, sd, s) => {
    expect(lognormalSpeed(1 - s, -m, sd)).toBeCloseTo(lognormalSpeed(s, m, sd), 9);
  });

  it("rests outside its support", () => {
    expect([-0.1, 0, 1, 1.1].map((s) => lognormalSpeed(s, 0.3, 0.8))).toEqual([0, 0, 0, 0]);
    expect([-0.1, 1.1].map((s) => lognormalPosition(s, 0.3, 0.8))).toEqual([0, 1]);
  });
});
