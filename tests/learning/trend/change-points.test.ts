import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { changePoints } from "../../../src/learning/trend/change-points.js";
import { stepNoise } from "../../../src/learning/trend/step-noise.js";
import { createRandom } from "../../../src/math/random.js";
import { NILE, type Points, pointsArb, same, valuesArb } from "./series.js";

const nile = Float64Array.from(NILE);
const mean = (list: readonly number[]): number => list.reduce((sum, value) => sum + value, 0) / list.length;

/** Squared deviations of a stretch from its mean; two passes. */
function plainCost({ y }: Points, from: number, to: number): number {
  const values = Array.from(y.slice(from, to));
  const level = mean(values);
  return values.reduce((sum, value) => sum + (value - level) ** 2, 0);
}

/** The least penalised cost, every last start tried for every end (dynamic programming, textbook). */
function plainTotal(points: Points, shortest: number, penalty: number): number {
  const best = [-penalty];
  for (let end = 1; end <= points.y.length; end++) {
    best[end] = Number.POSITIVE_INFINITY;
    for (let start = 0; start <= end - shortest; start++) {
      if (best[start]! < Number.POSITIVE_INFINITY) {
        best[end] = Math.min(best[end]!, best[start]! + plainCost(points, start, end) + penalty);
      }
    }
  }
  return best[points.y.length]!;
}

const penaltyArb = fc.constantFrom(0.01, 0.3, 1, 3, 10, 30);

describe("changePoints against outside values", () => {
  // Source: exhaustive dynamic programming (NumPy 1.24), as stored in the reference table learning/change-points.json. That the flow falls
  // after 1898 is the textbook example of the field.
  it("finds the one change of the Nile, after 1898", () => {
    const { at, cost } = changePoints(nile, 2, 131882.6195727565);
    expect(at.map((i) => 1871 + i)).toEqual([1899]);
    expect(cost).toBeCloseTo(1597457.1944444478, 6);
    expect(changePoints(nile, 2, 122484.2778433903).at).toEqual([28]);
    expect(changePoints(nile, 4).at).toEqual([28]);
  });

  // Source: the plain O(n^2) program above
  test.prop([pointsArb(0), fc.integer({ min: 1, max: 5 }), penaltyArb])(
    "costs what the plain program costs",
    (points, shortest, penalty) => {
      const { at, cost } = changePoints(points.y, shortest, penalty);
      const starts = [0, ...at];
      const parts = starts.map((start, i) => plainCost(points, start, at[i] ?? points.y.length));
      const sum = parts.reduce((total, part) => total + part, 0);
      expect(Math.abs(cost - sum)).toBeLessThanOrEqual(1e-9 * (1 + sum));
      if (points.y.length < shortest) {
        expect(at).toEqual([]);
        return;
      }
      expect(starts.every((start, i) => (at[i] ?? points.y.length) - start >= shortest)).toBe(true);
      const best = plainTotal(points, shortest, penalty);
      expect(Math.abs(cost + penalty * at.length - best)).toBeLessThanOrEqual(1e-9 * (1 + Math.abs(best)));
    },
  );

  // Source: the truth of simulated series: flat, or with steps of 3 SD
  it("finds steps and few others, also among neighbours that are alike", () => {
    const random = createRandom(5);
    const share = (rho: number, step: number): number => {
      let found = 0;
      for (let k = 0; k < 200; k++) {
        let level = random.normal();
        const y = Float64Array.from({ length: 100 }, (_, i) => {
          const value = level;
          level = rho * level + Math.sqrt(1 - rho * rho) * random.normal();
          return value + (i < 50 ? 0 : step);
        });
        if (changePoints(y, 4).at.length > 0) found++;
      }
      return found / 200;
    };
    expect(share(0, 0)).toBeLessThanOrEqual(0.03);
    expect(share(0.6, 0)).toBeLessThanOrEqual(0.12);
    expect(share(0, 3)).toBeGreaterThanOrEqual(0.95);
  });
});

describe("stepNoise against outside values", () => {
  // Source: the truth of a simulated first-order series of 20000 values with 50 steps of up to 16 SD. The correlation is known to 0.02
  // (SD over twenty such series), and through it the SD to 2.5 % where neighbours correlate with 0.6: three times these are allowed
  it.each([0, 0.3, 0.6])("finds the noise under steps, neighbours correlating with %d", (rho) => {
    const random = createRandom(21);
    let noise = random.normal();
    let level = 0;
    const y = Float64Array.from({ length: 20_000 }, (_, i) => {
      if (i % 400 === 0) level = random.uniform(-4, 4);
      noise = rho * noise + Math.sqrt(1 - rho * rho) * random.normal();
      return level + 0.5 * noise;
    });
    const { sd, lagOne, longRunVariance } = stepNoise(y);
    expect(Math.abs(sd - 0.5)).toBeLessThan(0.0375);
    expect(Math.abs(lagOne - rho)).toBeLessThan(0.06);
    expect(longRunVariance).toBeCloseTo((sd * sd * (1 + lagOne)) / (1 - lagOne), 12);
  });
});

describe("changePoints properties", () => {
  test.prop([valuesArb(1), fc.integer({ min: -8, max: 8 }), penaltyArb])(
    "scales with the unit and leaves its input alone",
    (values, power, penalty) => {
      const copy = values.slice();
      const result = changePoints(values, 2, penalty);
      expect(same(values, copy)).toBe(true);
      const other = changePoints(
        values.map((value) => value * 2 ** power),
        2,
        penalty * 4 ** power,
      );
      expect(other.at).toEqual(result.at);
      expect(other.cost).toBeCloseTo(result.cost * 4 ** power, 9);
      expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    },
  );

  test.prop([valuesArb(1)])("has a default penalty that needs no values of any kind", (values) => {
    const { at, cost } = changePoints(values, 4);
    expect(Number.isFinite(cost) && at.every((start, i) => start >= 4 * (i + 1))).toBe(true);
  });
});

describe("changePoints bad input", () => {
  const none = { at: [], cost: 0 };
  it("finds nothing among no values, one value, equal values or too few", () => {
    expect(changePoints(new Float64Array(0), 4)).toEqual(none);
    expect(changePoints(Float64Array.of(3), 4)).toEqual(none);
    expect(changePoints(new Float64Array(50).fill(0.1), 4)).toEqual(none);
    expect(changePoints(Float64Array.of(0, 0, 9), 2, 0.1)).toEqual({ at: [], cost: expect.closeTo(54, 10) });
    expect(changePoints(Float64Array.of(1, 5, 3), 1)).toEqual({ at: [], cost: expect.closeTo(8, 12) });
  });
  it("sees no noise in too few or equal values, and some under values that seldom move", () => {
    const still = { sd: 0, lagOne: 0, longRunVariance: 0 };
    expect(stepNoise(Float64Array.of(1, 2, 3))).toEqual(still);
    expect(stepNoise(new Float64Array(9).fill(2))).toEqual(still);
    const seldom = new Float64Array(40);
    seldom[20] = 1;
    expect(stepNoise(seldom).sd).toBeGreaterThan(0);
  });
});
