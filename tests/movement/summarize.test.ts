import { readFileSync } from "node:fs";
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { Estimate } from "../../src/math/estimate.js";
import { analyze } from "../../src/movement/analyze.js";
import { type Summary, summarize } from "../../src/movement/summarize.js";
import type { Acquisition, Budget, Correction } from "../../src/movement/types.js";
import { readReference, SHARED_ABSENT } from "../shared.js";
import { errorOf, rowOf, rowsArb } from "./rows.js";
import { deepFreeze, simulatedArb } from "./simulated.js";

const errors = readReference("kinematics/trial-to-trial.json")?.cases ?? [];
const intervals = (readReference("learning/binomial.json")?.cases ?? []).filter(({ expected }) => expected.wilson !== undefined);
/** Rows that differ in one kind of error only. */
const withErrors = (offsets: readonly (readonly [number, number])[]): Acquisition[] =>
  offsets.map(([along, across], i) => rowOf(i, { latency: 0.2, primary: 0.3 }, { errors: { primary: errorOf(along, across) } }));
const figureOf = (estimate: Estimate): number => {
  if (!estimate.ok) throw new Error(`no value: ${estimate.why}`);
  return estimate.value;
};
const near = (value: number) => expect.closeTo(value, 9);

// four rows: two hits, a recovered miss, a timeout whose movement was never made; 0.4 s of waiting in all
const correction = {} as Correction;
const sitting = [
  rowOf(1, { latency: 0.25, primary: 0.3, verification: 0.25 }, { peakSpeed: 1200 }),
  rowOf(
    2,
    { latency: 0.3, primary: 0.25, correction: 0.2, clutch: 0.05, verification: 0.2 },
    { corrections: [correction], pressedInMotion: true },
  ),
  rowOf(
    3,
    { latency: 0.2, primary: 0.2, verification: 0.05, recovery: 0.15 },
    { outcome: "recovered", corrections: [correction, correction] },
  ),
  {
    ...rowOf(3.8, { latency: 1.4 }, { outcome: "timeout", flags: ["noMovement"] }),
    times: { go: 3.8, end: 5.2 },
  },
];

