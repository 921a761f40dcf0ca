import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import { filterErrors } from "../../src/movement/repetition/filter-errors.js";
import { lagOne } from "../../src/movement/repetition/lag-one.js";
import { bestRate, errorAutocorrelation, errorVariance, learnerOf, planVariance } from "../../src/movement/repetition/learner-model.js";
import { prepareErrors, takeOutRegressors } from "../../src/movement/repetition/prepare-errors.js";
import { type TrialToTrialLearning, trialToTrialLearning } from "../../src/movement/trial-to-trial-learning.js";

type Found = Extract<TrialToTrialLearning, { ok: true }>;
const ok = (found: TrialToTrialLearning): Found => {
  if (!found.ok) throw new Error(found.why);
  return found;
};

/** Errors of a simulated learner from its long run. */
function learner(seed: number, n: number, rate: number, q = 1, r = 2): number[] {
  const random = createRandom(seed, n);
  let plan = random.normal(0, Math.sqrt(planVariance({ rate, planningSd: q, executionSd: r })));
  return Array.from({ length: n }, () => {
    const error = plan + random.normal(0, r);
    plan += random.normal(0, q) - rate * error;
    return error;
  });
}

/** Log-likelihood by the dense covariance of the known errors: elimination, no filter. */
function denseLogLikelihood(errors: readonly (number | null)[], rate: number, q: number, r: number): number {
  const model = { rate, planningSd: q, executionSd: r };
  const at = errors.flatMap((e, i) => (e === null ? [] : [i]));
  const n = at.length;
  const rows = at.map((i, a) => [
    ...at.map((j) => (i === j ? errorVariance(model) : errorVariance(model) * errorAutocorrelation(model, Math.abs(i - j)))),
    errors[at[a]!]!,
  ]);
  let log = n * Math.log(2 * Math.PI);
  for (let c = 0; c < n; c++) {
    log += Math.log(rows[c]![c]!) + rows[c]![n]! ** 2 / rows[c]![c]!;
    for (let i = c + 1; i < n; i++) {
      const factor = rows[i]![c]! / rows[c]![c]!;
      for (let j = c; j <= n; j++) rows[i]![j]! -= factor * rows[c]![j]!;
    }
  }
  return -log / 2;
}

describe("trialToTrialLearning against outside values", () => {
  // Source: closed form; at B* = 0.3904 (q 1, r 2) errors are uncorrelated, at B = 0.3 rho1 = 0.1 (400000 trials simulated in NumPy 1.24.2: 0.0951).
  it("knows the learner's correlation, and that the best rate leaves none", () => {
    expect(errorAutocorrelation({ rate: 0.3, planningSd: 1, executionSd: 2 }, 1)).toBeCloseTo(0.1, 12);
    expect(bestRate({ planningSd: 1, executionSd: 2 })).toBeCloseTo(0.390388203202, 11);
    expect(errorAutocorrelation({ rate: bestRate({ planningSd: 1, executionSd: 2 }), planningSd: 1, executionSd: 2 }, 1)).toBeCloseTo(
      0,
      12,
    );
    expect(bestRate({ planningSd: 1, executionSd: 0 })).toBe(1);
    expect(bestRate({ planningSd: 0, executionSd: 1 })).toBe(0);
  });
  // Source: the joint normal density with its covariance written out: another way to the same likelihood, with errors missing too.
  it("has the likelihood of the dense covariance, with gaps", () => {
    const errors: (number | null)[] = learner(3, 40, 0.3);
    errors[4] = null;
    errors[17] = null;
    errors[18] = null;
    const known = Uint8Array.from(errors, (e) => (e === null ? 0 : 1));
    const column = Float64Array.from(errors, (e) => e ?? 99);
    for (const [rate, q, r] of [
      [0.3, 1, 2],
      [1.4, 0.3, 1],
      [0.05, 0, 2],
      [0.6, 2, 0],
    ] as const) {
      const { logDeterminant, products, count } = filterErrors([column], known, { rate, planningSd: q, executionSd: r });
      expect(count).toBe(37);
      expect(-(count * Math.log(2 * Math.PI) + logDeterminant + products[0]!) / 2).toBeCloseTo(denseLogLikelihood(errors, rate, q, r), 8);
    }
  });
  // Source: worked by hand: deviations 2 0 -3 3 -2 0 of 3 1 -2 4 -1 1, lag-one ratio -15/26; for any exchangeable order its mean is -1/6.
  it("has the ratio worked by hand", () => {
    const known = new Uint8Array(6).fill(1);
    const left = takeOutRegressors(prepareErrors(Float64Array.of(3, 1, -2, 4, -1, 1), known).aboutMean)!;
    const found = lagOne(left.rest, left.basis, known);
    expect(found.value).toBeCloseTo(-15 / 26, 12);
    expect(found.expectedIfIndependent).toBeCloseTo(-1 / 6, 12);
  });
  // Source: simulation of the definition: mean and SD of the ratio over 4000 sets of independent normal errors, with a line taken out and with gaps; three standard errors.
  it("says what the ratio is for independent errors", () => {
    const random = createRandom(8);
    const known = Uint8Array.from({ length: 30 }, (_, i) => (i % 7 === 3 ? 0 : 1));
    let sum = 0;
    let squares = 0;
    let told = { mean: 0, sd: 0 };
    for (let run = 0; run < 4000; run++) {
      const errors = Float64Array.from(known, () => random.normal());
      const left = takeOutRegressors(prepareErrors(errors, known).aboutLine)!;
      const found = lagOne(left.rest, left.basis, known);
      told = { mean: found.expectedIfIndependent, sd: found.standardErrorIfIndependent };
      sum += found.value;
      squares += found.value ** 2;
    }
    const mean = sum / 4000;
    expect(Math.abs(mean - told.mean)).toBeLessThan((3 * told.sd) / Math.sqrt(4000));
    expect(Math.abs(Math.sqrt(squares / 4000 - mean * mean) / told.sd - 1)).toBeLessThan(3 / Math.sqrt(8000));
  });
  // Source: the simulated learner's own parameters; 4000 errors tell the rate within about 0.1.
  it("finds a learner", () => {
    const found = ok(trialToTrialLearning(learner(1, 4000, 0.7), { detrend: false }));
    expect(found.verdict).toBe("overCorrecting");
    for (const [estimate, truth] of [
      [found.rate, 0.7],
      [found.bestRate, bestRate({ planningSd: 1, executionSd: 2 })],
      [found.planningSd, 1],
      [found.executionSd, 2],
      [found.autocorrelation, errorAutocorrelation({ rate: 0.7, planningSd: 1, executionSd: 2 }, 1)],
    ] as const) {
      expect(estimate.ok && estimate.interval![0] < truth && truth < estimate.interval![1]).toBe(true);
      expect(estimate.ok && Math.abs(estimate.value / truth - 1)).toBeLessThan(0.2);
    }
  });
});

