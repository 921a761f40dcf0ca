// Reason, unit and count of every number that cannot be given; those of a fitted law are in fit-labels.test.ts.
import { describe, expect, it } from "vitest";
import { compare } from "../../src/learning/compare.js";
import { compareLearningCurves } from "../../src/learning/compare-learning-curves.js";
import { detectPlateau } from "../../src/learning/detect-plateau.js";
import { practiceRetention } from "../../src/learning/practice-retention.js";
import { practiceTransfer } from "../../src/learning/practice-transfer.js";
import { reliability } from "../../src/learning/reliability.js";
import { sessionStructure } from "../../src/learning/session-structure.js";
import { refusalsIn } from "./estimates-in.js";

/** Lines "path: reason, unit, n" for several paths with all else alike. */
const each = (paths: readonly string[], why: string, unit: string, n: number): string[] =>
  paths.map((path) => `${path}: ${why}, unit "${unit}", n ${n}`);
const counted = (value: readonly number[]) => ({ practice: value.map((_, i) => i + 1), value });

describe("compare refuses", () => {
  const s = { unit: "s" } as const;
  const all = (why: string, unit: string, n: number): string[] => [
    ...each(["change", "sessionSd"], why, unit, n),
    ...each(["sessionsNeeded"], why, "session", n),
    ...each(["autocorrelation/r"], why, "1", n),
  ];

  it("a change from one session, and the spread of that session", () => {
    expect(refusalsIn(compare([0.7], [0.6, 0.65], s))).toEqual([
      ...each(["before/centre"], "tooFew", "s", 1),
      ...each(["before/sd"], "tooFew", "%", 1),
      ...all("tooFew", "%", 3),
    ]);
    // the median of one value is that value
    expect(refusalsIn(compare([0.7], [0.6, 0.65], { ...s, kind: "difference", centre: "median" }))).toEqual([
      ...each(["before/sd"], "tooFew", "s", 1),
      ...all("tooFew", "s", 3),
    ]);
    expect(refusalsIn(compare([0.7], [0.6], { ...s, paired: true }))).toEqual([
      ...each(["before/centre"], "tooFew", "s", 1),
      ...each(["before/sd"], "tooFew", "%", 1),
      ...each(["after/centre"], "tooFew", "s", 1),
      ...each(["after/sd"], "tooFew", "%", 1),
      ...all("tooFew", "%", 1),
    ]);
  });

  it("a change without spread, by mean and by median, and of conditions that differ by the same each time", () => {
    const flat = [...each(["before/sd"], "noSpread", "s", 3), ...each(["after/sd"], "noSpread", "s", 4)];
    for (const centre of ["mean", "median"] as const) {
      const result = compare([0.7, 0.7, 0.7], [0.6, 0.6, 0.6, 0.6], { ...s, kind: "difference", centre });
      expect(refusalsIn(result)).toEqual([...flat, ...all("noSpread", "s", 7)]);
      expect(result).toMatchObject({
        equivalence: null,
        chances: null,
        verdict: "cannotTell",
        size: "unclear",
        minimalDetectable: null,
        detectable: null,
        autocorrelation: { p: null, allowedFor: 0 },
      });
      const paired = compare([1, 2, 4], [2, 3, 5], { ...s, kind: "difference", paired: true, centre });
      expect(refusalsIn(paired)).toEqual(all("noSpread", "s", 3));
    }
  });

  it("the correlation of neighbours in two sessions a period, and a number of sessions beyond a lifetime", () => {
    expect(refusalsIn(compare([1, 2], [2, 4], s))).toEqual(each(["autocorrelation/r"], "tooFew", "1", 4));
    // normal theory: 2 (1.96 + 0.84)^2 (s/d)^2, with scatter of about 10 % and a change of 0.01 % some 10^7
    const endless = compare([0.7, 0.9, 0.8, 0.75, 0.82], [0.7, 0.66, 0.8, 0.9, 0.7], { ...s, worthwhile: 0.01 });
    expect(refusalsIn(endless)).toEqual(each(["sessionsNeeded"], "notIdentified", "session", 10));
  });
});