describe("summarize against outside values", () => {
  // Source: worked by hand: sums and shares; times from 1 to 5.2 s, of which 0.8 + 1 + 0.6 + 1.4 lie in rows.
  it("tiles the wall time of a sitting with parts and waiting", () => {
    const { n, outcomes, time, flags } = summarize(sitting);
    expect(n).toBe(4);
    expect(outcomes).toEqual({ hit: 2, miss: 0, recovered: 1, timeout: 1, abandoned: 0 });
    expect(flags).toEqual({ noMovement: 1 });
    expect(time.wall).toBeCloseTo(4.2, 12);
    expect(time.waiting).toBeCloseTo(0.4, 12);
    const totals = Object.fromEntries(Object.entries(time.parts).map(([part, { total }]) => [part, total]));
    expect(totals).toEqual({
      latency: near(2.15),
      primary: near(0.75),
      correction: near(0.2),
      clutch: near(0.05),
      verification: near(0.5),
      recovery: near(0.15),
    });
    expect(time.parts.latency.share).toBeCloseTo(2.15 / 4.2, 12);
    expect(summarize(sitting, { span: [0, 10] }).time).toMatchObject({ wall: 10, waiting: near(6.2) });
  });

  // Source: NumPy 2.4.6 mean and std(ddof=1), SciPy 1.17.1 stats.t.ppf: four times from go to end, 0.8, 1, 0.6 and 1.4 s.
  it("gives means with Student's interval", () => {
    const { perAcquisition } = summarize(sitting).time;
    expect(perAcquisition).toMatchObject({ ok: true, value: near(0.95), unit: "s", n: 4, level: 0.95 });
    expect(perAcquisition).toMatchObject({ interval: [expect.closeTo(0.40649382, 7), expect.closeTo(1.49350618, 7)] });
  });

  // Source: worked by hand: one press in motion of four, two first presses hit of four, one movement of three without a correction.
  it("counts presses in motion, hits at the first press and movements without corrections", () => {
    const summary = summarize(sitting);
    expect(summary.pressedInMotion).toMatchObject({ value: 0.25, n: 4 });
    expect(summary.hitAtFirstPress).toMatchObject({ value: 0.5, n: 4 });
    expect(summary.corrections.none).toMatchObject({ value: near(1 / 3), n: 3 });
    expect(summary.corrections.perAcquisition).toMatchObject({ value: 1, n: 3 });
    expect(summary.peakSpeed).toMatchObject({ value: near((1200 + 1000 + 1000) / 3), unit: "px/s", n: 3 });
  });

  it.skipIf(errors.length === 0)(`has its reference tables (else: ${SHARED_ABSENT})`, () => {
    expect(errors.find(({ name }) => name === "constant, variable, absolute and total error")).toBeDefined();
    expect(intervals.length).toBeGreaterThan(9);
  });

  // Source: reference/kinematics/trial-to-trial.json, worked by hand: CE 2, VE 3.0332, AE 3.2, E 3.6332 of 3 -1 4 -2 6.
  it.each(errors.filter(({ name }) => name === "constant, variable, absolute and total error"))(
    "$name",
    ({ input, expected, tolerance }) => {
      const { along, n } = summarize(withErrors(input.e.map((e: number) => [e, 0]))).primaryError;
      expect(n).toBe(input.e.length);
      const got = { constantError: along.constant, variableError: along.variable, absoluteError: along.absolute, totalError: along.total };
      // the table prints twelve digits
      for (const [name, estimate] of Object.entries(got))
        expect(Math.abs(figureOf(estimate) - expected[name]), name).toBeLessThan(tolerance.abs + 1e-11);
    },
  );

  // Source: SciPy 1.17.1 stats.t.ppf and stats.chi2.ppf on the same five errors; the interval of the variable error is the sample SD's
  // times sqrt(4/5).
  it("gives intervals of constant, variable and absolute error", () => {
    const { along } = summarize(withErrors([3, -1, 4, -2, 6].map((e) => [e, 0]))).primaryError;
    const ends = (estimate: Estimate): readonly number[] => (estimate as { interval: readonly number[] }).interval;
    expect(ends(along.constant)).toEqual([near(-2.210687481992294), near(6.210687481992294)]);
    expect(ends(along.variable)).toEqual([near(1.817260787383119), near(8.715925781907083)]);
    expect(ends(along.absolute)).toEqual([near(0.8116116119000196), near(5.588388388099981)]);
  });

  // Source: reference/kinematics/trial-to-trial.json, worked by hand.
  it.each(errors.filter(({ name }) => name === "two-dimensional errors"))("$name", ({ input, expected }) => {
    const { radial, along, across } = summarize(withErrors(input.e)).primaryError;
    expect([figureOf(along.constant), figureOf(across.constant)]).toEqual(expected.centroid.map(near));
    expect(figureOf(radial.mean)).toBeCloseTo(expected.meanRadialError, 10);
    expect(figureOf(radial.centroid)).toBeCloseTo(expected.centroidRadialError, 10);
    expect(figureOf(radial.bivariateVariable)).toBeCloseTo(expected.bivariateVariableError, 10);
    expect(figureOf(radial.total)).toBeCloseTo(expected.rootMeanSquareRadialError, 10);
  });

  // Source: reference/kinematics/trial-to-trial.json, worked by hand: no spread is a reason, not a zero with an interval.
  it.each(errors.filter(({ name }) => name === "identical errors"))("$name", ({ input }) => {
    const { along } = summarize(withErrors(input.e.map((e: number) => [e, 0]))).primaryError;
    expect(along.constant).toMatchObject({ ok: true, value: -2 });
    expect(along.variable).toEqual({ ok: false, why: "noSpread", unit: "px", n: 3 });
    expect(along.total).toMatchObject({ ok: true, value: 2 });
  });

  // Source: reference/learning/binomial.json, statsmodels proportion_confint; 81 of 263 as printed by Newcombe 1998 (from memory).
  it.each(intervals)("gives the share of $name with Wilson's interval", ({ input, expected }) => {
    const rows = Array.from({ length: input.n }, (_, i) => rowOf(i, { latency: 0.5 }, { outcome: i < input.k ? "hit" : "miss" }));
    const { hitAtFirstPress } = summarize(rows, { level: input.confidence });
    expect(hitAtFirstPress).toMatchObject({ ok: true, value: input.k / input.n, n: input.n, interval: expected.wilson.map(near) });
  });

  // Source: worked by hand on a target 10 wide: beyond 5 on either side is over and under, inside is within a radius of 5.
  it("counts what ended before, on and beyond the target", () => {
    const { onTarget, undershoot, overshoot, n, leftOut } = summarize(
      withErrors([
        [-6, 0],
        [-5, 0],
        [0, 0],
        [3, 4.5],
        [8, 0],
      ]),
    ).primaryError;
    expect([n, leftOut]).toEqual([5, 0]);
    expect([onTarget, undershoot, overshoot].map(figureOf)).toEqual([0.4, 0.2, 0.2]);
  });

  // Source: worked by hand: five endpoints, one of them without an axis, so that four can lie before or beyond.
  it("counts an endpoint without an axis by its distance only", () => {
    const rows = withErrors([
      [-6, 0],
      [0, 0],
      [2, 0],
      [8, 0],
    ]);
    const turned = rowOf(9, { latency: 0.5 }, { errors: { primary: { radial: 3, inside: true } }, flags: ["noAxis"] });
    const { n, along, radial, onTarget, undershoot, overshoot } = summarize([...rows, turned]).primaryError;
    expect([n, along.constant.n, radial.mean.n]).toEqual([5, 4, 5]);
    expect(onTarget).toMatchObject({ value: 0.6, n: 5 });
    expect([undershoot, overshoot]).toMatchObject([
      { value: 0.25, n: 4 },
      { value: 0.25, n: 4 },
    ]);
    expect(along.constant).toMatchObject({ value: 1 });
    expect(radial.mean).toMatchObject({ value: near(3.8) });
  });

  it("says which library made it, in the version of the package", () => {
    const { version } = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
    expect(summarize(sitting, { unit: "deg", level: 0.9 }).header).toEqual({
      library: "aimed-movement",
      version,
      schema: 1,
      options: { unit: "deg", level: 0.9, span: [1, 5.2] },
    });
  });
});

