// What practiceTransfer and practiceRetention do with the direction of the measure, known improvements, and their warnings.
import { fc, test } from "@fast-check/vitest";
import { mean } from "simple-statistics";
import { describe, expect, it } from "vitest";
import type { BeforeAfter } from "../../src/learning/days/improvement.js";
import { practiceRetention } from "../../src/learning/practice-retention.js";
import { practiceTransfer, type TransferScores } from "../../src/learning/practice-transfer.js";
import type { Estimate } from "../../src/math/estimate.js";
import { labelsIn } from "./estimates-in.js";

const task: BeforeAfter = { before: [1.02, 0.97, 1.05, 0.99, 1.01], after: [0.91, 0.88, 0.93, 0.9, 0.89] };
const trained: BeforeAfter = { before: [1, 1.03, 0.98, 1.04, 1.01], after: [0.72, 0.75, 0.7, 0.74, 0.71, 0.73] };
const control: BeforeAfter = { before: [1.01, 0.98, 1.03, 1, 1.02, 1], after: [0.98, 0.96, 1, 0.97, 0.99, 1] };

const figures = (estimate: Estimate): number[] => (estimate.ok ? [estimate.value, ...estimate.interval!] : []);
const close = (values: readonly number[], digits: number): unknown[] => values.map((value) => expect.closeTo(value, digits));
/** Tight lists about a level, so that every ratio is identified. */
const about = (level: fc.Arbitrary<number>) =>
  level.chain((v) =>
    fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 3, maxLength: 6 }).map((all) => all.map((d, i) => v + (d + i) / 1000)),
  );
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const lists = fc.record({ before: about(between(3, 4)), after: about(between(2, 2.5)) });
const untrained = fc.record({ before: about(between(3, 4)), after: about(between(2.8, 3)) });
const m = (list: ArrayLike<number>): number => mean(Array.from(list));

describe("the scores of transfer", () => {
  // Source: the formulas of the docstrings, on means by simple-statistics 7.12.1: improvements above 0 when better; 100 (C - X)/(C + X) of the levels after,
  // turned round where higher is better
  test.prop([lists, lists, untrained, lists, fc.boolean()], { numRuns: 60 })("are their formulas", (own, direct, none, drill, lower) => {
    const sign = lower ? 1 : -1;
    const gain = ({ before, after }: BeforeAfter): number => sign * (m(before) - m(after));
    const found = practiceTransfer({ ...own, trained: direct, control: none, drill }, { better: lower ? "lower" : "higher" });
    const net = gain(own) - gain(none);
    const value = (estimate: Estimate): number => figures(estimate)[0]!;
    expect(value(found.change)).toBeCloseTo(gain(own), 10);
    expect(value(found.difference)).toBeCloseTo(net, 10);
    if (found.percentage.ok) expect(value(found.percentage)).toBeCloseTo((100 * net) / (gain(direct) - gain(none)), 7);
    expect(value(found.relative)).toBeCloseTo((100 * net) / m(own.before), 8);
    expect(value(found.symmetric)).toBeCloseTo((sign * 100 * (m(none.after) - m(own.after))) / (m(none.after) + m(own.after)), 8);
    expect(value(found.carryOver)).toBeCloseTo(gain(own) / gain(drill), 8);
  });

  // Source: the same scores turned round: for a measure that should rise, every sign of difference, relative and symmetric turns
  test.prop([lists, untrained], { numRuns: 40 })("turn their sign with the direction that is better", (own, none) => {
    const one = practiceTransfer({ ...own, control: none });
    const other = practiceTransfer({ ...own, control: none }, { better: "higher" });
    for (const name of ["change", "difference", "relative", "symmetric"] as const) {
      const [value, low, high] = figures(one[name]) as [number, number, number];
      expect(figures(other[name]), name).toEqual(close([-value, -high, -low], 8));
    }
  });

  // Source: SciPy 1.10.1 stats.ttest_ind(equal_var=False) of the two lists, with Welch's degrees of freedom and stats.t.ppf at both levels
  it("have the interval of their level", () => {
    expect(figures(practiceTransfer(task, { level: 0.9 }).change)).toEqual(close([0.106, 0.07541190825416837, 0.1365880917458318], 9));
    expect(figures(practiceTransfer(task).change)).toEqual(close([0.106, 0.06775470409031, 0.14424529590969], 12));
  });

  // Source: closed form: an improvement known without error divides as a number does
  it("divide by a known improvement", () => {
    const known = practiceTransfer({ ...task, trained: { gain: 0.2 } });
    const [value, low, high] = figures(known.change) as [number, number, number];
    expect(figures(known.percentage)).toEqual(close([500 * value, 500 * low, 500 * high], 9));
    expect(known.percentage).toMatchObject({ n: 5, unit: "%" });
    // a gain below its error, or turned to a loss, is none to compare with
    expect(practiceTransfer({ ...task, trained: { gain: 0.2, standardError: 0.3 } }).percentage).toMatchObject({
      ok: false,
      why: "notIdentified",
    });
    expect(practiceTransfer({ ...task, trained: { gain: -0.2 } }).warnings).toContain("trainingNotShown");
    expect(known.warnings).not.toContain("trainingNotShown");
  });

  it("carry unit, count of the shortest list and level", () => {
    const full = practiceTransfer({ ...task, trained, control, drill: trained }, { unit: "cm", level: 0.9 });
    expect(labelsIn(full)).toEqual([
      ...["change", "difference"].map((path) => `${path}: unit "cm", n 5, level 0.9`),
      ...["percentage", "relative", "symmetric"].map((path) => `${path}: unit "%", n 5, level 0.9`),
      'carryOver: unit "1", n 5, level 0.9',
    ]);
    expect(full).toMatchObject({ unit: "cm", level: 0.9, better: "lower", upperBound: false, verdict: "positive", warnings: [] });
    expect(practiceTransfer(task).change).toMatchObject({ unit: "s", level: 0.95 });
  });

  it("warn of each list that is short, and of nothing else", () => {
    const short = (lists: BeforeAfter): BeforeAfter => ({ before: Array.from(lists.before).slice(0, 4), after: lists.after });
    const warned = (scores: TransferScores) => practiceTransfer(scores).warnings;
    expect(warned({ ...task, trained, control })).toEqual([]);
    expect(warned({ ...short(task), trained, control })).toEqual(["fewValues"]);
    expect(warned({ ...task, trained: short(trained), control })).toEqual(["fewValues"]);
    expect(warned({ ...task, trained, control: short(control) })).toEqual(["fewValues"]);
    expect(warned({ ...task, control, drill: short(trained) })).toEqual(["fewValues"]);
    expect(warned({ ...task, control, drill: trained })).toEqual([]);
    expect(practiceTransfer({ ...control, trained, control }).verdict).toBe("notShown");
  });
});

