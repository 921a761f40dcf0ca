import { test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { fitMovementTime } from "../../src/fitts/fit-movement-time.js";
import { throughput } from "../../src/fitts/throughput.js";
import type { PointingTrials } from "../../src/fitts/types.js";
import { changed, joinTrials, reordered, simulateTrials, trialsArb, trueThroughput } from "./simulated-trials.js";

const oneDirection: PointingTrials = {
  amplitude: new Float64Array(12).fill(300),
  width: new Float64Array(12).fill(40),
  movementTime: Float64Array.of(0.612, 0.598, 0.655, 0.587, 0.643, 0.63, 0.601, 0.574, 0.668, 0.621, 0.592, 0.609),
  along: Float64Array.of(4, 6, -11, -9, 12, -2, -3, 11, 5, -7, 18, 1),
};

describe("throughput against outside values", () => {
  // Source: reference table fitts/throughput-iso.json (constructed trials, computed with NumPy by the formulas of ISO 9241-411 as recalled; ten digits)
  it("is effective difficulty over mean time", () => {
    const { throughput: value, cells } = throughput(oneDirection);
    expect(value).toMatchObject({ ok: true, value: expect.closeTo(5.192951411, 8), unit: "bit/s", n: 1 });
    expect(cells[0]).toMatchObject({
      effectiveAmplitude: expect.closeTo(302.0833333, 6),
      effectiveDifficulty: expect.closeTo(3.197992577, 8),
      hitShare: 1,
    });
  });

  // Source: definition of the jackknife, done the long way: every trial really left out
  it("frees the interval of small-sample bias as leaving out each trial does", () => {
    const n = 12;
    const whole = 5.192951411;
    const pseudo = Array.from({ length: n }, (_, out) => {
      const rest = throughput(
        reordered(
          oneDirection,
          Array.from({ length: n }, (__, i) => i).filter((i) => i !== out),
        ),
      ).throughput;
      return n * whole - (n - 1) * (rest.ok ? rest.value : Number.NaN);
    });
    const mean = pseudo.reduce((sum, value) => sum + value, 0) / n;
    const se = Math.sqrt(pseudo.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1) / n);
    // Student's t with 11 degrees of freedom at 97.5 %: 2.200985 (SciPy 1.10.1)
    const { throughput: value, smallSampleBias } = throughput(oneDirection);
    expect(value).toMatchObject({ interval: [expect.closeTo(mean - 2.20098516 * se, 5), expect.closeTo(mean + 2.20098516 * se, 5)] });
    expect(smallSampleBias).toBeCloseTo(whole - mean, 6);
  });

  // Source: closed form of the simulated pointer's law
  it("comes to the simulated pointer's true throughput, between people too", () => {
    const pointer = { intercept: 0.1, slope: 0.15, pace: 1.1 };
    const one = throughput(simulateTrials({ ...pointer, seed: 5, n: 200 }));
    expect(one.throughput.ok && one.throughput.value / trueThroughput(pointer)).toBeCloseTo(1, 2);
    const people = ["a", "b", "c", "d"].map((person, i) =>
      simulateTrials({ ...pointer, slope: 0.13 + 0.02 * i, seed: 50 + i, n: 60, person }),
    );
    const several = throughput(joinTrials(people));
    expect(several).toMatchObject({ intervalFrom: "people", throughput: { ok: true, n: 4 } });
    const truth = [0.13, 0.15, 0.17, 0.19].map((slope) => trueThroughput({ ...pointer, slope })).reduce((sum, v) => sum + v, 0) / 4;
    expect(several.throughput.ok && several.throughput.value / truth).toBeCloseTo(1, 1.7);
  });
});

