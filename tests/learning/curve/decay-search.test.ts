// The parts of the search for one rate, each against sums and slopes worked out in another way.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { coarseDecay, type DecayStart } from "../../../src/learning/curve/coarse-decay.js";
import { curveColumns } from "../../../src/learning/curve/columns.js";
import { inverseInformation } from "../../../src/learning/curve/curve-covariance.js";
import { curveModel } from "../../../src/learning/curve/curve-model.js";
import { evenStep, fillBasis } from "../../../src/learning/curve/decay-basis.js";
import { createDecayPoint, type DecayData, type DecayPoint, decayData, lookAt } from "../../../src/learning/curve/decay-point.js";
import { decaySolver } from "../../../src/learning/curve/decay-solver.js";
import { refineDecay } from "../../../src/learning/curve/refine-decay.js";
import { mostThinned, thinDecay } from "../../../src/learning/curve/thin-decay.js";
import { linearRegression } from "../../../src/math/linear-regression.js";
import { createRandom } from "../../../src/math/random.js";

const OPEN = Number.POSITIVE_INFINITY;
const FREE = { lower: Float64Array.of(-OPEN, -OPEN, 0), upper: Float64Array.of(OPEN, OPEN, 20) };
/** Without an asymptote. */
const ENDLESS = { lower: Float64Array.of(0, -OPEN, 0), upper: Float64Array.of(0, OPEN, 20) };
type Bounds = typeof FREE;

/** Values about 2 + 3 exp(-0.4 u) with weights from 0.5 to 3. */
function drawn(seed: number, n = 12, noise = 0.2, rate = 0.4): DecayData {
  const random = createRandom(seed);
  const lag = Float64Array.from({ length: n }, (_, i) => i * 0.75 + (i % 3 === 1 ? 0.2 : 0));
  const value = lag.map((u) => 2 + 3 * Math.exp(-rate * u) + noise * random.normal());
  return decayData(
    lag,
    value,
    lag.map(() => random.uniform(0.5, 3)),
  );
}

const thinned = (data: DecayData): DecayData => thinDecay(data, new Float64Array(3 * mostThinned(data.n)));

const dips = (data: DecayData, { lower, upper }: Bounds): DecayStart[] => coarseDecay(data, lower, upper, new Float64Array(3 * data.n));

function look(data: DecayData, c: number, { lower, upper }: Bounds = FREE): DecayPoint {
  const point = createDecayPoint();
  lookAt(data, c, lower, upper, new Float64Array(data.n), point);
  return point;
}

/** Weighted residual sum of y on columns, by a regression of rooted rows without a further constant. */
function leftOver(data: DecayData, y: Float64Array, columns: readonly Float64Array[]): number {
  const root = data.weight.map(Math.sqrt);
  let rest = y.map((v, i) => v * root[i]!);
  const basis: Float64Array[] = [];
  // Gram and Schmidt, twice for the digits
  for (const column of columns) {
    let own = column.map((v, i) => v * root[i]!);
    for (let pass = 0; pass < 2; pass++) for (const other of basis) own = less(own, other);
    const size = Math.sqrt(dot(own, own));
    basis.push(own.map((v) => v / size));
  }
  for (let pass = 0; pass < 2; pass++) for (const other of basis) rest = less(rest, other);
  return dot(rest, rest);
}
const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, v, i) => sum + v * b[i]!, 0);
const less = (a: Float64Array, unit: Float64Array) => {
  const along = dot(a, unit);
  return a.map((v, i) => v - along * unit[i]!);
};

