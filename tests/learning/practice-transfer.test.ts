import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { BeforeAfter } from "../../src/learning/days/improvement.js";
import { type PracticeTransferOptions, practiceTransfer, type TransferScores } from "../../src/learning/practice-transfer.js";
import type { Estimate } from "../../src/math/estimate.js";

const task: BeforeAfter = { before: [1.02, 0.97, 1.05, 0.99, 1.01], after: [0.91, 0.88, 0.93, 0.9, 0.89] };
const trained: BeforeAfter = { before: [1.0, 1.03, 0.98, 1.04, 1.01], after: [0.72, 0.75, 0.7, 0.74, 0.71] };
const control: BeforeAfter = { before: [1.01, 0.98, 1.03, 1.0, 1.02], after: [0.98, 0.96, 1.0, 0.97, 0.99] };
const full: TransferScores = { ...task, trained, control };

/** Value and interval in one list. */
function figuresOf(estimate: Estimate): number[] {
  if (!estimate.ok) throw new Error(estimate.why);
  return [estimate.value, ...(estimate.interval ?? [])];
}
const close = (values: readonly number[], digits: number): unknown[] => values.map((value) => expect.closeTo(value, digits));
const reversed = ({ before, after }: BeforeAfter): BeforeAfter => ({ before: after, after: before });

describe("practiceTransfer against outside values", () => {
  const found = practiceTransfer(full);

  // Source: R 4.2.2: t.test (Welch) for the change; the difference of differences with degrees of freedom after Satterthwaite by R's arithmetic
  it("has the change and the difference of R", () => {
    expect(figuresOf(found.change)).toEqual(close([0.106, 0.06775470409031, 0.14424529590969], 12));
    expect(figuresOf(found.difference)).toEqual(close([0.078, 0.03554460036288, 0.12045539963712], 12));
  });

  // Source: R 4.2.2: Fieller's equation solved by uniroot; the control in both parts, the level before in both, the levels after in both
  it("has the percentages of R", () => {
    expect(figuresOf(found.percentage)).toEqual(close([30, 14.07540414556, 45.53094553796], 9));
    expect(figuresOf(found.relative)).toEqual(close([7.738095238095, 3.629415680094, 11.691268384476], 9));
    expect(figuresOf(found.symmetric)).toEqual(close([4.144527098831, 2.754461628495, 5.543573215647], 9));
  });

  // Source: the same, without a control
  it("has the carry-over and the upper bound of R", () => {
    const { carryOver } = practiceTransfer({ ...task, drill: trained });
    expect(figuresOf(carryOver)).toEqual(close([0.3680555555556, 0.2371932180215, 0.508402152119], 10));
    const known = practiceTransfer({ ...task, trained: { gain: 0.3, standardError: 0.02 } });
    expect(figuresOf(known.percentage)).toEqual(close([35.33333333333, 22.86703198126, 49.41052207051], 8));
    expect(known.upperBound).toBe(true);
  });

  // Source: closed form: without spread, half of what direct training gives, and the published formula 100 (X1 - X0)/D
  it("follows the formula where nothing scatters", () => {
    const { percentage } = practiceTransfer(
      { before: [4, 4], after: [6, 6], trained: { before: [4, 4], after: [8, 8] } },
      { better: "higher" },
    );
    expect(figuresOf(percentage)).toEqual([50, 50, 50]);
  });
});