describe("practiceTransfer refuses", () => {
  const cm = { unit: "cm" } as const;
  const task = { before: [1.02, 0.97, 1.05, 0.99, 1.01], after: [0.91, 0.88, 0.93, 0.9, 0.89] };
  const trained = { before: [1, 1.03, 0.98, 1.04, 1.01], after: [0.72, 0.75, 0.7, 0.74, 0.71, 0.73] };
  const flat = { before: [1, 2, 3], after: [1, 2.1, 2.9] };

  it("what nothing was measured for", () =>
    expect(refusalsIn(practiceTransfer(task, cm))).toEqual([
      ...each(["percentage", "symmetric"], "tooFew", "%", 0),
      ...each(["carryOver"], "tooFew", "1", 0),
    ]));
  it("everything of one value, and what needs a control of one", () => {
    const full = { trained, control: flat, drill: trained };
    expect(refusalsIn(practiceTransfer({ before: [1], after: [0.9, 0.8], ...full }, cm))).toEqual([
      ...each(["change", "difference"], "tooFew", "cm", 1),
      ...each(["percentage", "relative", "symmetric"], "tooFew", "%", 1),
      ...each(["carryOver"], "tooFew", "1", 1),
    ]);
    expect(refusalsIn(practiceTransfer({ ...task, ...full, control: { before: [1, 2], after: [1] } }, cm))).toEqual([
      ...each(["difference"], "tooFew", "cm", 1),
      ...each(["percentage", "relative", "symmetric"], "tooFew", "%", 1),
    ]);
    expect(refusalsIn(practiceTransfer({ ...task, trained: { before: [1, 2], after: [1] }, control: flat }, cm))).toContain(
      each(["percentage"], "tooFew", "%", 1)[0],
    );
  });
  it("ratios to a gain or a level that is not clear of 0", () => {
    const around = { before: [-1, 1, 0.5], after: [-2, 1, 0.2] };
    const others = { trained: flat, control: { before: [1, 2, 3], after: [-1, 2.1, -0.9] }, drill: flat };
    expect(refusalsIn(practiceTransfer({ ...around, ...others }, cm))).toEqual([
      ...each(["percentage", "relative", "symmetric"], "notIdentified", "%", 3),
      ...each(["carryOver"], "notIdentified", "1", 3),
    ]);
  });
});

describe("practiceRetention refuses", () => {
  const cm = { unit: "cm" } as const;

  it("what one value, or none, cannot tell", () => {
    expect(refusalsIn(practiceRetention({ start: [], end: [], retention: [] }, cm))).toEqual([
      ...each(["gain", "absolute", "difference"], "tooFew", "cm", 0),
      ...each(["percentage"], "tooFew", "%", 0),
    ]);
    expect(refusalsIn(practiceRetention({ start: [1], end: [0.7, 0.8], retention: [0.8, 0.8, 0.9] }, cm))).toEqual([
      ...each(["gain"], "tooFew", "cm", 1),
      ...each(["percentage"], "tooFew", "%", 1),
    ]);
  });
  it("a share of a gain that is not shown, and savings of a criterion that was not met", () => {
    const scores = { start: [1, 0.9, 1.1, 1], end: [1, 1.1, 0.9, 1.05], retention: [1, 1.1, 0.9, 1, 1] };
    const savings = {
      first: [
        [1, 1, 1],
        [1, 0.4],
      ],
      again: [[0.4], [0.4], [0.4]],
      criterion: 0.5,
    };
    expect(refusalsIn(practiceRetention({ ...scores, savings }, cm))).toEqual([
      ...each(["percentage"], "notIdentified", "%", 4),
      ...each(["savings/percent"], "notIdentified", "%", 2),
    ]);
  });
});