describe("a look at one rate", () => {
  const seeds = fc.integer({ min: 1, max: 1e9 });
  const rates = fc.double({ min: 0.05, max: 2, noNaN: true });
  const bounds = fc.constantFrom(FREE, ENDLESS);
  // Source: Gram and Schmidt on the rooted columns; slope and curvature by differences of that sum
  test.prop([seeds, rates, bounds], { numRuns: 60 })("has the sum of squares and its two derivatives", (seed, c, given) => {
    const data = drawn(seed);
    const at = (rate: number): number => {
      const g = data.lag.map((u) => Math.exp(-rate * u));
      return leftOver(data, data.value, given === FREE ? [g.map(() => 1), g] : [g]);
    };
    const point = look(data, c, given);
    expect(point.sum / at(c)).toBeCloseTo(1, 9);
    const h = 1e-4 * c;
    const slope = (at(c + h) - at(c - h)) / (2 * h);
    const size = Math.abs(slope) + at(c) * 1e-3;
    expect(Math.abs(point.slope - slope) / size).toBeLessThan(1e-4);
    // the part of the second derivative that never is below 0: the squares of the tilt that constant and basis cannot take up
    const g = data.lag.map((u) => Math.exp(-c * u));
    const tilt = g.map((v, i) => data.lag[i]! * v);
    const plain = 2 * point.b ** 2 * leftOver(data, tilt, given === FREE ? [g.map(() => 1), g] : [g]);
    const step = 1e-2 * c;
    const bend = (-at(c + 2 * step) + 16 * at(c + step) - 30 * at(c) + 16 * at(c - step) - at(c - 2 * step)) / (12 * step * step);
    if (Math.abs(bend - 0.1 * plain) < 0.02 * plain) return;
    const expected = bend > 0.1 * plain ? bend : plain;
    expect(Math.abs(point.curvature - expected)).toBeLessThan(2e-3 * (Math.abs(expected) + plain));
  });
  it("holds a at its bound, and then takes the tilt up by the basis alone", () => {
    const data = drawn(3);
    const held = { lower: Float64Array.of(2.5, -OPEN, 0), upper: Float64Array.of(9, OPEN, 20) };
    const point = look(data, 0.4, held);
    expect(point).toMatchObject({ a: 2.5, aFree: false, bFree: true });
    const shifted = decayData(
      data.lag,
      data.value.map((v) => v - 2.5),
      data.weight,
    );
    const same = look(shifted, 0.4, ENDLESS);
    expect(point.sum).toBeCloseTo(same.sum, 10);
    expect(point.slope).toBeCloseTo(same.slope, 10);
    expect(point.curvature).toBeCloseTo(same.curvature, 10);
  });
  it("has the weights, their mean and the step of its data", () => {
    const data = decayData(Float64Array.of(0, 2, 4), Float64Array.of(1, 5, 9), Float64Array.of(1, 1, 2));
    expect(data).toMatchObject({ n: 3, step: 2, weightSum: 4, meanData: 6 });
  });
});

describe("even steps", () => {
  // Source: by hand
  it("are those of counted sessions and no others", () => {
    const stepOf = (...lags: number[]) => evenStep(Float64Array.from(lags));
    expect(stepOf(0, 1, 2, 3)).toBe(1);
    expect(stepOf(-3, -1, 1)).toBe(2);
    expect(stepOf(0, 1, 2, 4)).toBe(0);
    expect(stepOf(0, 1, 1.5)).toBe(0);
    expect(stepOf(5)).toBe(0);
    expect(stepOf()).toBe(0);
    expect(stepOf(2, 2)).toBe(0);
    expect(stepOf(0.1, 0.2, 0.3)).toBeCloseTo(0.1, 15);
    expect(stepOf(0, 1 + 1e-12, 2)).toBe(0);
  });
  // Source: closed form, Math.exp of every value; each of at most 16 products adds a rounding
  it("have exponentials to rounding, whole blocks and parts of one", () => {
    for (const n of [1, 2, 15, 16, 17, 32, 33, 50]) {
      const lag = Float64Array.from({ length: n }, (_, i) => 3 + 0.5 * i);
      const basis = new Float64Array(n);
      fillBasis(lag, 0.5, 0.3, basis);
      lag.forEach((u, i) => {
        expect(basis[i]! / Math.exp(-0.3 * u)).toBeCloseTo(1, 13);
      });
    }
    const uneven = new Float64Array(3);
    fillBasis(Float64Array.of(0, 1, 5), 0, 0.3, uneven);
    expect([...uneven]).toEqual([1, Math.exp(-0.3), Math.exp(-1.5)]);
  });
});

