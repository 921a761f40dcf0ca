import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { FitProblem } from "../../src/math/fit-problem.js";
import { linearRegression } from "../../src/math/linear-regression.js";
import { nonlinearFit } from "../../src/math/nonlinear-fit.js";
import { createRandom } from "../../src/math/random.js";

const X = Array.from({ length: 20 }, (_, i) => i);

/** y = a + b exp(-c x) at 0, 1, ..., 19. */
function decay(data: readonly number[], starts: readonly (readonly number[])[], more: Partial<FitProblem> = {}): FitProblem {
  return {
    data,
    starts,
    evaluate: ([a, b, c], values) => {
      for (const [i, x] of X.entries()) values[i] = a! + b! * Math.exp(-c! * x);
    },
    differentiate: ([, b, c], jacobian) => {
      for (const [i, x] of X.entries()) {
        jacobian[i] = 1;
        jacobian[20 + i] = Math.exp(-c! * x);
        jacobian[40 + i] = -b! * x * Math.exp(-c! * x);
      }
    },
    ...more,
  };
}

function noisy(seed: number, [a, b, c]: readonly [number, number, number] = [1, 2, 0.3], sd = 0.05): number[] {
  const random = createRandom(seed);
  return X.map((x) => a + b * Math.exp(-c * x) + random.normal(0, sd));
}

/** y = p + q x, which is linear in both. */
function line(data: readonly number[], more: Partial<FitProblem> = {}): FitProblem {
  return {
    data,
    starts: [[1, 1]],
    evaluate: ([p, q], values) => {
      for (let i = 0; i < data.length; i++) values[i] = p! + q! * i;
    },
    differentiate: (_, jacobian) => {
      for (let i = 0; i < data.length; i++) {
        jacobian[i] = 1;
        jacobian[data.length + i] = i;
      }
    },
    ...more,
  };
}

describe("nonlinearFit against outside values", () => {
  // Source: NIST StRD nonlinear regression, problem Misra1a (data and certified values typed in, 11 digits)
  it.each([
    [500, 0.0001],
    [250, 0.0005],
  ])("reaches the certified values of Misra1a from %d, %d", (b1, b2) => {
    const x = [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760];
    const found = nonlinearFit({
      data: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
      starts: [[b1, b2]],
      evaluate: ([p, q], values) => {
        for (let i = 0; i < 14; i++) values[i] = p! * (1 - Math.exp(-q! * x[i]!));
      },
      differentiate: ([p, q], jacobian) => {
        for (let i = 0; i < 14; i++) {
          jacobian[i] = 1 - Math.exp(-q! * x[i]!);
          jacobian[14 + i] = p! * x[i]! * Math.exp(-q! * x[i]!);
        }
      },
    });
    expect(found.parameters[0]! / 238.94212918).toBeCloseTo(1, 9);
    expect(found.parameters[1]! / 5.5015643181e-4).toBeCloseTo(1, 9);
    expect(found.standardErrors[0]! / 2.7070075241).toBeCloseTo(1, 8);
    expect(found.standardErrors[1]! / 7.2668688436e-6).toBeCloseTo(1, 8);
    expect(found.residualSum / 0.12455138894).toBeCloseTo(1, 9);
    expect(found).toMatchObject({ converged: true, df: 12, rank: 2, free: 2 });
  });

  // Source: closed form. A model that is linear in all parameters is an ordinary regression (itself checked against certified tables).
  it("is a linear regression for a straight line, covariance included", () => {
    const data = [1.1, 2.9, 5.2, 6.8, 9.3, 10.7];
    const found = nonlinearFit(line(data));
    const known = linearRegression([data.map((_, i) => i)], data)!;
    known.coefficients.forEach((value, j) => void expect(found.parameters[j]).toBeCloseTo(value, 12));
    known.covariance.flat().forEach((value, k) => void expect(found.covariance.flat()[k]).toBeCloseTo(value, 12));
    expect(found.residualSum).toBeCloseTo(known.residualSum, 12);
  });

  // Source: closed form. A datum that counts three times is three equal data.
  it("counts weights like repeats", () => {
    const data = [1.1, 2.9, 5.2, 6.8];
    const weighted = nonlinearFit(line(data, { weights: [1, 1, 3, 1] }));
    const repeated = linearRegression([[0, 1, 2, 2, 2, 3]], [1.1, 2.9, 5.2, 5.2, 5.2, 6.8])!;
    repeated.coefficients.forEach((value, j) => void expect(weighted.parameters[j]).toBeCloseTo(value, 12));
    expect(weighted.residualSum).toBeCloseTo(repeated.residualSum, 12);
  });
});