describe("summarize properties", () => {
  test.prop([rowsArb.filter((rows) => rows.length > 0)])("adds parts and waiting up to the wall time", (rows) => {
    const { time } = summarize(rows);
    const parts = Object.values(time.parts).reduce((sum, { total }) => sum + total, 0);
    expect(parts + time.waiting!).toBeCloseTo(time.wall, 9);
    expect(time.waiting!).toBeGreaterThanOrEqual(-1e-9);
    for (const { total, share } of Object.values(time.parts)) expect(share * time.wall).toBeCloseTo(time.wall > 0 ? total : 0, 9);
  });

  test.prop([simulatedArb], { numRuns: 20 })("adds up on simulated sittings", ({ recording }) => {
    const { time } = summarize(analyze(recording));
    const parts = Object.values(time.parts).reduce((sum, { total }) => sum + total, 0);
    expect(parts + time.waiting!).toBeCloseTo(time.wall, 9);
  });

  test.prop([rowsArb])("has total error squared equal to constant squared plus variable squared", (rows) => {
    const { primaryError, stopError, pressError } = summarize(rows);
    for (const { along, across, radial, n, leftOut } of [primaryError, stopError, pressError]) {
      expect(n + leftOut).toBe(rows.length);
      for (const { constant, variable, total } of [along, across]) {
        if (!constant.ok || !total.ok) continue;
        const spread = variable.ok ? variable.value : 0;
        expect(constant.value ** 2 + spread ** 2).toBeCloseTo(total.value ** 2, 9);
      }
      if (radial.centroid.ok && radial.bivariateVariable.ok && radial.total.ok)
        expect(radial.centroid.value ** 2 + radial.bivariateVariable.value ** 2).toBeCloseTo(radial.total.value ** 2, 9);
    }
  });

  test.prop([rowsArb, fc.integer()])("does not depend on the order of the rows but for rounding", (rows, turn) => {
    const at = rows.length === 0 ? 0 : Math.abs(turn) % rows.length;
    const turned = [...rows.slice(at), ...rows.slice(0, at)];
    const round = (summary: Summary): unknown =>
      JSON.parse(JSON.stringify(summary, (_, value) => (typeof value === "number" ? Math.round(value * 1e9) / 1e9 + 0 : value)));
    const sorted = (summary: Summary): unknown => round({ ...summary, flags: Object.fromEntries(Object.entries(summary.flags).sort()) });
    expect(sorted(summarize(turned))).toEqual(sorted(summarize(rows)));
  });

  test.prop([rowsArb])("is plain data without NaN: it survives JSON and cloning", (rows) => {
    const summary = summarize(rows);
    expect(JSON.parse(JSON.stringify(summary))).toEqual(summary);
    expect(structuredClone(summary)).toEqual(summary);
  });

  test.prop([rowsArb])("leaves the rows as they were", (rows) => {
    const before = structuredClone(rows);
    summarize(deepFreeze(rows));
    expect(rows).toEqual(before);
  });

  test.prop([rowsArb, fc.constantFrom(3, 1e9)])("does not care when the clock was zero", (rows, later) => {
    const shifted = rows.map((row) => ({
      ...row,
      times: Object.fromEntries(Object.entries(row.times).map(([name, time]) => [name, time + later])) as unknown as Acquisition["times"],
    }));
    const [one, two] = [summarize(rows), summarize(shifted)];
    expect(two.primaryError).toEqual(one.primaryError);
    expect(Math.abs(two.time.wall - one.time.wall)).toBeLessThan(1e-6);
    for (const part of Object.keys(one.time.parts) as (keyof Budget)[]) expect(two.time.parts[part].total).toBe(one.time.parts[part].total);
  });

  it("counts a row whose primary was short, and leaves it out of the primary error only", () => {
    const rows = withErrors([
      [1, 0],
      [2, 0],
      [3, 0],
    ]).map((row) => ({ ...row, errors: { ...row.errors, stop: errorOf(0, 1) } }));
    const flagged: Acquisition[] = [...rows, { ...rows[0], times: { ...rows[0].times, go: 5, end: 6 }, flags: ["shortPrimary"] }];
    const summary = summarize(flagged);
    expect(summary.flags).toEqual({ shortPrimary: 1 });
    expect([summary.primaryError.n, summary.primaryError.leftOut]).toEqual([3, 1]);
    expect(summary.primaryError.along.constant).toMatchObject({ value: 2, n: 3 });
    expect([summary.stopError.n, summary.stopError.leftOut]).toEqual([4, 0]);
  });

  it("leaves rows without boundaries out of the means of parts, not out of the totals", () => {
    const rows = [0, 1, 2].map((go) => rowOf(go, { latency: 0.25, primary: 0.25 }));
    const lost = rowOf(3, { verification: 0.5 }, { flags: ["missingData"] });
    const { parts } = summarize([...rows, lost]).time;
    expect(parts.verification.total).toBe(0.5);
    expect(parts.verification.mean).toMatchObject({ ok: true, value: 0, n: 3 });
    expect(parts.latency.median).toMatchObject({ ok: true, value: 0.25, n: 3 });
  });

  it("does not drop misses and timeouts from the time", () => {
    const timeout = rowOf(0, { latency: 3 }, { outcome: "timeout", flags: ["noMovement"] });
    const miss = rowOf(3, { latency: 0.25, primary: 0.25 }, { outcome: "miss" });
    const { time, hitAtFirstPress } = summarize([timeout, miss]);
    expect(time.parts.latency).toMatchObject({ total: 3.25, share: 3.25 / 3.5 });
    expect(hitAtFirstPress).toMatchObject({ value: 0, n: 2 });
  });

  it("knows of no waiting when rows of several people overlap", () => {
    const overlapping = [rowOf(0, { latency: 1 }), rowOf(0.5, { latency: 1 })];
    expect(summarize(overlapping).time.waiting).toBeNull();
    expect(summarize([rowOf(0, { latency: 1 }), rowOf(1, { latency: 1 })]).time.waiting).toBeCloseTo(0, 12);
  });
});

