// What an autocorrelation that is allowed for does to chances and intervals, and how sure a trend within a period must be.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type CompareOptions, compare } from "../../../src/learning/compare.js";

const PLAIN = { kind: "difference", permutations: 99 } as const;
const intervalOf = (
  before: readonly number[],
  after: readonly number[],
  options: CompareOptions,
): readonly [number, number] | undefined => {
  const { change } = compare(before, after, { ...PLAIN, worthwhile: 1, ...options });
  return change.ok ? change.interval : undefined;
};
const sessions = (least: number, most: number) =>
  fc.array(
    fc.integer({ min: -40, max: 40 }).map((v) => v / 8),
    { minLength: least, maxLength: most },
  );

describe("a median of sessions that are alike", () => {
  // Source: the docstring: autocorrelation stretches the distances from the value, of intervals and of marks alike: a mark s times as far away has the chance that the
  // nearer one has without it
  test.prop([sessions(7, 9), sessions(7, 9), fc.boolean(), fc.constantFrom(0.3, 0.6), fc.constantFrom(0.5, 2)], { numRuns: 40 })(
    "has the chances of a nearer mark",
    (before, other, paired, autocorrelation, mark) => {
      const after = paired ? before.map((v, i) => v + other[i % other.length]!) : other;
      const options = { centre: "median", paired } as const;
      const [plain, alike] = [0, autocorrelation].map((r) => intervalOf(before, after, { ...options, autocorrelation: r }));
      const found = compare(before, after, { ...PLAIN, ...options, worthwhile: 1, autocorrelation });
      if (plain === undefined || alike === undefined || !found.change.ok) return;
      const { value } = found.change;
      const far = plain[1] - value > value - plain[0] ? 1 : 0;
      const stretch = (alike[far] - value) / (plain[far] - value);
      if (!Number.isFinite(stretch)) return;
      expect(stretch).toBeGreaterThan(1);
      const near = value + (mark - value) / stretch;
      // a mark at or below 0 cannot be asked for, and one on a value falls to either side by rounding
      if (!(near > 0.01) || Math.abs(near * 16 - Math.round(near * 16)) < 1e-6) return;
      const chance = (worthwhile: number, r: number) =>
        compare(before, after, { ...PLAIN, ...options, worthwhile, autocorrelation: r }).chances!.worthwhileLoss;
      expect(chance(mark, autocorrelation)).toBeCloseTo(chance(near, 0), 10);
    },
  );
});

describe("the mean of a period", () => {
  // Source: the variance of a mean of k alike values, the sum of all r^|i - j| over k^2, shown by squares about that mean, which fall short of k by k times it:
  // wider than for independent ones, by that alone where the quantile is held
  it("has a wider interval where sessions are alike, a median has not", () => {
    const list = [1, 2, 4, 3, 2, 5, 1];
    const width = (centre: "mean" | "median", autocorrelation: number) => {
      const { before } = compare(list, list, { ...PLAIN, worthwhile: 1, centre, autocorrelation });
      return before.centre.ok ? before.centre.interval![1] - before.centre.interval![0] : Number.NaN;
    };
    let sum = 0;
    for (let i = 0; i < 7; i++) for (let j = 0; j < 7; j++) sum += 0.5 ** Math.abs(i - j);
    const variance = sum / 49;
    const plain = Math.sqrt((variance * 6) / (7 * (1 - variance)) / (1 / 7));
    expect(width("mean", 0.5) / width("mean", 0)).toBeGreaterThanOrEqual(plain);
    expect(width("median", 0.5)).toBe(width("median", 0));
  });
});

describe("a trend within periods", () => {
  const FLAT = [1, 1.02, 0.98, 1.01, 0.99, 1.02, 0.98, 1];
  const rising = (slope: number) => FLAT.map((v, i) => v + slope * i);
  const trended = (before: readonly number[], after: readonly number[], options: CompareOptions = {}) =>
    compare(before, after, { ...PLAIN, worthwhile: 1, ...options }).warnings.includes("trendWithin");
  // Source: SciPy 1.17.1 stats.linregress: slopes of 0.007, 0.0085 and 0.0095 on these values have p of 0.069, 0.032 and 0.0195; 5 % for one series, 2.5 % for each of two
  it("is called at 5 % for both together", () => {
    expect(trended(rising(0.0095), FLAT)).toBe(true);
    expect(trended(rising(0.0085), FLAT)).toBe(false);
    const zero = FLAT.map(() => 0);
    expect(trended(zero, rising(0.0085), { paired: true })).toBe(true);
    expect(trended(zero, rising(0.007), { paired: true })).toBe(false);
  });
});