describe("the coarse look", () => {
  // Source: brute force: the sums at c = 0.05/range times powers of the root of 2, their dips, and the lowest place of the parabola through each dip and its
  // neighbours over ln c; 1e-3 is what two terms of its exponential leave
  test.prop([fc.integer({ min: 1, max: 1e9 }), fc.constantFrom(0.1, 3), fc.constantFrom(FREE, ENDLESS)], { numRuns: 60 })(
    "starts at every dip of the grid",
    (seed, noise, bounds) => {
      const data = drawn(seed, 12, noise);
      const range = data.lag[11]! - data.lag[0]!;
      const grid: number[] = [];
      for (let c = 0.05 / range; c <= 20; c *= Math.SQRT2) grid.push(c);
      const sums = grid.map((c) => look(data, c, bounds).sum);
      const expected = sums.flatMap((sum, k) => {
        const before = sums[k - 1] ?? OPEN;
        const after = sums[k + 1] ?? OPEN;
        if (!(sum < before && sum <= after)) return [];
        const bend = before - 2 * sum + after;
        const shift = Number.isFinite(bend) ? (before - after) / (2 * bend) : 0;
        return [{ c: grid[k]! * Math.SQRT2 ** shift, sum }];
      });
      const found = dips(data, bounds);
      expect(found.length).toBe(expected.length);
      found.forEach(({ c, sum }, i) => {
        expect(Math.abs(c / expected[i]!.c - 1)).toBeLessThan(1e-3);
        expect(sum / expected[i]!.sum).toBeCloseTo(1, 7);
      });
    },
  );
  it("stays within the bounds of the rate, and starts where they are equal", () => {
    const data = drawn(1);
    const starts = (low: number, high: number) =>
      dips(data, { lower: Float64Array.of(-OPEN, -OPEN, low), upper: Float64Array.of(OPEN, OPEN, high) });
    expect(starts(0.7, 0.7)).toEqual([{ c: 0.7, sum: expect.closeTo(look(data, 0.7).sum, 7) }]);
    // rates above the best: the lowest bound is the dip
    expect(starts(2, 9)).toEqual([{ c: 2, sum: expect.closeTo(look(data, 2).sum, 7) }]);
    // below the grid; a column that is all but level costs digits
    expect(starts(1e-6, 1e-5)).toEqual([{ c: 1e-5, sum: expect.closeTo(look(data, 1e-5).sum, 4) }]);
  });
});

describe("the search downhill", () => {
  const search = (data: DecayData, start: number, bounds: Bounds = FREE) => {
    const basis = new Float64Array(data.n);
    const point = createDecayPoint();
    const looks = refineDecay(data, start, bounds.lower, bounds.upper, basis, point);
    return { looks, point, basis };
  };
  // Source: the truth of values without noise; Newton's steps, at most a factor of 4 each, square the error: a dozen looks from anywhere near
  it.each([0.1, 0.3, 0.39, 0.4, 0.5, 1, 1.5])("from %d finds the rate of an exact law in few looks", (start) => {
    const { looks, point, basis } = search(drawn(1, 12, 0), start);
    expect(point.c).toBeCloseTo(0.4, 9);
    expect([point.a, point.b]).toEqual([expect.closeTo(2, 8), expect.closeTo(3, 8)]);
    expect(looks).toBeLessThanOrEqual(12);
    expect(basis[3]).toBeCloseTo(Math.exp(-0.4 * drawn(1).lag[3]!), 8);
  });
  // Source: by hand: of 0.39 a first step leaves about the square of 0.025, 6e-4, a second 4e-7, and what is left after a third step is not looked for
  it("ends with a step that leaves nothing", () => expect(search(drawn(1, 12, 0), 0.39).looks).toBeLessThanOrEqual(4));
  // Source: the meaning of a minimum: no rate nearby has a lower sum, and the slope is none or points out of the bounds
  test.prop([fc.integer({ min: 1, max: 1e9 }), fc.double({ min: 1e-3, max: 19, noNaN: true }), fc.constantFrom(0.1, 1, 5)], {
    numRuns: 150,
  })("ends in a dip or at a bound", (seed, start, noise) => {
    const data = drawn(seed, 14, noise);
    const { looks, point } = search(data, start, { lower: Float64Array.of(-OPEN, -OPEN, 1e-5), upper: FREE.upper });
    const { c, sum } = point;
    expect(looks).toBeLessThan(60);
    expect(c >= 1e-5 && c <= 20).toBe(true);
    expect(sum).toBeLessThanOrEqual(look(data, Math.min(Math.max(start, 1e-5), 20)).sum * (1 + 1e-12));
    for (const near of [c * (1 - 1e-3), c * (1 + 1e-3)]) {
      if (near >= 1e-5 && near <= 20) expect(look(data, near).sum).toBeGreaterThanOrEqual(sum * (1 - 1e-12));
    }
  });
  it("begins within the bounds and stays at one that slopes outward", () => {
    const data = drawn(1, 12, 0.01);
    const within = (low: number, high: number) => ({ lower: Float64Array.of(-OPEN, -OPEN, low), upper: Float64Array.of(OPEN, OPEN, high) });
    expect(search(data, 5, within(0.1, 0.2)).point.c).toBe(0.2);
    expect(search(data, 5, within(0.1, 0.2)).looks).toBe(1);
    expect(search(data, 0.001, within(0.9, 2)).point.c).toBe(0.9);
    expect(search(data, 0.001, within(0.9, 2)).looks).toBe(1);
    expect(search(data, 0.15, within(0.1, 0.2)).point.c).toBe(0.2);
    expect(search(data, 1.5, within(0.9, 2)).point.c).toBe(0.9);
    expect(search(data, 7, within(0.7, 0.7))).toMatchObject({ looks: 1, point: { c: 0.7 } });
  });
});