describe("throughput properties", () => {
  test.prop([trialsArb])("does not depend on the order of trials but for the order of cells", (trials) => {
    const order = Array.from(trials.along.keys()).reverse();
    const [one, other] = [throughput(trials), throughput(reordered(trials, order))];
    expect(other.throughput.ok).toBe(one.throughput.ok);
    if (one.throughput.ok && other.throughput.ok) expect(other.throughput.value).toBeCloseTo(one.throughput.value, 9);
    expect(other.cells.length).toBe(one.cells.length);
  });

  test.prop([trialsArb])("has no unit of length, and the inverse unit of time", (trials) => {
    const scaled: PointingTrials = {
      ...trials,
      amplitude: trials.amplitude.map((v) => 4 * v),
      width: trials.width.map((v) => 4 * v),
      along: trials.along.map((v) => 4 * v),
      movementTime: trials.movementTime.map((v) => 2 * v),
    };
    const [one, other] = [throughput(trials).throughput, throughput(scaled).throughput];
    expect(other.ok).toBe(one.ok);
    if (!one.ok || !other.ok) return;
    expect(other.value).toBeCloseTo(one.value / 2, 9);
    expect(other.interval === undefined).toBe(one.interval === undefined);
    for (const [i, end] of (one.interval ?? []).entries()) expect(other.interval![i]).toBeCloseTo(end / 2, 6);
  });

  test.prop([trialsArb])("is plain data without a number that is not finite, counts every trial, and leaves its input alone", (trials) => {
    const before = structuredClone(trials);
    const result = throughput(trials);
    expect(trials).toEqual(before);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(result.cells.reduce((sum, cell) => sum + cell.n, 0)).toBe(trials.along.length);
    if (result.throughput.ok) {
      const known = result.people.flatMap((person) => person.throughput ?? []);
      expect(result.throughput.value).toBeCloseTo(known.reduce((sum, v) => sum + v, 0) / known.length, 9);
      expect(result.throughput.n).toBe(known.length);
    }
  });

  it("is one person's mean over cells, so that adding trials to one cell moves no weight", () => {
    const trials = simulateTrials({ seed: 9, n: 12, intercept: 0.1, slope: 0.15, pace: 1 });
    const doubled = joinTrials([trials, { ...trials, person: trials.person!.slice() }]);
    const one = throughput(trials);
    const cells = throughput(doubled).cells;
    // a set doubled has the same mean and, with n - 1, a little less spread
    for (const [i, cell] of cells.entries()) expect(cell.movementTime).toBeCloseTo(one.cells[i]!.movementTime, 12);
    expect(one.people[0]!.throughput).toBeCloseTo(one.cells.reduce((sum, cell) => sum + cell.throughput!, 0) / 16, 12);
  });

  it("gives cells that the movement-time models take as they are", () => {
    const { cells } = throughput(simulateTrials({ seed: 10, n: 20, intercept: 0.12, slope: 0.16, pace: 1, timeSd: 0.05 }));
    const fit = fitMovementTime(cells, { width: "effective" });
    expect(fit.coefficients.b).toMatchObject({ ok: true, value: expect.closeTo(0.16, 1.5) });
  });

  it("names the person and needs no name for one", () => {
    expect(throughput(oneDirection).people).toEqual([{ person: "1", throughput: expect.closeTo(5.192951411, 8) }]);
    const { person: _, ...nameless } = { ...oneDirection, person: undefined };
    expect(throughput(nameless as PointingTrials)).toEqual(throughput(oneDirection));
  });

  it("takes hits by the task's own rule where given", () => {
    expect(throughput({ ...oneDirection, hit: new Float64Array(12) }).cells[0]!.hitShare).toBe(0);
  });
});

describe("throughput bad input", () => {
  it("names the bad column, entry or option", () => {
    expect(() => throughput({ ...oneDirection, movementTime: new Float64Array(12) })).toThrow(
      /throughput: trials\.movementTime\[0\] must be above 0, got 0/,
    );
    expect(() => throughput({ ...oneDirection, amplitude: new Float64Array(11).fill(1) })).toThrow(
      /trials\.amplitude must have 12 entries/,
    );
    expect(() => throughput({ ...oneDirection, along: changed(oneDirection.along, 2, Number.NaN) })).toThrow(
      /trials\.along\[2\] must be finite, got NaN/,
    );
    expect(() => throughput({ ...oneDirection, person: ["a"] })).toThrow(/trials\.person must be an array of 12 names, got an array of 1/);
    expect(() => throughput(oneDirection, { level: 95 })).toThrow(/options\.level must be above 0 and below 1, got 95/);
    expect(() => throughput(undefined as never)).toThrow(/trials\.along must be a Float64Array, got undefined/);
  });
  it("has a reason instead of a value without trials, with one, without spread, or with movements away from the target", () => {
    const empty = {
      amplitude: new Float64Array(0),
      width: new Float64Array(0),
      movementTime: new Float64Array(0),
      along: new Float64Array(0),
    };
    expect(throughput(empty)).toMatchObject({
      throughput: { ok: false, why: "tooFew", n: 0 },
      cells: [],
      people: [],
      smallSampleBias: null,
    });
    const some = (along: readonly number[]): PointingTrials => ({
      amplitude: new Float64Array(along.length).fill(100),
      width: new Float64Array(along.length).fill(10),
      movementTime: new Float64Array(along.length).fill(0.5),
      along: Float64Array.from(along),
    });
    expect(throughput(some([1])).throughput).toMatchObject({ ok: false, why: "tooFew" });
    expect(throughput(some([2, 2])).throughput).toMatchObject({ ok: false, why: "noSpread" });
    expect(throughput(some([-300, -301])).throughput).toMatchObject({ ok: false });
  });
  it("gives a value without interval where a trial left out leaves no spread", () => {
    const trials = {
      amplitude: Float64Array.of(100, 100),
      width: Float64Array.of(10, 10),
      movementTime: Float64Array.of(0.5, 0.5),
      along: Float64Array.of(1, 2),
    };
    const { throughput: value, smallSampleBias } = throughput(trials);
    expect(value.ok && value.interval).toBeUndefined();
    expect(smallSampleBias).toBeNull();
  });
});
