// Source: shared reference table learning/resampling.json: NumPy 1.24.2, SciPy 1.10.1 and R boot 1.3-28; every resample or arrangement counted where there are few,
// data of Efron and Tibshirani 1993 and Fisher 1935 among them.
import { describe, expect, it } from "vitest";
import { compare } from "../../src/learning/compare.js";
import { bcaInterval, bootstrap, shareBelow } from "../../src/math/bootstrap.js";
import { jackknifeVariance } from "../../src/math/jackknife-variance.js";
import { meanAndSd } from "../../src/math/mean-and-sd.js";
import { medianInPlace } from "../../src/math/median.js";
import { normalQuantile } from "../../src/math/normal-quantile.js";
import { quantile } from "../../src/math/quantile.js";
import { createRandom } from "../../src/math/random.js";
import { type Distance, exchangeTest, signFlipTest } from "../../src/math/rearrangement-tests.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const cases = readReference("learning/resampling.json")?.cases ?? [];
const named = (word: string) => cases.filter((c) => c.name.includes(word));

const mean = (values: ArrayLike<number>): number => meanAndSd(values).mean;
const meanOf = ([values]: readonly Float64Array[]): number => mean(values!);
const medianOf = ([values]: readonly Float64Array[]): number => medianInPlace(values!.slice());

/** The quantiles of the draws that leave out (1 - level)/2 on either side. */
const percentileInterval = ({ draws }: { readonly draws: Float64Array }, level: number): readonly [number, number] => [
  quantile(draws, (1 - level) / 2),
  quantile(draws, (1 + level) / 2),
];

function expectSame(c: ReferenceCase, pairs: Readonly<Record<string, readonly [number, number]>>): void {
  for (const [what, [got, expected]] of Object.entries(pairs)) {
    expect(within(got, expected, c.tolerance), `${c.name}: ${what} ${got} for ${expected}`).toBe(true);
  }
}

/** Places of every ordered resample of n, one after the other. */
function everyResample(n: number): () => number {
  let asked = 0;
  return () => {
    const place = asked % n;
    const resample = Math.floor(asked++ / n);
    return Math.floor(resample / n ** (n - 1 - place)) % n;
  };
}

