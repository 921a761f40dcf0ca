// The rounds of a robust fit, told apart by a solver that counts its calls, and what its weights and its covariance are.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { curveColumns } from "../../../src/learning/curve/columns.js";
import { ERROR_LAWS } from "../../../src/learning/curve/error-law.js";
import { bisquareSlope, robustFit } from "../../../src/learning/curve/robust-fit.js";
import { sandwich } from "../../../src/learning/curve/sandwich.js";
import type { BestSolution } from "../../../src/learning/curve/solver.js";
import { fitLearningCurve } from "../../../src/learning/fit-learning-curve.js";

/** A robust mean of the values: a weighted mean for a solver. Searches may be told to drift, so that weights never settle. */
function robustMean(values: readonly number[], drift = 0, converged = true) {
  let [bests, froms] = [0, 0];
  const all: Float64Array[] = [];
  const n = values.length;
  const solved = (shares: Float64Array): BestSolution => {
    const weight = shares.reduce((sum, share) => sum + share, 0);
    const calls = bests + froms;
    return {
      parameters: Float64Array.of(shares.reduce((sum, share, i) => sum + share * values[i]!, 0) / weight + (calls % 2) * drift),
      residualSum: calls,
      converged,
      reason: `call ${calls}`,
      iterations: 10,
      starts: 4,
      startsReachingBest: 2,
    };
  };
  const found = robustFit({
    n,
    lower: new Float64Array(1),
    upper: new Float64Array(1),
    residuals: ([mean]) => Float64Array.from(values, (v) => v - mean!),
    solverFor: (shares) => {
      const own = shares.slice();
      all.push(own);
      return {
        best: () => {
          bests++;
          return solved(own);
        },
        from: () => {
          froms++;
          return solved(own);
        },
      };
    },
  });
  return { found, bests, froms, shares: all };
}

const VALUES = [1, 1.2, 0.9, 1.1, 1.05, 0.95, 4, 1.3];
const weightOf = (u: number): number => (u < 4.685 ? (1 - (u / 4.685) ** 2) ** 2 : 0);
const median = (list: readonly number[]): number => {
  const sorted = list.slice().sort((a, b) => a - b);
  return (sorted[(sorted.length - 1) >> 1]! + sorted[sorted.length >> 1]!) / 2;
};

describe("a robust fit", () => {
  const { found, bests, froms, shares } = robustMean(VALUES);
  const [mean] = found.solution.parameters;

  // Source: the equations that it must solve (Huber 1964, Beaton and Tukey 1974, recalled): the bisquare-weighted residuals sum to 0, with the scale held at that
  // of Huber's mean, 1.4826 times the median absolute residual
  it("solves its equations", () => {
    expect(VALUES.reduce((sum, v, i) => sum + found.weights[i]! * (v - mean!), 0)).toBeCloseTo(0, 8);
    VALUES.forEach((v, i) => {
      expect(found.weights[i]).toBeCloseTo(weightOf(Math.abs(v - mean!) / found.scale), 8);
    });
    // Huber's mean by its own equation, by bisection
    let [low, high] = [0.9, 2];
    const scaleAt = (at: number) => 1.4826022185056018 * median(VALUES.map((v) => Math.abs(v - at)));
    const pull = (at: number) => VALUES.reduce((sum, v) => sum + Math.max(-1.345, Math.min(1.345, (v - at) / scaleAt(at))), 0);
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (pull(middle) > 0) low = middle;
      else high = middle;
    }
    expect(found.scale).toBeCloseTo(scaleAt(low), 7);
    expect(found.weights[6]).toBe(0);
  });
  // Source: the docstring: plain least squares, then three rounds that search everywhere, and from the last place after them; all looks are counted
  it("searches everywhere four times, and goes on from there", () => {
    expect(bests).toBe(4);
    expect(froms).toBeGreaterThan(3);
    expect([...shares[0]!]).toEqual(VALUES.map(() => 1));
    expect(found.solution).toMatchObject({
      converged: true,
      reason: `call ${bests + froms}`,
      residualSum: bests + froms,
      iterations: 10 * (bests + froms),
      starts: 4,
      startsReachingBest: 2,
    });
  });
  // Source: by hand: the first weights are Huber's, 1 up to 1.345 scales and then 1.345 over the distance, about the plain mean
  it("begins with Huber's weights about least squares", () => {
    const plain = VALUES.reduce((sum, v) => sum + v, 0) / 8;
    const scale = 1.4826022185056018 * median(VALUES.map((v) => Math.abs(v - plain)));
    expect([...shares[1]!]).toEqual(VALUES.map((v) => expect.closeTo(Math.min(1, (1.345 * scale) / Math.abs(v - plain)), 9)));
  });
  it("gives up after 200 rounds of each kind, and says so", () => {
    const wandering = robustMean(VALUES, 0.5);
    expect([wandering.bests, wandering.froms]).toEqual([4, 397]);
    expect(wandering.found.solution).toMatchObject({ converged: false, reason: "iterations", iterations: 4010 });
  });
  it("has not settled where its last search has not", () =>
    expect(robustMean(VALUES, 0, false).found.solution).toMatchObject({ converged: false, reason: expect.stringContaining("call") }));
  // Source: the docstring of the scale: where more than half of the residuals vanish, their mean size; where all do, no scale and full weights
  it("has a scale where most values agree, and none where all do", () => {
    const most = robustMean([2, 2, 2, 2, 2, 2, 9]).found;
    expect(most.scale).toBeGreaterThan(0);
    expect(Number.isFinite(most.solution.parameters[0]!)).toBe(true);
    const all = robustMean([2, 2, 2, 2]).found;
    expect(all).toMatchObject({ scale: 0, weights: Float64Array.of(1, 1, 1, 1), solution: { converged: true } });
  });
});