describe("nonlinearFit properties", () => {
  test.prop(
    [fc.integer({ min: 1, max: 1e6 }), fc.double({ min: 0.1, max: 0.6, noNaN: true }), fc.double({ min: 0.3, max: 3, noNaN: true })],
    {
      numRuns: 30,
    },
  )("finds one minimum from starts far apart", (seed, c, b) => {
    const data = noisy(seed, [1, b, c], 0.01);
    const near = nonlinearFit(decay(data, [[1, b, c]]));
    const far = nonlinearFit(decay(data, [[50, -20, 2]]));
    expect(far.residualSum / near.residualSum).toBeCloseTo(1, 8);
    near.parameters.forEach((value, j) => void expect(far.parameters[j]! / value).toBeCloseTo(1, 4));
  });

  test.prop([fc.integer({ min: 1, max: 1e6 }), fc.integer({ min: -6, max: 6 })], { numRuns: 20 })(
    "does not depend on the unit of the data",
    (seed, power) => {
      const data = noisy(seed);
      const scale = 10 ** power;
      const one = nonlinearFit(decay(data, [[1, 1, 1]]));
      const other = nonlinearFit(
        decay(
          data.map((v) => v * scale),
          [[scale, scale, 1]],
        ),
      );
      expect(other.parameters[0]! / scale / one.parameters[0]!).toBeCloseTo(1, 6);
      expect(other.parameters[2]! / one.parameters[2]!).toBeCloseTo(1, 6);
      expect(other.standardErrors[2]! / one.standardErrors[2]!).toBeCloseTo(1, 5);
    },
  );

  it("counts every call of the model, restarts and trial points included, and keeps below the limit", () => {
    let values = 0;
    let derivatives = 0;
    const plain = decay(noisy(7), [[1, 1, 1]]);
    const counting: FitProblem = {
      ...plain,
      evaluate: (parameters, out) => {
        values++;
        plain.evaluate(parameters, out);
      },
      differentiate: (parameters, out) => {
        derivatives++;
        plain.differentiate(parameters, out);
      },
    };
    for (const maxEvaluations of [60, 100, 2000]) {
      values = 0;
      derivatives = 0;
      const found = nonlinearFit(counting, { maxEvaluations });
      expect(found.evaluations).toBe(values);
      expect(found.differentiations).toBe(derivatives);
      expect(found.evaluations).toBeLessThanOrEqual(maxEvaluations);
      expect(found.converged).toBe(true);
    }
  });

  it("stops when as many searches agree as asked for", () => {
    const one = nonlinearFit(decay(noisy(7), [[1, 1, 1]]), { agreeing: 1 });
    expect(one).toMatchObject({ starts: 1, startsReachingBest: 1 });
    const five = nonlinearFit(decay(noisy(7), [[1, 1, 1]]), { agreeing: 5 });
    expect(five.startsReachingBest).toBe(5);
    expect(five.evaluations).toBeGreaterThan(one.evaluations);
  });

  it("leaves a minimum that is only local", () => {
    // a wave with the wrong frequency as its start: minima lie side by side
    const x = Array.from({ length: 60 }, (_, i) => i / 10);
    const found = nonlinearFit({
      data: x.map((t) => Math.sin(4 * t)),
      starts: [[0.9, 2]],
      evaluate: ([a, w], values) => {
        for (const [i, t] of x.entries()) values[i] = a! * Math.sin(w! * t);
      },
      differentiate: ([a, w], jacobian) => {
        for (const [i, t] of x.entries()) {
          jacobian[i] = Math.sin(w! * t);
          jacobian[60 + i] = a! * t * Math.cos(w! * t);
        }
      },
    });
    expect(found.parameters[1]).toBeCloseTo(4, 9);
    expect(found.parameters[0]).toBeCloseTo(1, 9);
  });

  it("keeps within bounds and says nothing of the error of a parameter that lies on one", () => {
    const found = nonlinearFit(decay(noisy(3), [[1.5, 1, 1]], { lower: [1.4, -9, 0], upper: [3, 9, 9] }));
    expect(found.parameters[0]).toBe(1.4);
    expect(found.standardErrors[0]).toBeNull();
    expect(found.covariance[0]).toEqual([null, null, null]);
    expect(found.standardErrors[2]).toBeGreaterThan(0);
    expect(found).toMatchObject({ rank: 2, free: 2, converged: true });
  });

  it("reports parameters that the data cannot tell apart, and keeps the error of the others", () => {
    // y = (p + q) + r x: only the sum of p and q has an effect
    const data = [1.1, 2.9, 5.2, 6.8, 9.3, 10.7];
    const found = nonlinearFit({
      data,
      starts: [[1, 1, 1]],
      evaluate: ([p, q, r], values) => {
        for (let i = 0; i < 6; i++) values[i] = p! + q! + r! * i;
      },
      differentiate: (_, jacobian) => {
        jacobian.fill(1);
        for (let i = 0; i < 6; i++) jacobian[12 + i] = i;
      },
    });
    const known = linearRegression([data.map((_, i) => i)], data)!;
    expect(found).toMatchObject({ rank: 2, free: 3 });
    expect(found.standardErrors.slice(0, 2)).toEqual([null, null]);
    // one degree of freedom fewer is left than in the regression
    expect(found.standardErrors[2]! * Math.sqrt(3 / 4)).toBeCloseTo(known.standardErrors[1]!, 10);
    expect(found.covariance.flat().every((value) => value === null)).toBe(true);
  });

  it("finds its way back from a start where the model is not finite", () => {
    const plain = decay(noisy(5), [[1, 1, 20]]);
    const broken: FitProblem = {
      ...plain,
      evaluate: (parameters, values) => (parameters[2]! < 8 ? plain.evaluate(parameters, values) : void values.fill(Number.NaN)),
    };
    const found = nonlinearFit(broken);
    const near = nonlinearFit(decay(noisy(5), [[1, 2, 0.3]]));
    expect(found.converged).toBe(true);
    expect(found.residualSum / near.residualSum).toBeCloseTo(1, 9);
    const nowhere = nonlinearFit({ ...decay(noisy(5), [[1, 1, 1]]), evaluate: (_, values) => void values.fill(Number.NaN) });
    expect(nowhere).toMatchObject({ converged: false, reason: "notFinite" });
    expect(nowhere.standardErrors.every((value) => value === null)).toBe(true);
  });

  it("changes neither starts nor data", () => {
    const data = Object.freeze(noisy(2)) as number[];
    const start = Object.freeze([1, 1, 1]) as number[];
    expect(nonlinearFit(decay(data, Object.freeze([start]) as number[][]))).toEqual(nonlinearFit(decay(data, [start])));
  });
});
