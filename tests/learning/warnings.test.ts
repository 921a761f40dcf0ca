// When a warning is said and when not, at the edges that the docs state. Each rule is asked directly, with all else out of the way.
import { describe, expect, it } from "vitest";
import { reliabilityWarnings } from "../../src/learning/agreement/reliability-warnings.js";
import type { ScoreTable, VarianceTable } from "../../src/learning/agreement/score-table.js";
import { changeWarnings } from "../../src/learning/change/change-warnings.js";
import { isFar } from "../../src/learning/curve/curve-warnings.js";
import type { SessionFit } from "../../src/learning/days/fit-sessions.js";
import type { SessionStructure } from "../../src/learning/days/structure.js";
import { structureWarnings } from "../../src/learning/days/structure-warnings.js";
import { plateauWarnings } from "../../src/learning/plateau/plateau-warnings.js";
import type { Estimate } from "../../src/math/estimate.js";

function share(low: number, high: number): Estimate {
  return { ok: true, value: (low + high) / 2, unit: "1", n: 9, interval: [low, high], level: 0.95 };
}

describe("warnings on the structure of sessions", () => {
  const ranges = (count: number, trials: number, day: number | null = 1) =>
    Array.from({ length: count }, (_, k) => ({ from: k * trials, to: (k + 1) * trials, day: day === null ? null : day + k }) as never);
  const nights = (raw: Estimate, corrected: Estimate) => ({ raw: { share: raw }, corrected: { share: corrected } }) as never;
  const calm = nights(share(-0.1, 0.1), share(-0.1, 0.1));
  const fitWith = (over: object): SessionFit =>
    ({ warmUpShown: true, shape: { rateInside: true }, slopeTakenAs: "fatigue", corrected: undefined, ...over }) as never;
  const said = (sessions: never[], over: object | undefined, overnight: never = calm, better: SessionStructure["better"] = "lower") =>
    structureWarnings(sessions, over && fitWith(over), overnight, better);

  it("count sessions to five and trials to twenty", () => {
    expect(said(ranges(5, 20), {})).toEqual([]);
    expect(said(ranges(4, 20), {})).toEqual(["fewSessions"]);
    expect(said(ranges(5, 19), {})).toEqual(["fewTrials"]);
    expect(said([...ranges(4, 20), ...ranges(1, 19)], {})).toEqual(["fewTrials"]);
    expect(said(ranges(5, 20, null), {})).toEqual(["noDays"]);
    expect(said([...ranges(4, 20), ...ranges(1, 20, null)], {})).toEqual(["noDays"]);
  });
  it("tell what the fit did not find or took for something", () => {
    const enough = ranges(5, 20);
    expect(said(enough, { warmUpShown: false })).toEqual(["noWarmUp"]);
    expect(said(enough, { shape: { rateInside: false } })).toEqual(["rateAtLimit"]);
    expect(said(enough, { slopeTakenAs: "gain" })).toEqual(["gainWithinSession"]);
    const correlated = (p: number) => ({ corrected: { autocorrelation: { p } } });
    expect(said(enough, correlated(0.05))).toEqual(["autocorrelated"]);
    expect(said(enough, correlated(0.051))).toEqual([]);
    expect(said(enough, undefined)).toEqual([]);
  });
  it("tell where the uncorrected change of a night misleads, whichever way is better", () => {
    const enough = ranges(5, 20);
    const falls = share(-0.3, -0.1);
    const rises = share(0.1, 0.3);
    const open = share(-0.1, 0.1);
    expect(said(enough, {}, nights(falls, open))).toEqual(["fatigueMistakenForGain"]);
    expect(said(enough, {}, nights(rises, open))).toEqual(["warmUpMistakenForLoss"]);
    expect(said(enough, {}, nights(rises, falls))).toEqual(["warmUpMistakenForLoss"]);
    expect(said(enough, {}, nights(falls, open), "higher")).toEqual(["warmUpMistakenForLoss"]);
    expect(said(enough, {}, nights(rises, open), "higher")).toEqual(["fatigueMistakenForGain"]);
    expect(said(enough, {}, nights(falls, falls))).toEqual([]);
    expect(said(enough, {}, nights(open, falls))).toEqual([]);
    // an interval that ends at 0 holds it
    expect(said(enough, {}, nights(share(-0.3, 0), open))).toEqual([]);
    expect(said(enough, {}, nights(share(0, 0.3), open))).toEqual([]);
    expect(said(enough, {}, nights(falls, { ok: false, why: "tooFew", unit: "1", n: 2 }))).toEqual([]);
    expect(said(enough, undefined, nights(falls, open))).toEqual([]);
  });
});

