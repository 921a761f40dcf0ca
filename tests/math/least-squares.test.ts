import { derivative, type EvalFunction, parse } from "mathjs";
import { describe, expect, it } from "vitest";
import { type LeastSquaresOptions, type LeastSquaresProblem, type LeastSquaresResult, leastSquares } from "../../src/math/least-squares.js";
import { type ReferenceCase, readReference, SHARED_ABSENT } from "../shared.js";

/** Fits a model written as text, differentiated by mathjs. */
function fitText(c: ReferenceCase, start: number[], options: LeastSquaresOptions = {}): LeastSquaresResult {
  const model = parse(c.params.model);
  const names = start.map((_, j) => `b${j + 1}`);
  const value = model.compile();
  const slopes = names.map((name) => derivative(model, name).compile());
  const at = (f: EvalFunction, parameters: Float64Array, x: number): number => {
    const scope: Record<string, number> = { x };
    for (const [j, name] of names.entries()) scope[name] = parameters[j]!;
    const got = f.evaluate(scope);
    return typeof got === "number" ? got : Number.NaN;
  };
  const { x, y } = c.input as { x: number[]; y: number[] };
  return leastSquares(
    {
      start,
      size: x.length,
      evaluate: (parameters, residuals) => {
        for (let i = 0; i < x.length; i++) residuals[i] = at(value, parameters, x[i]!) - y[i]!;
      },
      differentiate: (parameters, _residuals, jacobian) => {
        for (let i = 0; i < x.length; i++) {
          for (let j = 0; j < start.length; j++) jacobian[j * x.length + i] = at(slopes[j]!, parameters, x[i]!);
        }
      },
    },
    options,
  );
}

const table = readReference("learning/nist-nonlinear.json");

describe.skipIf(table === undefined)(
  `leastSquares against outside values (${table === undefined ? SHARED_ABSENT : "certified problems"})`,
  () => {
    // Source: NIST StRD nonlinear regression, certified values; learning/nist-nonlinear.json. 1e-6 relative from the near start, 1e-4 for
    // Lanczos1, as the table says; the residual sum to 1e-8, except Lanczos1, whose certified sum is below rounding.
    for (const c of table?.cases ?? []) {
      it(`reaches the certified values of ${c.name} from the near start`, () => {
        // what is left of Lanczos1 is rounding, in which no slope means anything
        const exactBelow = 1e-26 * c.input.y.reduce((sum: number, v: number) => sum + v * v, 0);
        const found = fitText(c, c.params.start2, { maxIterations: 1000, exactBelow });
        expect(found.converged).toBe(true);
        c.expected.parameters.forEach((expected: number, j: number) => {
          expect(Math.abs(found.parameters[j]! / expected - 1)).toBeLessThan(c.tolerance.rel);
        });
        if (c.name !== "Lanczos1") expect(Math.abs(found.residualSum / c.expected.rss - 1)).toBeLessThan(1e-8);
      });
    }

    // Source: the same. From the far starts of BoxBOD and MGH10 damped steps are known to end on a plateau (the table's own note).
    it("reaches all but two of them from the far start, and says that it is stuck in those", () => {
      const missed = table!.cases.flatMap((c) => {
        const { parameters, reason } = fitText(c, c.params.start1, { maxIterations: 1000 });
        const reached = c.expected.parameters.every((v: number, j: number) => Math.abs(parameters[j]! / v - 1) <= c.tolerance.rel);
        return reached ? [] : [`${c.name}: ${reason}`];
      });
      expect(missed).toEqual(["BoxBOD: stuck", "MGH10: stuck"]);
    });
  },
);

/** y = a exp(-b x) at five points, exact. */
const decay = (a: number, b: number, scale = 1): LeastSquaresProblem => ({
  start: [scale, 0.1],
  size: 5,
  evaluate: ([p, q], residuals) => {
    for (let i = 0; i < 5; i++) residuals[i] = p! * Math.exp(-q! * i) - scale * a * Math.exp(-b * i);
  },
  differentiate: ([p, q], _residuals, jacobian) => {
    for (let i = 0; i < 5; i++) {
      jacobian[i] = Math.exp(-q! * i);
      jacobian[5 + i] = -p! * i * Math.exp(-q! * i);
    }
  },
});

