import { describe, expect, it } from "vitest";
import { averagePrediction } from "../../../src/learning/choice/average-predictions.js";
import type { ComparedLearningCurve } from "../../../src/learning/choice/compared-curve.js";
import type { Estimate } from "../../../src/math/estimate.js";

/** A law as far as an average needs it: its weight, and what it foretells. */
const law = (weight: number | null, told: readonly [number, number, number] | null): ComparedLearningCurve => {
  const prediction: Estimate =
    told === null
      ? { ok: false, why: "notIdentified", unit: "s", n: 12 }
      : { ok: true, value: told[0], unit: "s", n: 12, interval: [told[1], told[2]], level: 0.95 };
  return { weight, fit: { n: 12, predictions: [prediction] } } as unknown as ComparedLearningCurve;
};
const average = (laws: readonly ComparedLearningCurve[], errors: "normal" | "lognormal" | "binomial" = "normal", level = 0.95) =>
  averagePrediction(laws, 0, errors, "s", level);
// Source: a table of the standard normal distribution: 1.959964, and 1.644854 at 90 %
const Z95 = 1.9599639845400545;
const Z90 = 1.6448536269514722;

describe("the average of what laws foretell", () => {
  // Source: Buckland, Burnham and Augustin 1997 (recalled), by hand: mean 0.75 x 2 + 0.25 x 4 = 2.5; reaches below 0.6 and 0.8, above 1 and 0.5, each
  // widened by z times its distance from the mean, 0.5 and 1.5
  it("is the mixture by weight, each reach widened by the distance from the mean", () => {
    for (const [level, z] of [
      [0.95, Z95],
      [0.9, Z90],
    ] as const) {
      expect(average([law(0.75, [2, 1.4, 3]), law(0.25, [4, 3.2, 4.5])], "normal", level)).toEqual({
        ok: true,
        value: expect.closeTo(2.5, 12),
        unit: "s",
        n: 12,
        interval: [
          expect.closeTo(2.5 - 0.75 * Math.hypot(0.6, z * 0.5) - 0.25 * Math.hypot(0.8, z * 1.5), 8),
          expect.closeTo(2.5 + 0.75 * Math.hypot(1, z * 0.5) + 0.25 * Math.hypot(0.5, z * 1.5), 8),
        ],
        level,
      });
    }
  });

  // Source: as above with the weights of the laws that foretell, 0.3 and 0.45 over 0.75: 0.4 x 2 + 0.6 x 4 = 3.2
  it("weighs the laws that foretell against each other alone", () => {
    const told = [law(0.3, [2, 1.4, 3]), law(0.25, null), law(0.45, [4, 3.2, 4.5]), law(null, [9, 8, 10]), law(0, [90, 80, 100])];
    expect(average(told)).toMatchObject({
      ok: true,
      value: expect.closeTo(3.2, 12),
      interval: [
        expect.closeTo(3.2 - 0.4 * Math.hypot(0.6, Z95 * 1.2) - 0.6 * Math.hypot(0.8, Z95 * 0.8), 8),
        expect.closeTo(3.2 + 0.4 * Math.hypot(1, Z95 * 1.2) + 0.6 * Math.hypot(0.5, Z95 * 0.8), 8),
      ],
    });
  });

  // Source: the same on logarithms: the geometric mean of 1 and 4 by 1 : 1 is 2, each ln 2 away, with reaches of ln 2 either side
  it("is one of logarithms for log-normal errors", () => {
    const half = Math.LN2 * Math.hypot(1, Z95);
    expect(average([law(0.5, [1, 0.5, 2]), law(0.5, [4, 2, 8])], "lognormal")).toMatchObject({
      value: expect.closeTo(2, 12),
      interval: [expect.closeTo(2 / Math.exp(half), 8), expect.closeTo(2 * Math.exp(half), 7)],
    });
  });

  it("leaves out a law that foretells a time with no logarithm", () => {
    const below = law(0.4, [1, -0.5, 2.5]);
    const known = average([law(0.6, [1, 0.5, 2]), below], "lognormal");
    expect(known).toMatchObject({ value: 1, interval: [expect.closeTo(0.5, 12), expect.closeTo(2, 12)] });
    expect(average([law(0.6, [1, 0.5, 2]), below]).ok).toBe(true);
    expect(average([law(0.4, [1, 0.5, 2]), law(0.6, [1, 0, 2.5])], "lognormal")).toEqual({
      ok: false,
      why: "notIdentified",
      unit: "s",
      n: 12,
    });
  });

  it("keeps a share within 0 and 1", () => {
    const wide = [law(0.5, [0.1, -0.2, 0.5]), law(0.5, [0.9, 0.5, 1.3])];
    expect(average(wide, "binomial")).toMatchObject({ value: expect.closeTo(0.5, 12), interval: [0, 1] });
    const [low, high] = intervalOf(average(wide));
    expect(low! < 0 && high! > 1).toBe(true);
    const [least, most] = intervalOf(average([law(1, [0.5, 0.4, 0.6])], "binomial"));
    expect([least, most]).toEqual([expect.closeTo(0.4, 12), expect.closeTo(0.6, 12)]);
  });

  it("is not given where laws of less than half of the weight foretell", () => {
    const refused = { ok: false, why: "notIdentified", unit: "s", n: 12 };
    expect(average([law(0.51, null), law(0.49, [1, 0.5, 2])])).toEqual(refused);
    expect(average([law(0.5, null), law(0.5, [1, 0.5, 2])])).toMatchObject({ ok: true, value: 1 });
    expect(average([law(1, null)])).toEqual(refused);
    expect(average([law(1, [1e308, -1.7e308, 1.7e308])])).toEqual(refused);
  });

  it("is that of the first law where there is nothing to weigh with", () => {
    const exact = law(null, [1, 1, 1]);
    expect(average([exact, law(null, [2, 1, 3])])).toBe(exact.fit.predictions[0]);
  });
});

function intervalOf(estimate: Estimate): readonly number[] {
  return estimate.ok ? estimate.interval! : [];
}