describe("warnings on reliability", () => {
  const table = (rowMeans: number[], sizes: number[]): ScoreTable =>
    ({
      people: rowMeans.length,
      sessions: 2,
      mean: 0,
      rowMeans: Float64Array.from(rowMeans),
      columnMeans: new Float64Array(2),
      residuals: Float64Array.from(sizes.flatMap((size) => [size, -size])),
    }) as ScoreTable;
  const level = (count: number) =>
    table(
      Array.from({ length: count }, (_, i) => i),
      Array.from({ length: count }, (_, i) => (i % 2 === 0 ? 1 : 2)),
    );
  const sessionTest = (p: number) => ({ sessionTest: { f: 4, p } }) as VarianceTable;

  it("speak of few people from two to nine, and of the group from two on", () => {
    expect(reliabilityWarnings(level(1), null, 0.95)).toEqual([]);
    expect(reliabilityWarnings(level(2), null, 0.95)).toEqual(["fewPeople", "groupNotPerson"]);
    expect(reliabilityWarnings(level(9), null, 0.95)).toEqual(["fewPeople", "groupNotPerson"]);
    expect(reliabilityWarnings(level(10), null, 0.95)).toEqual(["groupNotPerson"]);
  });
  it("speak of learning below 1 - level alone", () => {
    // 0.25 = 1 - 0.75 exactly
    expect(reliabilityWarnings(level(10), sessionTest(0.2499), 0.75)).toContain("learningBetweenSessions");
    expect(reliabilityWarnings(level(10), sessionTest(0.25), 0.75)).not.toContain("learningBetweenSessions");
    expect(reliabilityWarnings(level(10), { sessionTest: null } as VarianceTable, 0.75)).toEqual(["groupNotPerson"]);
  });
  // Source: SciPy 1.10.1 stats.pearsonr([1, 2, 3, 4], sizes, alternative="greater"): sizes (1, 2, 3, 3) p = 0.0281, (1, 3, 2, 4) p = 0.1, (4, 3, 2, 1) p = 1
  it.each([
    [[1, 2, 3, 3], true],
    [[1, 3, 2, 4], false],
    [[4, 3, 2, 1], false],
    [[2, 2, 2, 2], false],
    [[1, 2, 3, 4], true],
  ])("speak of errors that grow with the level for sizes %j: %s", (sizes, says) => {
    expect(reliabilityWarnings(table([1, 2, 3, 4], sizes), sessionTest(1), 0.95).includes("proportionalError")).toBe(says);
    expect(reliabilityWarnings(table([1, 2, 3, 4], sizes), null, 0.95)).not.toContain("proportionalError");
  });
  it("ask four people for that, who differ", () => {
    expect(reliabilityWarnings(table([1, 2, 3], [1, 2, 3]), sessionTest(1), 0.95)).not.toContain("proportionalError");
    expect(reliabilityWarnings(table([2, 2, 2, 2], [1, 2, 3, 4]), sessionTest(1), 0.95)).not.toContain("proportionalError");
  });
});

