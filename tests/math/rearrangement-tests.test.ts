import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { welchSquare } from "../../src/math/permutation-test.js";
import { type Distance, exchangeTest, signFlipTest } from "../../src/math/rearrangement-tests.js";

const meanDistance: Distance = (values, k) => {
  const [one, other] = [values.slice(0, k), values.slice(k)].map((part) => part.reduce((sum, v) => sum + v, 0) / part.length);
  return Math.abs(one! - other!);
};
const sum: Distance = (values) => Math.abs(values.reduce((total, v) => total + v, 0));
const EXACT = { most: 40000, draws: 99, seed: 1 };

describe("exchangeTest against outside values", () => {
  // Source: mouse survival (Efron and Tibshirani 1993, data from memory), all 11440 arrangements by SciPy 1.10.1 permutation_test: 3184 as far apart
  it("counts every division of seven and nine", () => {
    const treated = Float64Array.of(94, 197, 16, 38, 99, 141, 23);
    const control = Float64Array.of(52, 104, 146, 10, 51, 30, 40, 27, 46);
    expect(exchangeTest(treated, control, meanDistance, EXACT)).toEqual({
      p: 3184 / 11440,
      exact: true,
      arrangements: 11440,
      smallestP: 1 / 11440,
    });
  });
  // Source: closed form: 20 divisions of three and three, each twice
  it("cannot fall below one in ten with three against three", () => {
    const found = exchangeTest(Float64Array.of(1, 2, 3), Float64Array.of(11, 12, 14), welchSquare, EXACT);
    expect(found).toEqual({ p: 0.1, exact: true, arrangements: 20, smallestP: 0.1 });
  });
});

describe("signFlipTest against outside values", () => {
  // Source: Darwin's maize (Fisher 1935, data and 863 of 32768 per tail from memory; counted again with NumPy)
  it("counts every turn of fifteen signs", () => {
    const differences = Float64Array.of(49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48);
    expect(signFlipTest(differences, sum, EXACT)).toEqual({ p: 1726 / 32768, exact: true, arrangements: 32768, smallestP: 2 / 32768 });
    const drawn = signFlipTest(differences, sum, { most: 0, draws: 20000, seed: 4 })!;
    expect(drawn.exact).toBe(false);
    expect(Math.abs(drawn.p - 1726 / 32768)).toBeLessThan(2.576 * Math.sqrt(0.0527 / 20000));
  });
});

describe("rearrangement tests properties", () => {
  const column = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 2, maxLength: 5 }).map((list) => Float64Array.from(list));

  test.prop([column, column])("count what a plain listing of the arrangements counts", (one, other) => {
    const all = [...one, ...other];
    const observed = Math.abs(mean([...one]) - mean([...other]));
    let [extreme, total] = [0, 0];
    for (let code = 0; code < 2 ** all.length; code++) {
      const mine = all.filter((_, i) => (code >> i) % 2 === 1);
      if (mine.length !== one.length) continue;
      total++;
      const rest = all.filter((_, i) => (code >> i) % 2 === 0);
      if (Math.abs(mean(mine) - mean(rest)) >= observed - 1e-9) extreme++;
    }
    const found = exchangeTest(one, other, meanDistance, EXACT);
    if (new Set(all).size === 1) expect(found).toBeUndefined();
    // what is the observed difference to within rounding may be counted either way: no difference at all is always the least
    else if (observed > 1e-9) expect([found!.p, found!.arrangements]).toEqual([expect.closeTo(extreme / total, 12), total]);
  });
  test.prop([column])("turn every pattern of signs once", (differences) => {
    const observed = Math.abs(differences.reduce((a, b) => a + b, 0));
    let extreme = 0;
    for (let code = 0; code < 2 ** differences.length; code++) {
      const turned = differences.reduce((total, v, i) => total + ((code >> i) % 2 === 1 ? -v : v), 0);
      if (Math.abs(turned) >= observed - 1e-9) extreme++;
    }
    const copy = differences.slice();
    const found = signFlipTest(differences, sum, EXACT);
    expect(differences).toEqual(copy);
    if (differences.every((v) => v === 0)) expect(found).toBeUndefined();
    else if (observed > 0) expect(found!.p).toBeCloseTo(extreme / 2 ** differences.length, 12);
  });
});

describe("rearrangement tests of random draws against outside values", () => {
  // Source: definition (Phipson and Smyth 2010, recalled): p = (b + 1)/(m + 1) with b of m drawn arrangements as far apart, the observed one being one more
  it.each([1, 9, 99])("makes %d draws and counts the observed arrangement with them", (draws) => {
    const counting = (distance: Distance) => {
      let calls = 0;
      const counted: Distance = (values, k) => {
        calls++;
        return distance(values, k);
      };
      return { counted, calls: () => calls };
    };
    const always = counting(() => 1);
    const how = { most: 0, draws, seed: 1 };
    expect(exchangeTest(Float64Array.of(1, 2, 3), Float64Array.of(4, 6), always.counted, how)).toMatchObject({
      p: 1,
      smallestP: 1 / (draws + 1),
    });
    expect(always.calls()).toBe(draws + 1);
    const signs = counting(() => 1);
    expect(signFlipTest(Float64Array.of(1, 2, 3), signs.counted, how)).toMatchObject({ p: 1, smallestP: 1 / (draws + 1) });
    expect(signs.calls()).toBe(draws + 1);
  });
});

function mean(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0) / values.length;
}