describe("the scores of retention", () => {
  // Source: as above: gain from start to end, loss from end to test, and 100 loss/gain
  test.prop([about(between(3, 4)), about(between(2, 2.4)), about(between(2.4, 2.8)), fc.boolean()], { numRuns: 40 })(
    "are their formulas",
    (start, end, retention, lower) => {
      const sign = lower ? 1 : -1;
      const found = practiceRetention({ start, end, retention }, { better: lower ? "lower" : "higher", unit: "cm", level: 0.9 });
      expect(figures(found.gain)[0]).toBeCloseTo(sign * (m(start) - m(end)), 10);
      expect(figures(found.difference)[0]).toBeCloseTo(sign * (m(retention) - m(end)), 10);
      expect(figures(found.absolute)[0]).toBeCloseTo(m(retention), 10);
      expect(figures(found.percentage)[0]).toBeCloseTo((100 * (m(retention) - m(end))) / (m(start) - m(end)), 7);
      expect(found.warnings.includes("gainNotShown")).toBe(!lower);
    },
  );

  const kept = {
    start: [1, 1.1, 1.05, 1.02, 1.03, 1.1],
    end: [0.7, 0.72, 0.69, 0.71, 0.7],
    retention: [0.75, 0.78, 0.74, 0.76, 0.77, 0.75, 0.75],
  };
  it("carry unit, count of the shortest list that they rest on, and level", () => {
    const savings = {
      first: [
        [1, 1, 0.5],
        [1, 0.5],
      ],
      again: [[1, 0.5], [0.5]],
      criterion: 0.6,
    };
    const full = practiceRetention({ ...kept, savings }, { unit: "cm", level: 0.9 });
    expect(labelsIn(full)).toEqual([
      'gain: unit "cm", n 5, level 0.9',
      'absolute: unit "cm", n 7, level 0.9',
      'difference: unit "cm", n 5, level 0.9',
      'percentage: unit "%", n 5, level 0.9',
      'savings/percent: unit "%", n 2, level 0.9',
    ]);
    expect(full).toMatchObject({ unit: "cm", level: 0.9, better: "lower", n: { start: 6, end: 5, retention: 7 }, warnings: [] });
    // 3 and 2 trials at first, 2 and 1 again: 100 (1 - 1.5/2.5)
    expect(full.savings).toMatchObject({
      criterion: 0.6,
      run: 1,
      first: [3, 2],
      again: [2, 1],
      bounds: [expect.closeTo(40, 12), expect.closeTo(40, 12)],
    });
    expect(figures(full.savings!.percent)[0]).toBeCloseTo(40, 10);
    expect(practiceRetention(kept).absolute).toMatchObject({ unit: "s", level: 0.95 });
    expect(practiceRetention(kept).savings).toBeNull();
  });
  it("warn of each list that is short", () => {
    for (const name of ["start", "end", "retention"] as const)
      expect(practiceRetention({ ...kept, [name]: kept[name].slice(0, 4) }).warnings, name).toEqual(["fewValues"]);
  });
  // Source: by hand: 2 trials to a value of at least 3, then 1; one of two tasks not relearned in 2 trials takes 3 or more: means 2 and at least 2
  it("count trials to a criterion in either direction, and bound what was not met", () => {
    const saved = (better: "lower" | "higher", first: number[][], again: number[][]) =>
      practiceRetention({ ...kept, savings: { first, again, criterion: 3 } }, { better }).savings!;
    expect(saved("higher", [[2, 3]], [[4]])).toMatchObject({ first: [2], again: [1], percent: { ok: true, value: 50, unit: "%", n: 1 } });
    expect(saved("lower", [[4, 3]], [[2]])).toMatchObject({ first: [2], again: [1] });
    expect(
      saved(
        "higher",
        [
          [1, 3],
          [1, 3],
        ],
        [[3], [1, 1]],
      ),
    ).toMatchObject({ again: [1, null], bounds: [null, 0] });
    expect(
      saved(
        "higher",
        [
          [1, 3],
          [1, 1],
        ],
        [[3], [3]],
      ).bounds,
    ).toEqual([expect.closeTo(60, 12), null]);
  });
});