describe("summarize bad input", () => {
  it("gives reasons instead of figures when there are no rows", () => {
    const summary = summarize([]);
    const estimates: Estimate[] = [];
    JSON.stringify(summary, (_, value) => {
      if (value !== null && typeof value === "object" && "ok" in value) estimates.push(value);
      return value;
    });
    expect(estimates.length).toBeGreaterThan(50);
    for (const estimate of estimates) expect(estimate).toMatchObject({ ok: false, why: "tooFew", n: 0 });
    expect(summary.time).toMatchObject({ wall: 0, waiting: 0 });
    expect(summary.header.options.span).toEqual([0, 0]);
    expect(summarize([], { span: [3, 8] }).time).toMatchObject({ wall: 5, waiting: 5 });
  });

  it("gives no spread from a single row", () => {
    const { along } = summarize(withErrors([[2, 1]])).primaryError;
    expect(along.constant).toEqual({ ok: false, why: "tooFew", unit: "px", n: 1 });
    expect(along.variable).toEqual({ ok: false, why: "tooFew", unit: "px", n: 1 });
  });

  it.each([
    [{ level: 1 }, /summarize: options\.level must be above 0 and below 1, got 1/],
    [{ level: Number.NaN }, /options\.level must be above 0 and below 1, got NaN/],
    [{ span: [Number.NaN, 1] as const }, /summarize: options\.span\[0\] must be finite, got NaN/],
    [{ span: [9, 8] as const }, /summarize: options\.span\[1\] must be finite and at least 9, got 8/],
    [{ span: [1.5, 10] as const }, /summarize: options\.span must cover all rows, from 1 to 5\.2, got 1\.5 to 10/],
    [{ span: [0, 5] as const }, /summarize: options\.span must cover all rows, from 1 to 5\.2, got 0 to 5/],
  ])("names the option out of range: %o", (options, message) => {
    expect(() => summarize(sitting, options)).toThrow(message);
    expect(() => summarize(sitting, options)).toThrow(RangeError);
  });

  it("names what is no list of rows", () => {
    expect(() => summarize(undefined as never)).toThrow(/summarize: rows must be an array of acquisitions, got undefined/);
    expect(() => summarize(sitting[0] as never)).toThrow(TypeError);
  });
});