describe("leastSquares properties", () => {
  it("finds exact parameters, and stops there when told what counts as exact", () => {
    const found = leastSquares(decay(3, 0.7));
    expect(found.parameters[0]).toBeCloseTo(3, 9);
    expect(found.parameters[1]).toBeCloseTo(0.7, 9);
    expect(leastSquares(decay(3, 0.7), { exactBelow: 1e-12 }).reason).toBe("exact");
  });

  it("stops the same way in any unit of the data", () => {
    const small = leastSquares(decay(3, 0.7, 1e-6));
    const large = leastSquares(decay(3, 0.7, 1e6));
    expect(small.iterations).toBe(large.iterations);
    expect(small.reason).toBe(large.reason);
    expect(small.parameters[1]).toBeCloseTo(large.parameters[1]!, 12);
  });

  // Source: closed form. The nearest point to (3, -2) in the box is (1, 0); to a slanted valley, checked by the zero of the free gradient.
  it("ends on a bound when the minimum lies beyond it", () => {
    const box = leastSquares({
      start: [0.5, 0.5],
      lower: [0, 0],
      upper: [1, 1],
      size: 2,
      evaluate: ([p, q], residuals) => {
        residuals[0] = p! - 3;
        residuals[1] = q! + 2;
      },
      differentiate: (_parameters, _residuals, jacobian) => jacobian.set([1, 0, 0, 1]),
    });
    expect([...box.parameters]).toEqual([1, 0]);
    expect(box.converged).toBe(true);
  });

  it("moves along a bound to the best point on it", () => {
    // residuals p + q - 4 and p - q with p <= 1: on the bound (q - 3)^2 + (1 - q)^2 is least at q = 2
    const found = leastSquares({
      start: [0, 0],
      upper: [1, 10],
      size: 2,
      evaluate: ([p, q], residuals) => {
        residuals[0] = p! + q! - 4;
        residuals[1] = p! - q!;
      },
      differentiate: (_parameters, _residuals, jacobian) => jacobian.set([1, 1, 1, -1]),
    });
    expect(found.parameters[0]).toBe(1);
    expect(found.parameters[1]).toBeCloseTo(2, 9);
  });

  it("puts a start outside the bounds at the nearest bound and ignores a parameter without effect", () => {
    const found = leastSquares({
      start: [9, 5],
      lower: [0, 0],
      upper: [4, 7],
      size: 1,
      evaluate: ([p], residuals) => {
        residuals[0] = p! - 2;
      },
      differentiate: (_parameters, _residuals, jacobian) => jacobian.set([1, 0]),
    });
    expect(found.parameters[0]).toBeCloseTo(2, 9);
    expect(found.parameters[1]).toBe(5);
  });

  it("leaves its start as it was", () => {
    const start = Object.freeze([1, 0.1]);
    leastSquares({ ...decay(3, 0.7), start });
    expect(start).toEqual([1, 0.1]);
  });
});

describe("leastSquares that cannot settle", () => {
  it("says so when the iterations run out", () => {
    expect(leastSquares(decay(3, 0.7), { maxIterations: 2 })).toMatchObject({ converged: false, reason: "iterations", iterations: 2 });
  });

  it("says so when the start is not finite", () => {
    const nowhere = { ...decay(3, 0.7), evaluate: (_: Float64Array, residuals: Float64Array) => void residuals.fill(Number.NaN) };
    expect(leastSquares(nowhere)).toMatchObject({ converged: false, reason: "notFinite", iterations: 0 });
  });

  it("does not follow a derivative that points the wrong way", () => {
    const wrong: LeastSquaresProblem = {
      start: [1],
      size: 1,
      evaluate: ([p], residuals) => {
        residuals[0] = p! + 1;
      },
      differentiate: (_parameters, _residuals, jacobian) => jacobian.set([-1]),
    };
    expect(leastSquares(wrong)).toMatchObject({ parameters: Float64Array.of(1), converged: false, reason: "stuck" });
  });
});
