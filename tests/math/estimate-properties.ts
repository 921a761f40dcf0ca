// What every estimate from a list of values keeps, asserted once for all of them.
import { fc, test } from "@fast-check/vitest";
import { expect, it } from "vitest";
import type { Estimate } from "../../src/math/estimate.js";
import { createRandom } from "../../src/math/random.js";

type Estimator = (values: ArrayLike<number>, unit: string, level?: number) => Estimate;

/** Lists as measures give them: thousandths up to 1000 either side, ties included. */
export const values = (minLength: number): fc.Arbitrary<number[]> =>
  fc.array(
    fc.integer({ min: -1e6, max: 1e6 }).map((v) => v / 1000),
    { minLength, maxLength: 40 },
  );

/** Whether two numbers agree to a share of 1e-9 (arithmetic in another order). */
export const near = (a: number, b: number, scale = Math.abs(b)): boolean => Math.abs(a - b) <= 1e-9 * scale;

export function keepsEstimateRules(estimator: Estimator): void {
  test.prop([values(0)])("leaves its input alone and returns plain data that survives JSON and cloning", (list) => {
    const result = estimator(Object.freeze(list.slice()), "mm");
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
    expect(result).toMatchObject({ unit: "mm", n: list.length });
    expect(estimator(Float64Array.from(list), "mm")).toEqual(result);
  });

  test.prop([values(1)])("keeps the value inside its interval and never gives a number that is not finite", (list) => {
    const result = estimator(list, "mm");
    if (!result.ok) return;
    const [low, high] = result.interval ?? [result.value, result.value];
    // the interval of equal values has no width, and rounding may put the value a hair outside
    const hair = 1e-12 * Math.abs(result.value);
    expect(low <= result.value + hair && result.value <= high + hair).toBe(true);
    expect(Number.isFinite(low) && Number.isFinite(high)).toBe(true);
  });

  test.prop([values(2), fc.integer({ min: -600, max: 600 })])("scales with the unit of its values", (list, power) => {
    const one = estimator(list, "mm");
    const other = estimator(
      list.map((v) => v * 2 ** power),
      "mm",
    );
    expect(other.ok).toBe(one.ok);
    if (!one.ok || !other.ok) return;
    // a power of two moves no digit, so that the results are equal to the last one or two
    expect(near(other.value, one.value * 2 ** power)).toBe(true);
    expect(other.interval === undefined).toBe(one.interval === undefined);
    one.interval?.forEach((end, i) => {
      const size = Math.max(Math.abs(end), Math.abs(one.value));
      expect(near(other.interval![i]!, end * 2 ** power, size * 2 ** power)).toBe(true);
    });
  });

  test.prop([values(2)])("does not depend on the order of its values", (list) => {
    const one = estimator(list, "mm");
    const other = estimator(list.slice().reverse(), "mm");
    expect(other.ok).toBe(one.ok);
    if (one.ok && other.ok) expect(near(other.value, one.value, 1e3)).toBe(true);
  });

  it("says that there are too few when there are none", () =>
    expect(estimator([], "mm")).toEqual({ ok: false, why: "tooFew", unit: "mm", n: 0 }));
}

/** Share of `runs` seeded samples of `n` whose interval holds `truth`. */
export function coverage(
  estimator: Estimator,
  truth: number,
  draw: (random: ReturnType<typeof createRandom>) => number,
  n: number,
  runs: number,
): number {
  const random = createRandom(20261125);
  let held = 0;
  for (let run = 0; run < runs; run++) {
    const result = estimator(
      Array.from({ length: n }, () => draw(random)),
      "mm",
    );
    if (!result.ok || result.interval === undefined) continue;
    if (result.interval[0] <= truth && truth <= result.interval[1]) held++;
  }
  return held / runs;
}

/** Half the 99 % band of a share near `level` among `runs`: 2.576 standard errors of the binomial distribution. */
export const band = (level: number, runs: number): number => 2.576 * Math.sqrt((level * (1 - level)) / runs);