/** The stream of the table, written down from its definition. */
function mulberry32(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

function correlation(c: ReferenceCase): (samples: readonly Float64Array[]) => number {
  return ([rows]) => {
    const x = Float64Array.from(rows!, (i) => c.input.lsat[i]);
    const y = Float64Array.from(rows!, (i) => c.input.gpa[i]);
    const [mx, my] = [meanAndSd(x), meanAndSd(y)];
    let sum = 0;
    for (let i = 0; i < x.length; i++) sum += ((x[i]! - mx.mean) / mx.sd) * ((y[i]! - my.mean) / my.sd);
    return sum / (x.length - 1);
  };
}

describe.skipIf(cases.length === 0)(`resampling against the table (skipped: ${SHARED_ABSENT})`, () => {
  it("holds the cases this file reads", () => {
    expect([named("law schools").length, named("every resample").length, named("mulberry").length, named("seeded").length]).toEqual([
      2, 3, 1, 1,
    ]);
    expect([named("sign flips").length, named("two samples").length]).toEqual([1, 2]);
  });

  it.each(named("law schools, correlation"))("$name", (c) => {
    const rows = Array.from(c.input.lsat as number[], (_, i) => i);
    const { value, acceleration } = bootstrap([rows], correlation(c), 1, () => 0);
    const jack = rows.map((row) => correlation(c)([Float64Array.from(rows.filter((other) => other !== row))]));
    expectSame(c, {
      r: [value, c.expected.r],
      acceleration: [acceleration, c.expected.acceleration],
      // the table takes the jackknife about the mean of its values
      "jackknife se": [Math.sqrt(jackknifeVariance(rows.length, mean(jack), (i) => jack[i]!)), c.expected.jackknifeSe],
    });
  });

  it.each(named("law schools, bootstrap"))("$name", (c) => {
    const rows = Array.from(c.input.lsat as number[], (_, i) => i);
    const random = createRandom(20261201);
    const found = bootstrap([rows], correlation(c), 60000, (n) => Math.floor(random.uniform() * n));
    expectSame(c, { se: [meanAndSd(found.draws).sd, c.expected.se] });
    for (const level of [0.9, 0.95]) {
      const e = c.expected[String(100 * level)];
      const [percentile, bca] = [percentileInterval(found, level), bcaInterval(found, level)!];
      expectSame(c, {
        "percentile low": [percentile[0], e.percentile[0]],
        "percentile high": [percentile[1], e.percentile[1]],
        "bca low": [bca[0], e.bca[0]],
        "bca high": [bca[1], e.bca[1]],
      });
    }
  });

  it.each(named("every resample"))("$name", (c) => {
    const e = c.expected;
    const { x } = c.input;
    const statistic = c.name.endsWith("median") ? medianOf : meanOf;
    const found = bootstrap([x], statistic, e.resamples, everyResample(x.length));
    const share = shareBelow(found.draws, found.value);
    expect(share).toBe((e.countBelow + e.countEqual / 2) / e.resamples);
    expectSame(c, {
      statistic: [found.value, e.statistic],
      "mean of the draws": [mean(found.draws), e.bootstrapMean],
      "sd of the draws": [meanAndSd(found.draws).sd * Math.sqrt((e.resamples - 1) / e.resamples), e.bootstrapSe],
      acceleration: [found.acceleration, e.acceleration],
    });
    for (const level of [0.8, 0.9, 0.95]) {
      const at = e[String(Math.round(100 * level))];
      const [percentile, bca] = [percentileInterval(found, level), bcaInterval(found, level)!];
      expectSame(c, {
        z0: [normalQuantile(share), at.z0MidRank],
        "percentile low": [percentile[0], at.percentile[0]],
        "percentile high": [percentile[1], at.percentile[1]],
        "bca low": [bca[0], at.bcaMidRank[0]],
        "bca high": [bca[1], at.bcaMidRank[1]],
      });
    }
  });

  it.each(named("mulberry"))("$name", (c) => {
    const next = mulberry32(c.input.seed);
    for (const [i, expected] of (c.expected.first10 as number[]).entries()) expectSame(c, { [`draw ${i}`]: [next(), expected] });
  });

  it.each(named("seeded"))("$name", (c) => {
    const e = c.expected;
    const next = mulberry32(c.params.seed);
    const first: number[] = [];
    const found = bootstrap(
      [c.input.x],
      (samples) => {
        const value = meanOf(samples);
        // the first call is the whole sample
        if (first.length < 6) first.push(value);
        return value;
      },
      c.params.replicates,
      (n) => Math.floor(next() * n),
    );
    for (const [i, expected] of (e.first5 as number[]).entries()) expectSame(c, { [`draw ${i}`]: [first[i + 1]!, expected] });
    const [percentile, bca] = [percentileInterval(found, 0.95), bcaInterval(found, 0.95)!];
    expectSame(c, {
      "percentile low": [percentile[0], e.percentile95[0]],
      "percentile high": [percentile[1], e.percentile95[1]],
      "bca low": [bca[0], e.bca95MidRank[0]],
      "bca high": [bca[1], e.bca95MidRank[1]],
      z0: [normalQuantile(shareBelow(found.draws, found.value)), e.z0],
      acceleration: [found.acceleration, e.acceleration],
      se: [meanAndSd(found.draws).sd, e.se],
    });
  });

  const every = { most: 40000, draws: 99, seed: 1 };

  it.each(named("sign flips"))("$name", (c) => {
    const size: Distance = (values) => Math.abs(values.reduce((sum, value) => sum + value, 0));
    const found = signFlipTest(Float64Array.from(c.input.differences), size, every)!;
    expect([found.exact, found.arrangements]).toEqual([true, c.expected.flips]);
    expectSame(c, { p: [found.p, c.expected.p] });
  });

  it.each(named("two samples"))("$name", (c) => {
    const { a, b } = c.input;
    const apart: Distance = (values, k) => Math.abs(mean(values.subarray(0, k)) - mean(values.subarray(k)));
    const found = exchangeTest(Float64Array.from(a), Float64Array.from(b), apart, every)!;
    expect(found.arrangements).toBe(c.expected.arrangements);
    const { change, chances, permutation } = compare(b, a, { kind: "difference", autocorrelation: 0 });
    const { improvement } = chances!;
    expectSame(c, {
      p: [found.p, c.expected.pTwoSided],
      difference: [change.ok ? change.value : Number.NaN, c.expected.difference],
      // a chance with nothing known beforehand is the one-sided p-value seen from the other side
      "Welch p": [2 * Math.min(improvement, 1 - improvement), c.expected.welchP],
    });
    // for periods of one length Welch's t orders the arrangements as the difference does
    if (a.length === b.length) expectSame(c, { "p of compare": [permutation!.p, c.expected.pTwoSided] });
    expect(permutation!.arrangements).toBe(c.expected.arrangements);
  });
});