describe("thinned data", () => {
  const long = (n: number) => drawn(5, n);
  it("are the data themselves up to forty values", () => {
    const forty = long(40);
    expect(thinned(forty)).toBe(forty);
    expect(thinned(long(41)).n).toBeLessThan(41);
  });
  // Source: the docstring: the first twelve one by one, then 24 groups, or 72 from 2000 values on, that grow with practice; totals and means are kept
  it.each([
    [41, 36],
    [100, 36],
    [200, 36],
    [1999, 36],
    [2000, 84],
    [5000, 84],
    [30_000, 84],
  ])("of %d values are at most %d, with the same totals", (n, most) => {
    const data = long(n);
    const thin = thinned(data);
    expect(thin.n).toBeLessThanOrEqual(most);
    expect(thin.n).toBeGreaterThan(0.7 * Math.min(most, n));
    expect(thin.weightSum / data.weightSum).toBeCloseTo(1, 12);
    expect(thin.meanData).toBeCloseTo(data.meanData, 10);
    const moment = ({ lag, weight }: DecayData) => lag.reduce((sum, u, i) => sum + u * weight[i]!, 0);
    expect(moment(thin) / moment(data)).toBeCloseTo(1, 12);
    const product = ({ value, weight }: DecayData) => value.reduce((sum, y, i) => sum + y * weight[i]!, 0);
    expect(product(thin) / product(data)).toBeCloseTo(1, 12);
    for (const column of ["lag", "value", "weight"] as const) {
      expect([...thin[column].slice(0, 12)]).toEqual([...data[column].slice(0, 12)].map((v) => expect.closeTo(v, 12)));
    }
    // groups grow, so that none is much longer than those beside it
    const { lag } = thinned(
      decayData(
        data.lag.map((_, i) => i),
        data.value,
        data.weight,
      ),
    );
    const gaps = Array.from(lag, (at, i) => at - (lag[i - 1] ?? -1));
    expect(gaps.every((gap) => gap > 0)).toBe(true);
    expect(gaps.slice(13).every((gap, i) => gap <= 2.5 * gaps[12 + i]!)).toBe(true);
    const even = thinned(decayData(data.lag, data.value, new Float64Array(n).fill(1)));
    const sizes = [...even.weight.slice(12)];
    // groups grow by one factor, up to rounding to whole values
    expect(sizes.every((size, k) => k === 0 || size >= sizes[k - 1]! - 1)).toBe(true);
    const growth = (n / 12) ** (1 / (most - 12));
    if (n >= 1999) expect(sizes.at(-1)! / sizes.at(-6)!).toBeCloseTo(growth ** 5, 1);
  });
});

