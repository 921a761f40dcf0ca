import { describe, expect, it } from "vitest";
import { bcaInterval, bootstrap, shareBelow } from "../../src/math/bootstrap.js";
import { quantile } from "../../src/math/quantile.js";
import { createRandom } from "../../src/math/random.js";

const mean = (values: ArrayLike<number>) => Array.from(values).reduce((sum, v) => sum + v, 0) / values.length;
const difference = ([one, other]: readonly Float64Array[]) => mean(other!) - mean(one!);

/** Indices of every resample of n, one after the other. */
function everyResample(n: number): () => number {
  let asked = 0;
  return () => {
    const place = asked % n;
    const resample = Math.floor(asked++ / n);
    return Math.floor(resample / n ** (n - 1 - place)) % n;
  };
}

describe("bootstrap against outside values", () => {
  // Source: all 3125 resamples of five values counted out, NumPy 1.24.2 and SciPy 1.10.1 (reference table learning/resampling.json, computed)
  it("of every resample gives percentiles and the BCa interval of the mean", () => {
    const found = bootstrap([[3.1, 4.7, 2.2, 5.9, 8.4]], ([values]) => mean(values!), 3125, everyResample(5));
    expect(found.acceleration).toBeCloseTo(0.030422205319474895, 12);
    expect(shareBelow(found.draws, found.value)).toBe((1503 + 180 / 2) / 3125);
    expect([quantile(found.draws, 0.025), quantile(found.draws, 0.975)]).toEqual([expect.closeTo(3.06, 9), expect.closeTo(6.84, 9)]);
    expect(bcaInterval(found, 0.95)).toEqual([expect.closeTo(3.1528039036660473, 9), expect.closeTo(6.921269750863139, 9)]);
  });
  // Source: SciPy 1.17.1 stats.bootstrap, method BCa, 200000 resamples: -74.125 to -2.5; here 20000, and 1 of Monte Carlo error. Acceleration: NumPy, computed.
  it("of two samples resamples each by itself", () => {
    const before = [412, 388, 455, 530, 401, 397, 366, 420, 475, 390];
    const after = [380, 371, 402, 455, 366, 379, 352, 398];
    const random = createRandom(5);
    const found = bootstrap([before, after], difference, 20000, (n) => Math.floor(random.uniform() * n));
    expect(found.acceleration).toBeCloseTo(-0.016777342091210286, 12);
    const [low, high] = bcaInterval(found, 0.95)!;
    expect(Math.abs(low + 74.125)).toBeLessThan(1);
    expect(Math.abs(high + 2.5)).toBeLessThan(1);
  });
});

describe("bootstrap properties", () => {
  it("leaves its input alone and gives ascending draws", () => {
    const values = Object.freeze([4, 1, 3]);
    const random = createRandom(1);
    const { draws } = bootstrap(
      [values],
      ([v]) => v!.sort()[1]!,
      50,
      (n) => Math.floor(random.uniform() * n),
    );
    expect(Array.from(draws)).toEqual(Array.from(draws).sort((a, b) => a - b));
  });
  it("has no BCa interval when every draw lies on one side, and no acceleration where nothing changes", () => {
    expect(bcaInterval({ value: 5, draws: Float64Array.of(1, 2, 3), acceleration: 0 }, 0.9)).toBeUndefined();
    expect(
      bootstrap(
        [[2, 2, 2]],
        ([v]) => mean(v!),
        10,
        () => 0,
      ).acceleration,
    ).toBe(0);
  });
});
