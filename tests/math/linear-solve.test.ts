import { fc, test } from "@fast-check/vitest";
import { lusolve, multiply, transpose } from "mathjs";
import { describe, expect, it } from "vitest";
import { backSubstitute, triangularize } from "../../src/math/linear-solve.js";

/** The rows as one column after another. */
function byColumn(rows: readonly (readonly number[])[]): Float64Array {
  return Float64Array.from(rows[0]!.flatMap((_, j) => rows.map((row) => row[j]!)));
}

/** Least squares through the two functions: x that makes |A x - b| smallest. */
function solve(rows: number[][], b: number[]): number[] {
  const columns = rows[0]!.length;
  const a = byColumn(rows);
  const side = Float64Array.from(b);
  triangularize(a, rows.length, columns, side);
  const x = new Float64Array(columns);
  backSubstitute(a, rows.length, columns, side, x);
  return [...x];
}

const entry = fc.double({ min: -10, max: 10, noNaN: true });

describe("triangularize and backSubstitute against outside values", () => {
  // Source: closed form, the line through (0, 1), (1, 3), (2, 5) and the mean of three numbers.
  it("solves what can be solved by hand", () => {
    const line = solve(
      [
        [1, 0],
        [1, 1],
        [1, 2],
      ],
      [1, 3, 5],
    );
    expect(line[0]).toBeCloseTo(1, 14);
    expect(line[1]).toBeCloseTo(2, 14);
    expect(solve([[1], [1], [1]], [1, 2, 6])[0]).toBeCloseTo(3, 14);
  });

  test.prop([fc.array(fc.tuple(entry, entry, entry, entry), { minLength: 4, maxLength: 12 })])(
    "gives the solution of the normal equations",
    (drawn) => {
      // a diagonal keeps the system away from singular, where no two methods agree
      const rows = drawn.map(([p, q, r], i) => [p + (i === 0 ? 40 : 0), q + (i === 1 ? 40 : 0), r + (i === 2 ? 40 : 0)]);
      const b = drawn.map((row) => row[3]);
      // Source: mathjs 15.2 lusolve on A'A x = A'b.
      const expected = lusolve(multiply(transpose(rows), rows), multiply(transpose(rows), b)) as number[][];
      for (const [k, value] of solve(rows, b).entries()) expect(Math.abs(value - expected[k]![0]!)).toBeLessThan(1e-9);
    },
  );
});

describe("triangularize and backSubstitute properties", () => {
  test.prop([fc.array(fc.tuple(entry, entry), { minLength: 3, maxLength: 8 })])("keeps every length and angle", (rows) => {
    const a = byColumn(rows);
    const length = (column: number): number => Math.sqrt(rows.reduce((sum, row) => sum + row[column]! ** 2, 0));
    const dot = rows.reduce((sum, row) => sum + row[0] * row[1], 0);
    triangularize(a, rows.length, 2, new Float64Array(rows.length));
    const [across, diagonal] = [a[rows.length]!, a[rows.length + 1]!];
    expect(Math.abs(a[0]!)).toBeCloseTo(length(0), 9);
    expect(Math.sqrt(across ** 2 + diagonal ** 2)).toBeCloseTo(length(1), 9);
    expect(a[0]! * across).toBeCloseTo(dot, 8);
  });

  it("gives nothing to an unknown that the data do not reach", () => {
    expect(
      solve(
        [
          [1, 0],
          [2, 0],
          [3, 0],
        ],
        [2, 4, 6],
      ),
    ).toEqual([expect.closeTo(2, 12), 0]);
    expect(
      solve(
        [
          [1, 1],
          [2, 2],
          [3, 3],
        ],
        [2, 4, 6],
      )[1],
    ).toBe(0);
  });
});
