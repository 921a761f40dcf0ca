import { test } from "@fast-check/vitest";
import { median } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import { summarize } from "../../src/movement/summarize.js";
import { simulateRecording } from "../../src/simulate/simulate-recording.js";
import { mergeTallies } from "../../src/tally/merge-tallies.js";
import { readTally } from "../../src/tally/read-tally.js";
import { tally } from "../../src/tally/tally.js";
import type { MeasureReading, Tally, TallyOptions } from "../../src/tally/types.js";
import { choiceReachPeople, convertChoiceReach } from "../data/convert-choice-reach.js";
import { deepFreeze } from "../movement/simulated.js";
import { SHARED_ABSENT } from "../shared.js";
import { anyRowsArb, BOTH, rowWith } from "./values.js";

const people = choiceReachPeople();
/** Five people with 1, 2, 3, 2 and 1 sessions of two rows each. */
const MEANS: Readonly<Record<string, readonly number[]>> = { a: [3], b: [1, 3], c: [4, 4, 4], d: [-1, 0], e: [6] };
const club = mergeTallies(
  Object.entries(MEANS).flatMap(([person, sessions]) =>
    sessions.map((mean, i) => tally([rowWith(mean - 0.5), rowWith(mean + 0.5)], { ...BOTH, by: { person, session: String(i) } })),
  ),
);
const pressOf = (reading: ReturnType<typeof readTally>, at = 0): MeasureReading => reading.groups[at]!.measures.pressAfterStop!;

describe("readTally against outside values", () => {
  // Source: NumPy 2.4.6 mean and std(ddof=1), SciPy 1.17.1 stats.t.ppf: the people's means 3, 2, 4, -0.5 and 6.
  it("gives the mean of people with Student's interval", () => {
    const reading = readTally(club, { across: "person", by: [] });
    expect(reading.groups).toHaveLength(1);
    expect(reading.groups[0]).toMatchObject({ labels: {}, n: 18, units: 5 });
    const { mean, acrossUnits } = pressOf(reading);
    expect(mean).toEqual({ ok: true, value: expect.closeTo(24 / 9, 14), unit: "s", n: 18 });
    expect(acrossUnits!.mean).toMatchObject({ ok: true, value: expect.closeTo(2.9, 12), n: 5, level: 0.95 });
    expect(acrossUnits!.mean).toMatchObject({ interval: [expect.closeTo(-0.09032289389, 10), expect.closeTo(5.89032289389, 10)] });
    expect(acrossUnits!.sd).toMatchObject({ ok: true, value: expect.closeTo(2.4083189, 7) });
  });

  // Source: `summarize` of the same rows, whose figures are checked against NumPy, SciPy and statsmodels in tests/movement/summarize.test.ts.
  it("has the mean, its interval and the hit share of `summarize` where rows are the units", () => {
    const rows = analyze(simulateRecording({ seed: 9, movements: 80 }).recording);
    const { time, hitAtFirstPress, pressError, outcomes, flags } = summarize(rows);
    const options: TallyOptions = { measures: ["acquisitionTime", "hitShare", "pressAlong"], edges: { acquisitionTime: [0.5, 1] } };
    const { measures, ...group } = readTally(tally(rows, options), { across: "row" }).groups[0]!;
    const parts = [0, 1, 2].map((part) =>
      tally(
        rows.filter((_, i) => i % 3 === part),
        options,
      ),
    );
    expect(readTally(mergeTallies(parts), { across: "row" }).groups[0]).toEqual({ ...group, measures });
    expect(group).toMatchObject({ outcomes, flags });
    expect(measures.hitShare!.mean).toEqual(hitAtFirstPress);
    same(measures.acquisitionTime!, time.perAcquisition);
    same(measures.pressAlong!, pressError.along.constant);
    expect(measures.acquisitionTime!.histogram!.counts.reduce((a, b) => a + b)).toBe(rows.length);
  });

  // Source: choice-reach recordings (Kieslich and Henninger 2017): `summarize` of all rows at once, and the median by sorting.
  it.skipIf(people.length === 0)(`has the figures of the real recordings' rows (else: ${SHARED_ABSENT})`, () => {
    const own = people.map((person) => analyze(convertChoiceReach(person)));
    const rows = own.flat();
    const { time, peakSpeed } = summarize(rows);
    const whole = mergeTallies(own.map((list) => tally(list, { measures: ["acquisitionTime", "latency", "peakSpeed"] })));
    const { measures } = readTally(whole, { across: "row", quantiles: [0.5] }).groups[0]!;
    same(measures.acquisitionTime!, time.perAcquisition);
    same(measures.latency!, time.parts.latency.mean);
    same(measures.peakSpeed!, peakSpeed);
    const { estimate, within } = measures.latency!.quantiles[0]!;
    const truth = median(rows.map((row) => row.budget.latency));
    expect(within![0] <= truth && truth <= within![1]).toBe(true);
    expect(estimate.ok && Math.abs(estimate.value / truth - 1)).toBeLessThan(1 / 128);
    const exact = time.parts.latency.median;
    if (!estimate.ok || !exact.ok) throw new Error("both have a median");
    expect(estimate.level).toBeCloseTo(exact.level!, 12);
    expect(estimate.interval![0]).toBeLessThanOrEqual(exact.interval![0]);
    expect(estimate.interval![1]).toBeGreaterThanOrEqual(exact.interval![1]);
    expect(estimate.interval![1] - estimate.interval![0]).toBeLessThan(1.25 * (exact.interval![1] - exact.interval![0]));
  });

  function same(got: MeasureReading, wanted: MeasureReading["mean"]): void {
    if (!got.mean.ok || !wanted.ok) throw new Error("both have a mean");
    expect(got.mean.n).toBe(wanted.n);
    for (const [a, b] of [
      [got.mean.value, wanted.value],
      [got.mean.interval![0], wanted.interval![0]],
      [got.mean.interval![1], wanted.interval![1]],
    ] as const) {
      expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-12 * Math.abs(wanted.value));
    }
  }
});