describe("reliability refuses", () => {
  const cm = { unit: "cm" } as const;
  const icc = ["1,1", "1,k", "2,1", "2,k", "3,1", "3,k"].map((form) => `icc/${form}`);
  const detectable = ["minimalDetectable/at95", "minimalDetectable/at90"];

  it("what one person, one session or nobody cannot tell", () => {
    const errors = (n: number, within: readonly string[]): string[] => [
      ...each(["typicalError"], "tooFew", "cm", n),
      ...each(["typicalErrorPercent"], "tooFew", "%", n),
      ...each([...within, ...detectable], "tooFew", "cm", n),
    ];
    expect(refusalsIn(reliability([], cm))).toEqual([...each(icc, "tooFew", "1", 0), ...errors(0, ["withinError"])]);
    expect(refusalsIn(reliability([[3, 4, 5]], cm))).toEqual([...each(icc, "tooFew", "1", 1), ...errors(3, [])]);
    expect(refusalsIn(reliability([[3], [5]], cm))).toEqual([
      ...each(icc, "tooFew", "1", 2),
      ...errors(2, ["withinError"]),
      ...each(["own/0/sd", "own/1/sd"], "tooFew", "cm", 1),
    ]);
  });

  it("everything of scores that are all alike", () =>
    expect(
      refusalsIn(
        reliability(
          [
            [4, 4],
            [4, 4],
            [4, 4],
          ],
          cm,
        ),
      ),
    ).toEqual([
      ...each(icc, "noSpread", "1", 3),
      ...each(["typicalError"], "noSpread", "cm", 6),
      ...each(["typicalErrorPercent"], "noSpread", "%", 6),
      ...each(["withinError", ...detectable], "noSpread", "cm", 6),
      ...each(["pairs/0/sdOfChange", "pairs/0/typicalError"], "noSpread", "cm", 3),
      ...each(["pairs/0/typicalErrorPercent"], "noSpread", "%", 3),
      ...each(["pairs/0/limits/low", "pairs/0/limits/high"], "noSpread", "cm", 3),
      ...each(["own/0/sd", "own/1/sd", "own/2/sd"], "noSpread", "cm", 2),
    ]));

  // Source: the formulas of Shrout and Fleiss, by hand: people [1, 3] and [3, 1] have the same mean, so that the mean square between people is 0, that of the
  // sessions is 0, too, and that of the errors 4. (BMS - EMS)/BMS and (BMS - WMS)/BMS divide by 0, and so does ICC(2,1): 0 + 4 + 2 (0 - 4)/2 = 0
  it("correlations that divide by the spread between people where there is none", () => {
    const result = reliability(
      [
        [1, 3],
        [3, 1],
      ],
      cm,
    );
    expect(refusalsIn(result)).toEqual(each(["icc/1,k", "icc/2,1", "icc/3,k"], "noSpread", "1", 2));
    // (0 - 2)/(0 + 2), (0 - 4)/(0 + (0 - 4)/2) and (0 - 4)/(0 + 4)
    const iccOf = (form: "1,1" | "2,k" | "3,1") => result.icc[form].ok && result.icc[form].value;
    expect([iccOf("1,1"), iccOf("2,k"), iccOf("3,1")]).toEqual([-1, 2, -1]);
  });
});

describe("sessionStructure refuses", () => {
  const day = [0.93, 0.86, 0.82, 0.8, 0.785, 0.78, 0.775, 0.78, 0.775, 0.78, 0.775, 0.78];
  const lists = [0, 1, 2, 3].map((j) => day.map((v, k) => v - 0.01 * j + 0.002 * ((3 * k + j) % 4)));
  const columns = (of: readonly (readonly number[])[], days?: readonly number[]) => ({
    session: of.flatMap((list, j) => list.map(() => j)),
    value: of.flat(),
    ...(days === undefined ? {} : { day: of.flatMap((list, j) => list.map(() => days[j]!)) }),
  });
  const cm = { unit: "cm" } as const;
  const effect = (path: string, why: string, n: number, per = ""): string[] => [
    ...each([`${path}/share`], why, `1${per}`, n),
    ...each([`${path}/amount`], why, `cm${per}`, n),
  ];
  const fitted = (why: string, n: number, raw: readonly string[]): string[] => [
    ...effect("warmUp/decrement", why, n),
    ...each(["warmUp/length"], why, "trial", n),
    ...effect("slope", why, n, "/trial"),
    ...each(["endToBest"], why, "1", n),
    ...effect("overnight/corrected", why, n),
    ...effect("overnight/warmUpRemoved", why, n),
    ...raw,
    ...effect("afterBreak/change", why, n),
    ...each(["sessionSd", "autocorrelation"], why, "1", n),
  ];

  it("all that two sessions cannot tell, and none", () => {
    const two = sessionStructure(columns(lists.slice(0, 2), [0, 1]), cm);
    expect(refusalsIn(two)).toEqual(fitted("tooFew", 2, effect("overnight/raw", "tooFew", 1)));
    const none = sessionStructure({ session: [], value: [] }, cm);
    expect(refusalsIn(none)).toEqual(fitted("tooFew", 0, effect("overnight/raw", "tooFew", 0)));
    expect(none.warnings).toEqual(["fewSessions"]);
  });
  it("all that needs spread where values are alike", () =>
    expect(refusalsIn(sessionStructure(columns(lists.map((list) => list.map(() => 2))), cm))).toEqual(fitted("noSpread", 4, [])));
  it("nights and breaks that there were none of", () => {
    expect(refusalsIn(sessionStructure(columns(lists, [0.1, 0.2, 0.3, 0.4]), cm))).toEqual([
      ...effect("overnight/corrected", "tooFew", 4),
      ...effect("overnight/warmUpRemoved", "tooFew", 4),
      ...effect("overnight/raw", "tooFew", 0),
      ...effect("afterBreak/change", "tooFew", 4),
    ]);
    expect(refusalsIn(sessionStructure(columns(lists, [0, 1, 2, 3]), cm))).toEqual(effect("afterBreak/change", "tooFew", 4));
  });
  it("shares of a level that is below 0", () => {
    const below = columns(
      lists.map((list) => list.map((v) => v - 2)),
      [0, 1, 2, 9],
    );
    expect(refusalsIn(sessionStructure(below, { ...cm, errors: "normal" }))).toEqual([
      ...each(["warmUp/decrement/share"], "notIdentified", "1", 4),
      ...each(["slope/share"], "notIdentified", "1/trial", 4),
      ...each(["endToBest", "overnight/corrected/share", "overnight/warmUpRemoved/share"], "notIdentified", "1", 4),
      ...each(["overnight/raw/share"], "notIdentified", "1", 2),
      ...each(["afterBreak/change/share", "sessionSd"], "notIdentified", "1", 4),
    ]);
  });
  it("the length of a warm-up that was not found", () => {
    const steady = lists.map((list, j) => list.map((_, k) => 0.8 + 0.004 * ((7 * k + 3 * j) % 5)));
    const { warmUp, warnings } = sessionStructure(columns(steady), cm);
    expect(warnings).toContain("noWarmUp");
    expect(warmUp.length).toEqual({ ok: false, why: "notIdentified", unit: "trial", n: 4 });
  });
});