describe("warnings on a change", () => {
  const steady = { before: Float64Array.of(1, 2, 3, 4, 5), after: Float64Array.of(2, 3, 4, 5, 6) };
  const none = { r: 0, p: null } as never;
  const said = (over: { fewest?: number; level?: number; p?: number | null; smallestP?: number; trended?: boolean; sessions?: object }) =>
    changeWarnings(
      (over.sessions ?? steady) as never,
      over.fewest ?? 5,
      over.level ?? 0.95,
      over.p === undefined ? none : ({ r: 0.5, p: over.p } as never),
      over.smallestP === undefined ? null : ({ smallestP: over.smallestP } as never),
      over.trended ?? false,
    );
  it("are none, and each at its own edge", () => {
    expect(said({})).toEqual([]);
    expect(said({ fewest: 4 })).toEqual(["fewSessions"]);
    expect(said({ level: 0.75, smallestP: 0.25 })).toEqual([]);
    expect(said({ level: 0.75, smallestP: 0.2501 })).toEqual(["smallestPTooLarge"]);
    expect(said({ p: 0.0499 })).toEqual(["autocorrelated"]);
    expect(said({ p: 0.05 })).toEqual([]);
    expect(said({ trended: true })).toEqual(["trendWithin"]);
  });
  // Source: SciPy 1.10.1, two-sided F test of variances: 2 min(f.sf, f.cdf) of the ratio r^2 with 4 and 4 degrees of freedom is 0.05 at r = 3.0991
  it("compare the spreads of the two periods both ways, from five sessions on", () => {
    const wide = (factor: number) => ({ before: steady.before, after: steady.before.map((v) => factor * v) });
    expect(said({ sessions: wide(3.09) })).toEqual([]);
    expect(said({ sessions: wide(3.11) })).toEqual(["unequalSpread"]);
    expect(said({ sessions: wide(1 / 3.11) })).toEqual(["unequalSpread"]);
    expect(said({ sessions: wide(10), fewest: 4 })).toEqual(["fewSessions"]);
    expect(said({ sessions: wide(0) })).toEqual(["unequalSpread"]);
    expect(said({ sessions: { before: new Float64Array(5), after: new Float64Array(5) } })).toEqual([]);
    expect(said({ sessions: { differences: steady.before } })).toEqual([]);
  });
});

describe("warnings on a plateau", () => {
  const said = (over: {
    speaks?: string;
    gain?: number;
    autocorrelation?: number | null;
    since?: number;
    broken?: boolean;
    hitShare?: number[];
    day?: number[];
    from?: number;
  }) =>
    plateauWarnings({
      series: { day: over.day ?? [0, 7, 14], value: [1, 1, 1], ...(over.hitShare && { hitShare: over.hitShare }) },
      from: over.from ?? 0,
      since: over.since ?? 0,
      broken: over.broken ?? false,
      trend: {
        slope: undefined,
        evidence: {
          speaks: over.speaks ?? "silent",
          chances: { worthwhileGain: 0, gain: over.gain ?? 0.5, loss: 1 - (over.gain ?? 0.5), worthwhileLoss: 0 },
          autocorrelation: over.autocorrelation ?? null,
        } as never,
      },
    });
  it("are none, and each beyond its own edge alone", () => {
    expect(said({})).toEqual([]);
    expect(said({ autocorrelation: 0.3 })).toEqual([]);
    expect(said({ autocorrelation: 0.301 })).toEqual(["autocorrelated"]);
    expect(said({ speaks: "for", gain: 0.975 })).toEqual(["realButSmall"]);
    expect(said({ speaks: "for", gain: 0.974 })).toEqual([]);
    expect(said({ speaks: "for", gain: 0.02 })).toEqual(["realButSmall"]);
    expect(said({ speaks: "against", gain: 0.99 })).toEqual([]);
    expect(said({ since: 1 })).toEqual(["equipmentChanged"]);
    expect(said({ broken: true })).toEqual(["earlierCourse"]);
  });
  it("look at the recent stretch alone", () => {
    expect(said({ hitShare: [1, 1, 0.97], from: 2 })).toEqual([]);
    expect(said({ hitShare: [0.98, 0.98, 0.98] })).toEqual(["taskTooEasy"]);
    expect(said({ hitShare: [0, 1, 1], from: 1 })).toEqual(["taskTooEasy"]);
    expect(said({ hitShare: [1, 0, 1], from: 1 })).toEqual([]);
    expect(said({ day: [0, 7.1, 14] })).toEqual(["break"]);
    expect(said({ day: [0, 20, 27], from: 1 })).toEqual([]);
    expect(said({ day: [0, 20, 28], from: 1 })).toEqual(["break"]);
  });
});

describe("practice farther out than the data carry", () => {
  // Source: the definition: 1.5 ranges from the first value on, half a range before it
  it.each([
    [25, false],
    [25.001, true],
    [5, false],
    [4.999, true],
    [12, false],
  ])("from 10 to 20: %d is far: %s", (at, far) => {
    expect(isFar({ practice: Float64Array.of(10, 12, 20), n: 3 } as never, at)).toBe(far);
  });
});