describe("the bisquare", () => {
  // Source: central differences of the pull u (1 - (u/4.685)^2)^2, 0 from 4.685 on
  test.prop([fc.double({ min: -7, max: 7, noNaN: true })])("has the slope of its pull", (u) => {
    const pull = (at: number) => at * weightOf(Math.abs(at));
    if (Math.abs(Math.abs(u) - 4.685) < 1e-3) return;
    expect(bisquareSlope(u)).toBeCloseTo((pull(u + 1e-5) - pull(u - 1e-5)) / 2e-5, 7);
  });
});

describe("the covariance of a robust fit", () => {
  // Source: written out for a mean (Huber 1981, recalled): residuals by their weights, each over 1 less its leverage 1/n, squared, summed, over n^2, over the squared
  // mean slope of the pull
  it("is that of the pulls", () => {
    const weights = Float64Array.of(1, 0.5, 0.25, 0.8);
    const value = [1, 2, 4, -1];
    const columns = curveColumns("test", { practice: [1, 2, 3, 4], value });
    const rest = value.map((v) => v - 1.2);
    const robust = { weights, scale: 0.7, solution: undefined as never };
    const found = sandwich(columns, ERROR_LAWS.normal, new Float64Array(4).fill(1.2), new Float64Array(4).fill(1), [[0.25]], [0], robust);
    const slope = rest.reduce((sum, r) => sum + bisquareSlope(r / 0.7) / 4, 0);
    const squares = rest.reduce((sum, r, i) => sum + ((weights[i]! * r) / 0.75) ** 2, 0);
    expect(found).toEqual([[expect.closeTo((0.25 * squares * 0.25) / slope ** 2, 12)]]);
    const still = sandwich(columns, ERROR_LAWS.normal, new Float64Array(4).fill(1.2), new Float64Array(4).fill(1), [[0.25]], [0], {
      ...robust,
      scale: 0,
    });
    // without a scale every pull is whole
    expect(still).toEqual([[expect.closeTo(0.0625 * squares, 12)]]);
  });
  // Source: matrices written out for a line: B S B/slope^2, B the inverse of X'X, S the sum of the squared pulls times x x', leverage x' B x at most 0.9
  it("is that of two parameters, with weights of trials", () => {
    const x = [0, 1, 2, 9];
    const trials = [1, 2, 1, 1];
    const value = [1, 3, 2, 8];
    const columns = curveColumns("test", { practice: [1, 2, 3, 4], value, trials });
    const [sw, sx, sxx] = [0, 1, 2].map((power) => x.reduce((sum, v, i) => sum + trials[i]! * v ** power, 0)) as [number, number, number];
    const det = sw * sxx - sx * sx;
    const bread = [
      [sxx / det, -sx / det],
      [-sx / det, sw / det],
    ] as const;
    const fitted = x.map((v) => 1 + 0.7 * v);
    const weights = Float64Array.of(1, 0.6, 0.9, 0.3);
    const tilts = Float64Array.from([1, 1, 1, 1, ...x]);
    const found = sandwich(columns, ERROR_LAWS.normal, Float64Array.from(fitted), tilts, bread, [0, 1], {
      weights,
      scale: 0.8,
      solution: undefined as never,
    });
    const filling = [
      [0, 0],
      [0, 0],
    ];
    let slope = 0;
    x.forEach((v, i) => {
      const row = [1, v];
      const residual = Math.sqrt(trials[i]!) * (value[i]! - fitted[i]!);
      slope += bisquareSlope(residual / 0.8) / 4;
      const leverage = trials[i]! * (bread[0][0] + 2 * v * bread[0][1] + v * v * bread[1][1]);
      const square = trials[i]! * ((weights[i]! * residual) / (1 - Math.min(0.9, leverage))) ** 2;
      for (let a = 0; a < 2; a++) for (let b = 0; b < 2; b++) filling[a]![b]! += square * row[a]! * row[b]!;
    });
    const entry = (a: number, b: number): number => {
      let sum = 0;
      for (let k = 0; k < 2; k++) for (let m = 0; m < 2; m++) sum += bread[a]![k]! * filling[k]![m]! * bread[m]![b]!;
      return sum / slope ** 2;
    };
    expect(found).toEqual([0, 1].map((a) => [0, 1].map((b) => expect.closeTo(entry(a, b), 10))));
  });
});

describe("a robust fit in its report", () => {
  // Source: a search that searches everywhere once only may be caught by what a first fit drew far off; the bisquare's weights are those of the residuals it shows
  it("has the weights of its own residuals", () => {
    const value = [1.284, 1.147, 1.064, 0.993, 0.937, 0.86, 1.3, 0.757, 0.756, 0.748, 0.7, 0.653, 0.644, 0.984, 0.647, 0.6];
    const trials = value.map((_, i) => 1 + (i % 3));
    const { robust, residuals, quality } = fitLearningCurve({ practice: value.map((_, i) => i + 1), value, trials }, { robust: true });
    robust!.weights.forEach((weight, i) => {
      expect(weight).toBeCloseTo(weightOf(Math.abs(residuals[i]! * Math.sqrt(trials[i]!)) / robust!.scale), 6);
    });
    expect(quality!.residualSd).toBe(robust!.scale);
    expect(quality!.residualSum).toBeCloseTo(
      residuals.reduce((sum, rest, i) => sum + trials[i]! * rest * rest, 0),
      10,
    );
  });
});
