import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { fQuantile, fTail } from "../../src/math/f-distribution.js";
import { studentQuantile } from "../../src/math/student-quantile.js";
import { studentTail } from "../../src/math/student-tail.js";

const degrees = fc.integer({ min: 1, max: 400 }).map((k) => k / 2);
const share = fc.integer({ min: 1, max: 999 }).map((k) => k / 1000);
/** Whether two numbers agree to a share of 1e-11: SciPy's own last digits, and those of two routes through the beta function. */
const same = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-11 * Math.abs(b);

describe("fTail and fQuantile against outside values", () => {
  // Source: SciPy 1.17.1 stats.f.sf, computed
  it.each([
    [0.5, 2, 10, 0.6209213230591552],
    [1.5784505892965246, 2, 18, 0.2335522353028895],
    [3, 1, 7, 0.12687036692367099],
    [8.78, 5, 20, 0.0001549568400996686],
    [120, 2, 38, 3.7934748862861876e-17],
    [0.01, 3, 4, 0.9984014721769673],
    [4.2, 2, 13.001, 0.03916690590711257],
    [1, 1000, 1000, 0.5],
    [1.2, 2, 1e6, 0.30119464563148557],
    [40, 0.5, 2.5, 0.014527321409645291],
  ])("the tail beyond %d on (%d, %d) degrees of freedom is that of SciPy", (f, df1, df2, expected) => {
    expect(same(fTail(f, df1, df2), expected)).toBe(true);
  });
  // Source: SciPy 1.17.1 stats.f.ppf, computed
  it.each([
    [0.95, 2, 10, 4.1028210151304],
    [0.5, 2, 18, 0.7205376500307554],
    [0.9, 3, 17, 2.4374339145798434],
    [0.025, 40, 40, 0.5332771964998921],
    [0.975, 5, 1.5, 108.86605229474618],
    [0.999, 2, 4, 61.245553203367564],
    [1e-8, 3, 8, 3.53121195827439e-6],
    [0.95, 2, 1e6, 2.995741247983768],
    [0.95, 1000, 1000, 1.1096882902429868],
    [0.99, 0.5, 2.5, 55.060228235402136],
  ])("the quantile at %d on (%d, %d) degrees of freedom is that of SciPy", (p, df1, df2, expected) => {
    expect(same(fQuantile(p, df1, df2), expected)).toBe(true);
  });
  // Source: closed form. With 2 degrees of freedom above, the tail is (1 + 2 f/df)^(-df/2).
  test.prop([degrees, share])("is a power where the numerator has two degrees of freedom", (df, f) => {
    expect(same(fTail(9 * f, 2, df), (1 + (18 * f) / df) ** (-df / 2))).toBe(true);
  });
  // Source: SciPy 1.17.1 2 stats.t.sf, computed
  it.each([
    [0, 5, 1],
    [-1.3, 3.7, 0.2686667241726275],
    [8, 40, 7.905084110104538e-10],
    [0.001, 2, 0.9992928933955901],
  ])("both tails of Student's t beyond %d with %d degrees of freedom are those of SciPy", (t, df, expected) => {
    expect(same(studentTail(t, df), expected)).toBe(true);
  });
});

describe("fTail and fQuantile properties", () => {
  test.prop([share, degrees, degrees])("are each other's reverse", (p, df1, df2) => {
    expect(Math.abs(1 - fTail(fQuantile(p, df1, df2), df1, df2) - p)).toBeLessThan(1e-11);
  });
  test.prop([share, degrees, degrees])("turn over with the two degrees of freedom", (p, df1, df2) => {
    expect(fQuantile(p, df1, df2) * fQuantile(1 - p, df2, df1)).toBeCloseTo(1, 9);
  });
  test.prop([share, degrees])("agree with the quantile of Student's t", (p, df) => {
    const t = studentQuantile(p, df);
    expect(Math.abs(studentTail(t, df) - 2 * Math.min(p, 1 - p))).toBeLessThan(1e-11);
  });
});

describe("fTail and fQuantile at the edges", () => {
  it("give the whole distribution at 0 and nothing at infinity", () => {
    expect([fTail(0, 2, 9), fTail(-1, 2, 9), fTail(Number.POSITIVE_INFINITY, 2, 9)]).toEqual([1, 1, 0]);
    expect([fQuantile(0, 2, 9), fQuantile(1, 2, 9)]).toEqual([0, Number.POSITIVE_INFINITY]);
  });
});