describe("practiceTransfer properties", () => {
  const value = fc.integer({ min: 1, max: 5000 }).map((v) => v / 1000);
  const pair = fc.record({ before: fc.array(value, { maxLength: 7 }), after: fc.array(value, { maxLength: 7 }) });
  const any = fc
    .tuple(pair, fc.record({ trained: pair, control: pair, drill: pair }, { requiredKeys: [] }))
    .map(([own, others]): TransferScores => ({ ...own, ...others }));

  test.prop([any, fc.constantFrom("lower" as const, "higher" as const)])(
    "leaves its input alone and returns plain data",
    (given, better) => {
      const result = practiceTransfer(Object.freeze(given), Object.freeze({ better }));
      expect(JSON.parse(JSON.stringify(result))).toEqual(result);
      expect(structuredClone(result)).toEqual(result);
      for (const estimate of [result.change, result.difference, result.percentage, result.relative, result.symmetric, result.carryOver]) {
        if (!estimate.ok) continue;
        const [least, most] = estimate.interval!;
        const hair = 1e-9 * Math.max(1, Math.abs(estimate.value));
        expect(least - hair <= estimate.value && estimate.value <= most + hair).toBe(true);
      }
    },
  );

  it("is 100 % when it does as much as direct training, with or without a control", () => {
    expect(figuresOf(practiceTransfer({ ...trained, trained, control }).percentage)[0]).toBeCloseTo(100, 9);
    expect(figuresOf(practiceTransfer({ ...trained, trained }).percentage)[0]).toBeCloseTo(100, 9);
  });

  it("gives an upper bound and says so without a control", () => {
    const bound = practiceTransfer({ ...task, trained });
    expect(bound.warnings).toEqual(["noControl"]);
    expect(figuresOf(bound.percentage)[0]).toBeGreaterThan(figuresOf(practiceTransfer(full).percentage)[0]!);
    expect(bound.symmetric).toEqual({ ok: false, why: "tooFew", unit: "%", n: 0 });
    expect(bound.difference).toEqual(bound.change);
  });

  it("names negative transfer", () => {
    const { verdict, warnings, percentage } = practiceTransfer({ ...reversed(task), trained, control });
    expect(verdict).toBe("negative");
    expect(warnings).toEqual(["negativeTransfer"]);
    expect(figuresOf(percentage)[2]).toBeLessThan(0);
  });

  it("turns round with the measure", () => {
    const turned = { ...reversed(task), trained: reversed(trained), control: reversed(control) };
    const one = practiceTransfer(full);
    const other = practiceTransfer(turned, { better: "higher" });
    expect(figuresOf(other.percentage)).toEqual(close(figuresOf(one.percentage), 9));
    expect(figuresOf(other.difference)).toEqual(close(figuresOf(one.difference), 12));
    expect([one.verdict, other.verdict]).toEqual(["positive", "positive"]);
  });

  it("does not depend on the unit nor on what is added to every value, but for shares of the level", () => {
    const change = (to: (v: number) => number): TransferScores => {
      const each = ({ before, after }: BeforeAfter): BeforeAfter => ({ before: Array.from(before, to), after: Array.from(after, to) });
      return { ...each(task), trained: each(trained), control: each(control) };
    };
    expect(figuresOf(practiceTransfer(change((v) => 1000 * v)).percentage)).toEqual(close(figuresOf(practiceTransfer(full).percentage), 8));
    expect(figuresOf(practiceTransfer(change((v) => v + 5)).percentage)).toEqual(close(figuresOf(practiceTransfer(full).percentage), 8));
  });

  it("divides by nothing that is not shown", () => {
    const { percentage, carryOver, warnings } = practiceTransfer({
      ...task,
      trained: control,
      control,
      drill: { before: control.after, after: control.after },
    });
    expect(percentage).toMatchObject({ ok: false, why: "notIdentified" });
    expect(carryOver).toMatchObject({ ok: false, why: "notIdentified" });
    expect(warnings).toEqual(["trainingNotShown", "drillNotShown"]);
  });
});

describe("practiceTransfer bad input", () => {
  it("is not ok with fewer than two values or without what a score needs", () => {
    const { change, percentage, carryOver, verdict, warnings } = practiceTransfer({ before: [1], after: [0.9, 0.8] });
    expect(change).toEqual({ ok: false, why: "tooFew", unit: "s", n: 1 });
    expect(percentage).toEqual({ ok: false, why: "tooFew", unit: "%", n: 0 });
    expect(carryOver).toEqual({ ok: false, why: "tooFew", unit: "1", n: 0 });
    expect(verdict).toBe("notShown");
    expect(warnings).toEqual(["fewValues", "noControl"]);
  });

  it.each([
    ["scores must be an object, got null", TypeError, null, {}],
    ["scores.before must be a list of numbers, got undefined", TypeError, { after: [1] }, {}],
    ["scores.after[1] must be finite, got Infinity", RangeError, { before: [1], after: [1, Number.POSITIVE_INFINITY] }, {}],
    ["scores.trained must be an object, got 3", TypeError, { ...task, trained: 3 }, {}],
    [
      "scores.trained.standardError must be finite and at least 0, got -1",
      RangeError,
      { ...task, trained: { gain: 1, standardError: -1 } },
      {},
    ],
    ["scores.trained.gain must be finite, got NaN", RangeError, { ...task, trained: { gain: Number.NaN } }, {}],
    ["scores.control.after must be a list of numbers, got undefined", TypeError, { ...task, control: { before: [1] } }, {}],
    ["scores.drill must be an object, got null", TypeError, { ...task, drill: null }, {}],
    ["options.level must be above 0 and below 1, got 2", RangeError, task, { level: 2 }],
    ['options.better must be one of "lower", "higher", got ""', RangeError, task, { better: "" }],
  ] as const)("says: %s", (message, kind, given, options) => {
    const run = (): unknown => practiceTransfer(given as unknown as TransferScores, options as PracticeTransferOptions);
    expect(run).toThrow(kind);
    expect(run).toThrow(`practiceTransfer: ${message}`);
  });
});
