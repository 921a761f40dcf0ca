import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { leastSquares } from "../../src/math/least-squares.js";
import { type SeparableProblem, type SeparableResult, separableLeastSquares } from "../../src/math/separable-least-squares.js";
import { readReference, SHARED_ABSENT } from "../shared.js";

/** Sums of exp(-rate x), with a constant column in front when asked for; series may share the rates. */
function exponentials(x: ArrayLike<number>, data: Float64Array[], start: number[], constant: boolean): SeparableProblem {
  const first = constant ? 1 : 0;
  return {
    start,
    data,
    columns: start.length + first,
    columnOf: start.map((_, j) => j + first),
    fill: (rates, columns) => {
      for (let i = 0; i < x.length; i++) {
        if (constant) columns[0]![i] = 1;
        for (let j = 0; j < rates.length; j++) columns[j + first]![i] = Math.exp(-rates[j]! * x[i]!);
      }
    },
    differentiate: (rates, derivatives) => {
      for (let i = 0; i < x.length; i++) {
        for (let j = 0; j < rates.length; j++) derivatives[j]![i] = -x[i]! * Math.exp(-rates[j]! * x[i]!);
      }
    },
  };
}

const table = readReference("learning/nist-nonlinear.json");

describe.skipIf(table === undefined)(
  `separableLeastSquares against outside values (${table === undefined ? SHARED_ABSENT : "certified problems"})`,
  () => {
    const solve = (name: string, rates: number[], constant: boolean): { result: SeparableResult; expected: number[]; rss: number } => {
      const c = table!.cases.find((entry) => entry.name === name)!;
      const start = rates.map((j) => c.params.start1[j - 1]);
      const result = separableLeastSquares(exponentials(c.input.x, [Float64Array.from(c.input.y)], start, constant), {
        maxIterations: 1000,
      });
      return { result, expected: c.expected.parameters, rss: c.expected.rss };
    };
    const near = (got: number, expected: number): void => {
      expect(Math.abs(got / expected - 1)).toBeLessThan(1e-6);
    };

    // Source: NIST StRD, certified values of Lanczos3 and MGH17, from the far start of their rates; the coefficients have none. 1e-6 relative.
    it("reaches the certified sum of three exponentials", () => {
      const { result, expected, rss } = solve("Lanczos3", [2, 4, 6], false);
      expect(result.converged).toBe(true);
      for (const k of [0, 1, 2]) {
        near(result.coefficients[0]![k]!, expected[2 * k]!);
        near(result.parameters[k]!, expected[2 * k + 1]!);
      }
      near(result.residualSum, rss);
    });

    it("reaches the certified sum of a constant and two exponentials", () => {
      const { result, expected, rss } = solve("MGH17", [4, 5], true);
      expect(result.converged).toBe(true);
      // the two are alike but for their order
      const order = result.parameters[0]! < result.parameters[1]! ? [0, 1] : [1, 0];
      order.forEach((k, j) => {
        near(result.parameters[k]!, expected[3 + j]!);
        near(result.coefficients[0]![k + 1]!, expected[1 + j]!);
      });
      near(result.coefficients[0]![0]!, expected[0]!);
      near(result.residualSum, rss);
    });
  },
);

describe("separableLeastSquares properties", () => {
  const x = Float64Array.from({ length: 30 }, (_, i) => i / 10);
  const share = fc.double({ min: 0.5, max: 3, noNaN: true });
  const ripple = fc.double({ min: -0.05, max: 0.05, noNaN: true });

  test.prop([share, share, share, share, ripple])("ends where a search over all parameters together ends", (a, b, c, d, wave) => {
    const rates = [0.4, 4];
    const u = x.map((t) => a * Math.exp(-rates[0]! * t) + b * Math.exp(-rates[1]! * t) + wave * Math.sin(5 * t));
    const v = x.map((t) => c * Math.exp(-rates[0]! * t) - d * Math.exp(-rates[1]! * t) + wave * Math.cos(7 * t));
    const split = separableLeastSquares(exponentials(x, [u, v], [0.6, 3], false));
    // second implementation: all six parameters at once, Jacobian by central differences
    const n = x.length;
    const model = (p: Float64Array, residuals: Float64Array): void => {
      for (let i = 0; i < n; i++) {
        const slow = Math.exp(-p[0]! * x[i]!);
        const fast = Math.exp(-p[1]! * x[i]!);
        residuals[i] = p[2]! * slow + p[3]! * fast - u[i]!;
        residuals[n + i] = p[4]! * slow + p[5]! * fast - v[i]!;
      }
    };
    const whole = leastSquares({
      start: [0.6, 3, 1, 1, 1, -1],
      size: 2 * n,
      evaluate: model,
      differentiate: (p, _residuals, jacobian) => {
        const up = new Float64Array(2 * n);
        const down = new Float64Array(2 * n);
        for (let j = 0; j < 6; j++) {
          model(
            Float64Array.from(p, (value, k) => value + (k === j ? 1e-5 : 0)),
            up,
          );
          model(
            Float64Array.from(p, (value, k) => value - (k === j ? 1e-5 : 0)),
            down,
          );
          for (let i = 0; i < 2 * n; i++) jacobian[j * 2 * n + i] = (up[i]! - down[i]!) / 2e-5;
        }
      },
    });
    expect(split.residualSum).toBeLessThanOrEqual(whole.residualSum * (1 + 1e-6) + 1e-12);
    expect(split.parameters[0]).toBeCloseTo(whole.parameters[0]!, 4);
    expect(split.coefficients[0]![1]).toBeCloseTo(whole.parameters[3]!, 3);
    expect(split.coefficients[1]![1]).toBeCloseTo(whole.parameters[5]!, 3);
  });

  test.prop([share])("scales its coefficients with the data and leaves the parameters", (factor) => {
    const u = x.map((t) => 2 * Math.exp(-0.5 * t) + Math.exp(-3 * t) + 0.01 * Math.sin(9 * t));
    const one = separableLeastSquares(exponentials(x, [u], [0.8, 2], false));
    const scaled = separableLeastSquares(exponentials(x, [u.map((value) => factor * value)], [0.8, 2], false));
    expect(scaled.parameters[1]).toBeCloseTo(one.parameters[1]!, 6);
    expect(scaled.coefficients[0]![0]).toBeCloseTo(factor * one.coefficients[0]![0]!, 6);
  });

  it("gives a column that repeats another no coefficient", () => {
    const u = x.map((t) => 2 * Math.exp(-t));
    const { coefficients, residualSum, reason } = separableLeastSquares(exponentials(x, [u], [1, 1], false));
    expect([...coefficients[0]!]).toEqual([expect.closeTo(2, 12), 0]);
    expect(residualSum).toBeLessThan(1e-20);
    expect(reason).toBe("exact");
  });

  it("gives the coefficients of the point it returns, not of the last one tried", () => {
    const u = x.map((t) => 2 * Math.exp(-t) + 0.1 * Math.sin(8 * t));
    const { parameters, coefficients, residualSum } = separableLeastSquares(exponentials(x, [u], [0.2], false));
    const sum = x.reduce((total, t, i) => total + (u[i]! - coefficients[0]![0]! * Math.exp(-parameters[0]! * t)) ** 2, 0);
    expect(sum).toBeCloseTo(residualSum, 12);
  });
});