describe("detectPlateau refuses", () => {
  const flat = [0.61, 0.615, 0.612, 0.609, 0.611, 0.614, 0.61, 0.612];
  const of = (value: readonly number[]) => ({ day: value.map((_, i) => i), value });
  const lines = (why: string, asymptote: string, unit: string, n: number): string[] => [
    ...each(["evidence/trend/improvement"], why, unit, n),
    ...each(["evidence/asymptote/remaining"], asymptote, "1", n),
    ...each(["evidence/asymptote/projected"], asymptote, unit, n),
  ];

  it("a trend of three sessions, or of none", () => {
    for (const n of [0, 1, 3]) {
      const report = detectPlateau(of(flat.slice(0, n)));
      expect(refusalsIn(report)).toEqual(lines("tooFew", "tooFew", "%", n));
      expect(report.evidence.trend).toMatchObject({
        speaks: "silent",
        chances: { worthwhileGain: 0, gain: 0, loss: 0, worthwhileLoss: 0 },
        autocorrelation: null,
        sessionSd: null,
        independent: null,
      });
      expect(report.evidence.segments).toEqual({ speaks: "silent", levelOverCurve: null, levelSince: null, steps: [] });
      expect(report).toMatchObject({ verdict: "cannotTell", why: "tooFewSessions", detectable: null, sessionsNeeded: null });
    }
  });
  it("trend and end of equal values", () => {
    const difference = { kind: "difference", worthwhile: 1, unit: "cm" } as const;
    const report = detectPlateau(of(new Array<number>(12).fill(2)), difference);
    expect(refusalsIn(report)).toEqual(lines("noSpread", "noSpread", "cm", 12));
    expect(report).toMatchObject({ verdict: "cannotTell", why: "noScatter", detectable: null, sessionsNeeded: null });
  });
  it("an end of what does not bend", () =>
    expect(refusalsIn(detectPlateau(of(flat)))).toEqual(lines("", "notIdentified", "%", 8).slice(1)));
});

describe("compareLearningCurves refuses", () => {
  it("what no law foretells, with the laws' own reason", () => {
    const few = compareLearningCurves(counted([1.3]), { predict: [9, 10], unit: "cm" });
    expect(few.averaged).toEqual([9, 10].map(() => ({ ok: false, why: "tooFew", unit: "cm", n: 1 })));
    expect(few).toMatchObject({ chosen: null, foretold: 0, effectiveN: 1, n: 1 });
    for (const entry of few.curves) {
      expect(entry).toMatchObject({ bicDifference: null, aiccDifference: null, weight: null, futureError: null, worse: false });
    }
  });
  // Source: laws with an end that a straight line does not show foretell nothing far beyond it, and they are all there is
  it("what laws without a known end would foretell far out", () => {
    const line = counted([1, 0.9, 0.81, 0.69, 0.61, 0.5, 0.39, 0.31, 0.2, 0.1]);
    const { averaged } = compareLearningCurves(line, { laws: ["power3", "exponential3"], predict: [11, 500], unit: "cm" });
    expect(averaged[0]).toMatchObject({ ok: true, unit: "cm", n: 10, level: 0.95 });
    expect(averaged[1]).toEqual({ ok: false, why: "notIdentified", unit: "cm", n: 10 });
  });
});
