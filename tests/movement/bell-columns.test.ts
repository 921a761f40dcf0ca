import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type BellKind, fillBell, fillBellDerivatives, PARAMETERS_OF } from "../../src/movement/bell/bell-columns.js";

const grid = { step: 0.004, weights: Float64Array.from({ length: 150 }, (_, i) => 1 + 0.5 * Math.sin(i)) };

const column = (kind: BellKind, parameters: ArrayLike<number>): Float64Array => {
  const filled = new Float64Array(grid.weights.length).fill(9);
  fillBell(kind, Float64Array.from(parameters), 0, grid, filled);
  return filled;
};

const parameters = fc.tuple(
  fc.double({ min: -0.05, max: 0.4, noNaN: true }),
  fc.double({ min: 0.08, max: 0.5, noNaN: true }),
  fc.double({ min: -0.8, max: 0.8, noNaN: true }),
  fc.double({ min: 0.5, max: 1.1, noNaN: true }),
);

describe("bell columns against outside values", () => {
  // Source: closed form, the area under a bell is its amplitude. The trapezoid rule on a bell whose third derivative jumps errs by about (step/duration)^4.
  it("hold a bell of unit area", () => {
    const even = { step: 0.001, weights: new Float64Array(500).fill(1) };
    const bell = new Float64Array(500);
    fillBell("minimumJerk", Float64Array.of(0.0503, 0.3), 0, even, bell);
    expect(bell.reduce((sum, v) => sum + v, 0) * 0.001).toBeCloseTo(1, 6);
    fillBell("lognormal", Float64Array.of(0.0503, 0.3, -0.4, 0.7), 0, even, bell);
    expect(bell.reduce((sum, v) => sum + v, 0) * 0.001).toBeCloseTo(1, 6);
  });
});

describe("bell columns properties", () => {
  for (const kind of ["minimumJerk", "lognormal"] as const) {
    test.prop([parameters])(`have the derivatives of the ${kind} bell`, (drawn) => {
      const at = drawn.slice(0, PARAMETERS_OF[kind]);
      const derivatives = at.map(() => new Float64Array(grid.weights.length).fill(9));
      fillBellDerivatives(kind, Float64Array.from(at), 0, grid, derivatives);
      at.forEach((_, q) => {
        const h = 1e-6;
        const up = column(
          kind,
          at.map((v, j) => v + (j === q ? h : 0)),
        );
        const down = column(
          kind,
          at.map((v, j) => v - (j === q ? h : 0)),
        );
        const largest = Math.max(...derivatives[q]!.map(Math.abs), 1);
        // second derivatives jump where a bell begins, so that a difference across it errs by their size times h
        for (let i = 0; i < up.length; i++) {
          expect(Math.abs((up[i]! - down[i]!) / (2 * h) - derivatives[q]![i]!)).toBeLessThan(1e-3 * largest);
        }
      });
    });
  }

  it("begin where they are told to in a list of parameters", () => {
    const both = new Float64Array(grid.weights.length);
    fillBell("minimumJerk", Float64Array.of(7, 7, 0.1, 0.2), 2, grid, both);
    expect(both).toEqual(column("minimumJerk", [0.1, 0.2]));
  });
});