describe("readTally properties", () => {
  it("gives no interval unless units are named", () => {
    const { header, groups } = readTally(club);
    expect(header).toMatchObject({ library: "aimed-movement", schema: 1, tally: club.header });
    expect(header.options).toEqual({ level: 0.95, quantiles: [0.05, 0.25, 0.5, 0.75, 0.95], by: ["person", "session"], across: null });
    expect(groups).toHaveLength(9);
    expect(JSON.stringify(groups)).not.toContain("interval");
    expect(groups.some(({ units }) => units !== undefined)).toBe(false);
  });

  it("keeps labels apart, or merges them", () => {
    expect(readTally(club, { by: ["person"] }).groups.map(({ labels, n }) => [labels, n])).toEqual(
      Object.entries(MEANS).map(([person, sessions]) => [{ person }, 2 * sessions.length]),
    );
    const bySession = readTally(club, { across: "person" }).groups;
    expect(bySession.map(({ labels, units }) => [labels, units])).toEqual([
      [{ session: "0" }, 5],
      [{ session: "1" }, 3],
      [{ session: "2" }, 1],
    ]);
    expect(bySession[2]!.measures.pressAfterStop!.acrossUnits!.mean).toEqual({ ok: false, why: "tooFew", unit: "s", n: 1 });
  });

  it("counts every unit alike, and units without the measure not at all", () => {
    const parts = [
      tally([rowWith(1, 5), rowWith(1), rowWith(1)], { ...BOTH, by: { person: "a" } }),
      tally([rowWith(3)], { ...BOTH, by: { person: "b" } }),
    ];
    const { measures, units } = readTally(mergeTallies(parts), { across: "person" }).groups[0]!;
    expect(units).toBe(2);
    expect(measures.pressAfterStop!.acrossUnits!.mean).toMatchObject({ value: 2, n: 2 });
    expect(measures.peakSpeed!.acrossUnits!.mean).toEqual({ ok: false, why: "tooFew", unit: "px/s", n: 1 });
  });

  it("says why there is no value", () => {
    const empty = readTally(tally([rowWith(undefined)], BOTH), { across: "row" }).groups[0]!;
    const none = { ok: false, why: "tooFew", unit: "s", n: 0 };
    expect(empty.measures.pressAfterStop).toMatchObject({ n: 0, missing: 1, min: null, max: null, mean: none, sd: none });
    expect(empty.measures.pressAfterStop!.quantiles[0]).toEqual({ p: 0.05, estimate: none, within: null });
    expect(empty.joint).toMatchObject({
      n: 0,
      covariance: [
        [null, null],
        [null, null],
      ],
    });
    const equal = readTally(
      tally(
        [1, 2, 3].map((speed) => rowWith(0.1, speed)),
        BOTH,
      ),
    ).groups[0]!;
    expect(equal.measures.pressAfterStop).toMatchObject({ sd: { ok: false, why: "noSpread" }, mean: { ok: true, value: 0.1 } });
    expect(equal.measures.pressAfterStop!.quantiles.map(({ estimate }) => estimate.ok && estimate.value)).toEqual(Array(5).fill(0.1));
    const column = equal.joint.measures.indexOf("pressAfterStop");
    expect(equal.joint.correlation[column]![1 - column]).toEqual({ ok: false, why: "noSpread", unit: "1", n: 3 });
    expect(equal.joint.correlation[1 - column]![1 - column]).toMatchObject({ value: 1 });
  });

  test.prop([anyRowsArb])("is plain data without gaps, quantiles within the range and correlations within 1", (rows) => {
    const reading = readTally(deepFreeze(tally(rows, { ...BOTH, by: { block: (row) => row.block } })), { across: "row", by: [] });
    expect(JSON.parse(JSON.stringify(reading))).toEqual(reading);
    for (const { measures, joint } of reading.groups) {
      for (const { min, max, quantiles } of Object.values(measures)) {
        for (const { estimate, within } of quantiles) {
          if (!estimate.ok) continue;
          const rounding = 1e-12 * Math.max(Math.abs(min!), Math.abs(max!));
          expect(estimate.value >= min! - rounding && estimate.value <= max! + rounding).toBe(true);
          expect(within![0] <= estimate.value + rounding && within![1] >= estimate.value - rounding).toBe(true);
        }
      }
      for (const value of joint.correlation.flat()) if (value.ok) expect(Math.abs(value.value)).toBeLessThanOrEqual(1);
    }
  });
});

describe("readTally bad input", () => {
  it.each([
    [() => readTally(null as never), "readTally: tally must be an object, got null"],
    [() => readTally({ ...club, groups: [{}] } as unknown as Tally), "readTally: tally.groups[0].n must be a whole number, got undefined"],
    [() => readTally(club, null as never), "readTally: options must be an object, got null"],
    [() => readTally(club, { level: 1 }), "options.level must be above 0 and below 1, got 1"],
    [() => readTally(club, { quantiles: 0.5 as never }), "options.quantiles must be a list of numbers, got 0.5"],
    [() => readTally(club, { quantiles: [0.5, 1] }), "options.quantiles[1] must be above 0 and below 1, got 1"],
    [() => readTally(club, { across: "block" }), 'options.across must be one of "row", "person", "session", got "block"'],
    [() => readTally(club, { by: "person" as never }), 'options.by must be a list of labels, got "person"'],
    [() => readTally(club, { by: ["block"] }), 'options.by[0] must be one of "person", "session", got "block"'],
    [() => readTally(club, { by: ["person"], across: "person" }), 'options.by[0] must be one of "session", got "person"'],
  ])("%#", (call, message) => expect(call).toThrow(message));
});
