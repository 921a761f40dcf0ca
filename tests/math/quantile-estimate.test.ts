import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { medianEstimate } from "../../src/math/median-estimate.js";
import { quantileEstimate } from "../../src/math/quantile-estimate.js";
import { coverage, keepsEstimateRules, values } from "./estimate-properties.js";

describe("quantileEstimate against outside values", () => {
  const count = (n: number) => Array.from({ length: n }, (_, k) => k + 1);

  // Source: SciPy 1.17.1 stats.binom.cdf and sf, computed: the largest rank with P(binomial < rank) at most (1 - level)/2, and likewise from above
  it.each([
    [50, 0.9, 0.95, 41, 50, 0.9703082890880885],
    [20, 0.5, 0.95, 6, 15, 0.9586105346679688],
    [100, 0.95, 0.9, 91, 99, 0.9347304965092287],
    [60, 0.1, 0.95, 2, 12, 0.9716382358365523],
  ])("of %d values has the ranks of the binomial distribution, p = %d, level %d", (n, p, level, low, high, attained) => {
    const result = quantileEstimate(count(n), p, "mm", level);
    expect(result).toMatchObject({ ok: true, interval: [low, high], level: expect.closeTo(attained, 12) });
  });
  // Source: NumPy 2.4.6 quantile(range(1, 12), 0.9), computed
  it("has the value of NumPy", () => expect(quantileEstimate(count(11), 0.9, "mm")).toMatchObject({ value: 10 }));
  // Source: closed form. At p = 0.5 both ends are those of the sign test, which the median's interval has, too.
  test.prop([values(0), fc.constantFrom(0.5, 0.9, 0.95)])("is the median's estimate at one half", (list, level) => {
    const [one, other] = [quantileEstimate(list, 0.5, "mm", level), medianEstimate(list, "mm", level)];
    if (!one.ok || !other.ok) return void expect(one).toEqual(other);
    expect(one.value).toBeCloseTo(other.value, 9);
    expect(one.interval).toEqual(other.interval);
    if (other.level !== undefined) expect(one.level).toBeCloseTo(other.level, 12);
  });
  // Source: closed form. Order statistics hold the true quantile at least as often as named, whatever the distribution: 0.9 of an exponential variable is ln 10.
  it("holds the true quantile of skewed values", () => {
    const estimator = (list: ArrayLike<number>, unit: string) => quantileEstimate(list, 0.9, unit);
    expect(coverage(estimator, Math.log(10), (random) => random.exponential(1), 60, 1500)).toBeGreaterThan(0.94);
  });
});

describe("quantileEstimate properties", () => {
  keepsEstimateRules((list, unit, level) => quantileEstimate(list, 0.75, unit, level));

  it("gives no interval while one end is beyond the values", () => {
    const result = quantileEstimate(Array.from({ length: 50 }, Math.sqrt), 0.99, "mm");
    expect(result).toEqual({ ok: true, value: expect.any(Number), unit: "mm", n: 50 });
  });
  // Source: closed form. The largest of n values lies above the quantile p with probability 1 - p^n: 0.95^72 is the first below 0.025.
  it("gets its upper end as soon as the largest value may be one", () => {
    const at = (n: number) => quantileEstimate(new Float64Array(n), 0.95, "mm");
    expect(at(71)).not.toHaveProperty("interval");
    expect(at(72)).toHaveProperty("interval");
  });
});