describe("what the last look knows of the errors", () => {
  const columns = (from: number) =>
    curveColumns("test", {
      practice: Array.from({ length: 10 }, (_, i) => from + i + (i > 4 ? 2 : 0)),
      value: [5.1, 4.2, 3.4, 3.1, 2.7, 2.4, 2.2, 2.25, 2.1, 2.12],
      trials: [1, 2, 3, 1, 2, 3, 1, 2, 3, 1],
    });
  // Source: the inverse of the information from the derivatives themselves, by Gram and Schmidt (checked against SciPy in fit-learning-curve.test.ts)
  it.each([
    ["exponential3", 1, [0, 1, 2]],
    ["exponential3", 4, [0, 1, 2]],
    ["power3", 1, [0, 1, 2]],
    ["power3", 4, [0, 1, 2]],
    ["exponential2", 1, [1, 2]],
    ["exponential2", 4, [1, 2]],
    ["power2", 4, [1, 2]],
  ] as const)("of %s from practice %d on is the inverse information", (law, from, free) => {
    const given = columns(from);
    const model = curveModel(law);
    const end = law.endsWith("3");
    const solver = decaySolver(given, law.startsWith("power") ? "log" : "steps");
    const { parameters, residualSum, converged, reason } = solver.best(end ? FREE.lower : ENDLESS.lower, end ? FREE.upper : ENDLESS.upper);
    expect([converged, reason]).toEqual([true, "step"]);
    const { fitted, inverse } = solver.summary!(free);
    const values = new Float64Array(10);
    const jacobian = new Float64Array(30);
    model.fill(given.practice, parameters, values, jacobian);
    expect([...fitted]).toEqual([...values].map((v) => expect.closeTo(v, 10)));
    expect(values.reduce((sum, v, i) => sum + given.weight[i]! * (given.value[i]! - v) ** 2, 0)).toBeCloseTo(residualSum, 10);
    const expected = inverseInformation(given, "normal", values, jacobian, free)!;
    expect(inverse).toHaveLength(free.length);
    inverse!.forEach((row, i) => {
      row.forEach((entry, j) => {
        expect(entry / expected[i]![j]!).toBeCloseTo(1, 7);
      });
    });
    // not for fewer parameters than it has sums for
    expect(solver.summary!(free.slice(0, -1)).inverse).toBeUndefined();
  });
  it("is not told where the gain is none", () => {
    const held = { lower: Float64Array.of(-OPEN, 0, 0.1), upper: Float64Array.of(OPEN, 0, 20) };
    const solver = decaySolver(columns(1), "steps");
    solver.best(held.lower, held.upper);
    expect(solver.summary!([0, 1, 2]).inverse).toBeUndefined();
  });
  // Source: a law does not know where practice is counted from: the same bends, with a gain that is exp(c shift) times as large
  it("is found from any first session, however late", () => {
    const best = (from: number, bounds = FREE) => decaySolver(columns(from), "steps").best(bounds.lower, bounds.upper);
    const [near, far] = [best(1), best(1000)];
    expect(far.residualSum / near.residualSum).toBeCloseTo(1, 9);
    expect(far.parameters[2]).toBeCloseTo(near.parameters[2]!, 8);
    expect(Math.log(far.parameters[1]! / near.parameters[1]!)).toBeCloseTo(999 * near.parameters[2]!, 4);
    // with a bound on the gain that is not 0 the law is searched for as it is written
    const bounded = { lower: Float64Array.of(-OPEN, 1, 0), upper: Float64Array.of(OPEN, 50, 20) };
    expect(best(4, bounded).residualSum / near.residualSum).toBeCloseTo(1, 8);
    expect(best(4, bounded).parameters[1]! / best(4).parameters[1]!).toBeCloseTo(1, 6);
    // a gain that may only be one way does not stand in the way of counting from the first session
    const falling = { lower: Float64Array.of(-OPEN, 0, 0), upper: FREE.upper };
    expect(best(1000, falling).residualSum / near.residualSum).toBeCloseTo(1, 9);
    const tight = best(4, { lower: Float64Array.of(-OPEN, 1, 0), upper: Float64Array.of(OPEN, 4, 20) });
    expect(tight.parameters[1]).toBe(4);
  });
  // Source: the values themselves: drawn without any law they have several dips, and the parameters must be those of the lowest
  test.prop([fc.integer({ min: 1, max: 1e9 })], { numRuns: 60 })("comes with the parameters of the lowest dip", (seed) => {
    const random = createRandom(seed);
    const practice = Array.from({ length: 10 }, (_, i) => i + 1);
    const given = curveColumns("test", { practice, value: practice.map(() => random.normal()) });
    const { parameters, residualSum } = decaySolver(given, "steps").best(FREE.lower, FREE.upper);
    const model = curveModel("exponential3");
    const sum = practice.reduce((total, at, i) => total + (given.value[i]! - model.value(at, parameters)) ** 2, 0);
    // a law that is all but straight loses digits to a large a and b of opposite signs
    expect(sum / residualSum).toBeCloseTo(1, 6);
  });
  it("is the regression line's where the rate is held", () => {
    const given = columns(1);
    const solver = decaySolver({ ...given, weight: given.weight.map(() => 1) }, "steps");
    const { parameters, residualSum } = solver.from(
      Float64Array.of(0, 0, 0.3),
      Float64Array.of(-OPEN, -OPEN, 0.3),
      Float64Array.of(OPEN, OPEN, 0.3),
    );
    const line = linearRegression([given.practice.map((at) => Math.exp(-0.3 * (at - 1)))], given.value)!;
    expect(residualSum).toBeCloseTo(line.residualSum, 12);
    expect([...parameters]).toEqual([expect.closeTo(line.coefficients[0]!, 10), expect.closeTo(line.coefficients[1]!, 10), 0.3]);
  });
});