describe("trialToTrialLearning properties", () => {
  const errors = learner(5, 150, 0.9);
  const found = ok(trialToTrialLearning(errors));

  it("tells over- from under-correcting", () => {
    expect(found.verdict).toBe("overCorrecting");
    expect(ok(trialToTrialLearning(learner(5, 300, 0.1))).verdict).toBe("underCorrecting");
  });
  it("does not tell, or calls it about right, where the errors are independent", () => {
    expect(ok(trialToTrialLearning(learner(2, 40, 0.3904))).verdict).toBe("cannotTell");
    expect(ok(trialToTrialLearning(learner(2, 1000, 0.3904))).verdict).toBe("aboutRight");
  });
  it("says that a rate is not identified where errors do not correlate, and tooFew under 100", () => {
    const independent = ok(trialToTrialLearning(learner(2, 400, 0.3904)));
    for (const part of [independent.rate, independent.bestRate, independent.planningSd, independent.executionSd]) {
      expect(part).toMatchObject({ ok: false, why: "notIdentified", n: 400 });
    }
    expect(ok(trialToTrialLearning(errors.slice(0, 99))).rate).toMatchObject({ ok: false, why: "tooFew" });
  });
  it("holds every value within its interval", () => {
    for (const part of [found.rate, found.bestRate, found.planningSd, found.executionSd, found.autocorrelation, found.drift]) {
      expect(part.ok && part.interval![0] <= part.value && part.value <= part.interval![1]).toBe(true);
    }
  });
  it("takes a drift out, says so, and would take it for under-correcting otherwise", () => {
    const drifting = learner(2, 200, 0.3904).map((e, i) => e + 0.05 * i);
    const without = ok(trialToTrialLearning(drifting));
    expect(without.warnings).toContain("drift");
    expect(without.drift.ok && Math.abs(without.drift.value - 0.05)).toBeLessThan(0.01);
    expect(without.verdict).not.toBe("underCorrecting");
    const left = ok(trialToTrialLearning(drifting, { detrend: false }));
    expect(left).toMatchObject({ detrended: false, verdict: "underCorrecting" });
    expect(left.drift.unit).toBe("px/trial");
  });
  it("is the same with the line taken out beforehand", () => {
    const other = ok(trialToTrialLearning(errors.map((e, i) => e + 7 - 0.3 * i)));
    expect(other.autocorrelation.ok && other.autocorrelation.value).toBeCloseTo(
      found.autocorrelation.ok ? found.autocorrelation.value : 0,
      3,
    );
    expect(other.drift.ok && found.drift.ok && other.drift.value - found.drift.value).toBeCloseTo(-0.3, 4);
  });
  test.prop([fc.double({ min: 1e-6, max: 1e6, noNaN: true }), fc.boolean()], { numRuns: 5 })(
    "scales its noises with the unit and nothing else",
    (factor, flip) => {
      const scale = flip ? -factor : factor;
      const other = ok(trialToTrialLearning(errors.map((e) => e * scale)));
      expect(other.rate.ok && found.rate.ok && other.rate.value / found.rate.value).toBeCloseTo(1, 3);
      expect(other.executionSd.ok && found.executionSd.ok && other.executionSd.value / found.executionSd.value / factor).toBeCloseTo(1, 3);
      expect(other.sample.value).toBeCloseTo(found.sample.value, 9);
    },
  );
  it("endures a large offset and errors near the ends of the number range", () => {
    expect(ok(trialToTrialLearning(errors.map((e) => e + 1e9))).sample.value).toBeCloseTo(found.sample.value, 5);
    expect(ok(trialToTrialLearning(errors.map((e) => e * 1e200))).sample.value).toBeCloseTo(found.sample.value, 9);
    expect(ok(trialToTrialLearning(errors.map((e) => e * 1e-200))).sample.value).toBeCloseTo(found.sample.value, 9);
  });
  it("uses what is left around trials without an error, typed arrays too", () => {
    const gaps = errors.map((e, i) => (i % 10 === 4 ? null : e));
    const some = ok(trialToTrialLearning(gaps));
    expect(some).toMatchObject({ n: 135, missing: 15, verdict: "overCorrecting" });
    expect(some.sample.pairs).toBe(119);
    expect(trialToTrialLearning(Float64Array.from(errors))).toEqual(found);
  });
  it("gives a wide interval at a high level and a narrow one at a low level", () => {
    const width = (level: number): number => {
      const { autocorrelation } = ok(trialToTrialLearning(errors, { level }));
      return autocorrelation.ok ? autocorrelation.interval![1] - autocorrelation.interval![0] : 0;
    };
    expect(width(0.99)).toBeGreaterThan(width(0.8));
  });
  it("warns of an error far off, and of few", () => {
    expect(ok(trialToTrialLearning([...errors, 400])).warnings).toContain("outlying");
    expect(found.warnings).not.toContain("outlying");
    expect(ok(trialToTrialLearning(errors.slice(0, 30))).warnings).toContain("few");
  });
  it("is not ok with under 20 errors, under 10 neighbours, or all errors on a line", () => {
    expect(trialToTrialLearning(errors.slice(0, 19))).toEqual({ ok: false, why: "tooFew", unit: "px", n: 19 });
    expect(trialToTrialLearning(errors.flatMap((e) => [e, null]))).toMatchObject({ ok: false, why: "tooFew", n: 150 });
    expect(trialToTrialLearning(new Array(30).fill(4), { unit: "mm" })).toEqual({ ok: false, why: "noSpread", unit: "mm", n: 30 });
    expect(trialToTrialLearning(Array.from({ length: 30 }, (_, i) => 3 * i - 8))).toMatchObject({ ok: false, why: "noSpread" });
    expect(trialToTrialLearning([])).toMatchObject({ ok: false, why: "tooFew", n: 0 });
  });
  it("gives finite numbers for errors that alternate without any noise", () => {
    const result = trialToTrialLearning(Array.from({ length: 120 }, (_, i) => (i % 2 === 0 ? 1 : -1)));
    expect(result).toMatchObject({ ok: true, verdict: "overCorrecting" });
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });
  it("survives JSON and a structured clone, and leaves its input as it was", () => {
    const frozen = Object.freeze([...errors]);
    const result = trialToTrialLearning(frozen);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
  });
  it("describes a learner by its rate and best rate", () => {
    expect(bestRate(learnerOf(0.7, 0.39))).toBeCloseTo(0.39, 12);
  });
});

describe("trialToTrialLearning bad input", () => {
  it("refuses what is no list, and entries that are no finite number", () => {
    expect(() => trialToTrialLearning("no" as never)).toThrow(/errors must be a list of numbers .*got "no"/);
    expect(() => trialToTrialLearning([1, Number.NaN])).toThrow(/errors\[1\] must be finite \(null where it is not known\), got NaN/);
    expect(() => trialToTrialLearning([1, undefined] as never)).toThrow(/errors\[1\] must be a number or null, got undefined/);
  });
  it("refuses a level outside (0, 1)", () => {
    expect(() => trialToTrialLearning([], { level: 1 })).toThrow(/options\.level must be above 0 and below 1, got 1/);
  });
});
