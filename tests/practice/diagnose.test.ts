import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { Estimate } from "../../src/math/estimate.js";
import { createRandom } from "../../src/math/random.js";
import type { Acquisition, Flag } from "../../src/movement/types.js";
import { type DiagnoseOptions, diagnose } from "../../src/practice/diagnose.js";
import type { Diagnosis, Part, PartFinding, PractisedSession, Ruling } from "../../src/practice/types.js";
import { type RowInput, row, session } from "./rows.js";

const given = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);
const partOf = (found: Diagnosis, part: Part): PartFinding => found.parts.find((one) => one.part === part)!;
const rulingOf = (found: Diagnosis, factor: Ruling["factor"]): Ruling => found.rulings.find((one) => one.factor === factor)!;
const figures = (estimate: Estimate): readonly number[] =>
  estimate.ok && estimate.interval !== undefined ? [estimate.value, ...estimate.interval] : [];

/** A written-down session: twelve rows whose times follow from their place and the day by whole-number patterns. */
function written(day: number, more: { latency?: number; correction?: number; verification?: number } = {}): PractisedSession {
  const rows = Array.from({ length: 12 }, (_, i) => {
    const amplitude = [200, 400, 600, 300][i % 4]!;
    const width = [16, 40, 64][i % 3]!;
    const primaryError = [4, 14, 30, 9, 22][(i + day) % 5]!;
    const stopError = [3, 7, 12, 5][(2 * i + day) % 4]!;
    const k = (7 * i + 3 * day) % 11;
    const m = (5 * i + 2 * day) % 7;
    return row({
      trial: `${i}`,
      amplitude,
      width,
      primaryError,
      stopError,
      latency: 0.24 + 0.004 * k + 0.003 * day + (more.latency ?? 0),
      primary: 0.12 + 0.05 * Math.log2(amplitude / width + 1) + 0.003 * m + 0.002 * (day % 3),
      correction: 0.05 + 0.08 * Math.log2(primaryError / width + 1) + 0.002 * k - 0.001 * m + (more.correction ?? 0),
      verification: 0.06 + 0.001 * m + 0.02 * Math.log2(stopError / width + 1) + 0.002 * (day % 2) + (more.verification ?? 0),
    });
  });
  return session(day, rows);
}

const EARLIER = [1, 2, 3, 4].map((day) => written(day));
const NOW = [5, 6, 7, 8, 9].map((day) =>
  written(day, { latency: 0.01 * (day % 3), correction: 0.02 + 0.004 * (day % 2), verification: 0.005 }),
);

/** Sessions of a person drawn at random; `levels` shift single things. */
interface Levels {
  readonly latency?: number;
  readonly primary?: number;
  readonly correction?: number;
  readonly verification?: number;
  readonly scatter?: number;
  readonly corrections?: number;
}

function drawnRows(seed: number, levels: Levels = {}, rows = 40, more: RowInput = {}, last: Levels = {}): Acquisition[] {
  const random = createRandom(seed);
  return Array.from({ length: rows }, (_, i) => {
    const tired = i >= (2 * rows) / 3 ? last : {};
    const of = (name: keyof Levels): number => (levels[name] ?? 0) + (tired[name] ?? 0);
    const amplitude = random.uniform(150, 800);
    const width = random.pick([16, 24, 40, 64, 100]);
    const primaryError = Math.abs(random.normal(0, 0.05 * amplitude * (levels.scatter ?? 1)));
    const bits = Math.log2(primaryError / width + 1);
    const stopError = Math.abs(random.normal(0, 0.2 * width));
    const acquisition = row({
      trial: `${i}`,
      amplitude,
      width,
      primaryError,
      stopError,
      latency: random.normal(0.25, 0.03) + of("latency"),
      primary: (0.12 + 0.05 * Math.log2(amplitude / width + 1)) * Math.exp(random.normal(0, 0.05)) + of("primary"),
      correction: 0.1 + 0.2 * bits + random.normal(0, 0.02) + of("correction"),
      verification: random.normal(0.09, 0.015) + of("verification"),
      ...more,
    });
    return { ...acquisition, corrections: Array.from({ length: levels.corrections ?? 0 }, () => CORRECTION) };
  });
}

const CORRECTION: Acquisition["corrections"][number] = {
  start: 0.6,
  peak: 0.65,
  end: 0.7,
  peakSpeed: 200,
  dx: 10,
  dy: 0,
  errorBefore: { along: -12, across: 0, radial: 12, inside: true },
  errorAfter: { along: -2, across: 0, radial: 2, inside: true },
  latency: 0.05,
  fromPeak: 0.2,
  pause: 0.05,
  amplitude: 10,
  gain: 0.8,
  unnecessary: false,
  counterProductive: false,
};

const sessions = (from: number, levels: Levels = {}, more: RowInput = {}, last: Levels = {}): PractisedSession[] =>
  [0, 1, 2, 3, 4, 5].map((day) => session(from + day, drawnRows(1000 * from + day, levels, 40, more, last)));

const BEFORE = sessions(1);
const against = (now: readonly PractisedSession[], options: DiagnoseOptions = {}): Diagnosis =>
  diagnose(now, { reference: { earlier: BEFORE }, ...options });

describe("diagnose against outside values", () => {
  const found = diagnose(NOW, { reference: { earlier: EARLIER }, resamples: 20000 });
  // Source: NumPy 1.24.2 linalg.lstsq with a dummy column for every session of the reference, SciPy 1.10.1 stats.t.sf solved for its tails (stats.t.ppf errs in
  // the ninth digit at such degrees of freedom; R 4.2.2 qt agrees with the root), on the same twelve-row patterns
  it.each([
    ["nextTarget", 0.023783333333333354, 0.01261940619152272, 0.03494726047514399, 0.013598304094142897],
    ["primary", -0.000562730850384025, -0.0042792637977847, 0.0031538020970166493, 0.0044744435651889415],
    ["correction", 0.022289654406553283, 0.020086275547954176, 0.02449303326515239, 0.002718043083626752],
    ["stopAndPress", 0.005327950571797399, 0.0032284935351728377, 0.007427407608421961, 0.0025375388418134898],
  ] as const)("gives the excess of %s, its interval and what could be detected", (part, value, low, high, detectable) => {
    const one = partOf(found, part);
    expect(figures(one.excess)).toEqual([value, low, high].map((expected) => expect.closeTo(expected, 11)));
    expect(one.detectable).toBeCloseTo(detectable, 11);
  });
  // Source: as above
  it("parts the primary's excess into its own time and what its errors cost later, and gives the whole", () => {
    const { own, passedOn } = partOf(found, "primary");
    expect(figures(own)).toEqual([0.0003124999999999997, -0.0021925405329605583, 0.002817540532960558].map((x) => expect.closeTo(x, 11)));
    expect(figures(passedOn)).toEqual(
      [-0.0008752308503840245, -0.004476752397940702, 0.002726290697172652].map((x) => expect.closeTo(x, 11)),
    );
    expect(figures(found.totalExcess)).toEqual(
      [0.05083820746130002, 0.03850511859992592, 0.06317129632267413].map((x) => expect.closeTo(x, 11)),
    );
  });
  // Source: NumPy 1.24.2, 200000 resamples of sessions with another generator: 0.631 and 0.369; 20000 draws have a standard error of 0.0034
  it("gives the share of resamples in which a part cost most", () => {
    expect(Math.abs(partOf(found, "nextTarget").probabilityLargest - 0.631225)).toBeLessThan(0.0135);
    expect(Math.abs(partOf(found, "correction").probabilityLargest - 0.368775)).toBeLessThan(0.0135);
    expect(partOf(found, "stopAndPress").probabilityLargest).toBe(0);
  });
  it("says too few of 48 acquisitions", () => expect(found.verdict).toEqual({ kind: "cannotTell", why: "tooFew" }));

  // Source: arithmetic, the shifts that were planted; 40 rows of a standard deviation of 30 ms in six sessions leave 2 to 3 ms
  it.each([
    ["nextTarget", { latency: 0.08 }, 0.08],
    ["primary", { primary: 0.06 }, 0.06],
    ["correction", { correction: 0.07 }, 0.07],
    ["stopAndPress", { verification: 0.06 }, 0.06],
  ] as const)("names %s where only it was made slower", (part, levels, shift) => {
    const one = against(sessions(20, levels));
    expect(one.verdict).toEqual({ kind: "weakestPart", part });
    expect(one.parts[0]!.part).toBe(part);
    expect(Math.abs(given(one.parts[0]!.excess) - shift)).toBeLessThan(0.012);
    expect(one.parts[0]).toMatchObject({ evidence: "strong", confounds: [] });
  });
  // Source: arithmetic, correction takes 0.2 s a bit whatever the primary leaves; twice the scatter leaves more
  it("charges the primary, not the correction, with the time that its larger errors take to correct", () => {
    const one = against(sessions(20, { scatter: 2 }));
    expect(one.verdict).toEqual({ kind: "weakestPart", part: "primary" });
    expect(given(partOf(one, "primary").passedOn)).toBeGreaterThan(0.05);
    expect(Math.abs(given(partOf(one, "primary").own))).toBeLessThan(0.01);
    expect(Math.abs(given(partOf(one, "correction").excess))).toBeLessThan(0.02);
  });
  it("finds nothing where nothing was planted", () => {
    const one = against(sessions(20));
    expect(one.verdict).toEqual({ kind: "noWeakestPart" });
    expect(one.rulings.map(({ factor, ruling }) => [factor, ruling])).toEqual([
      ["sampling", "ruledOut"],
      ["equipment", "ruledOut"],
      ["pace", "ruledOut"],
      ["fatigue", "ruledOut"],
    ]);
  });
});

describe("diagnose excludes other explanations first", () => {
  it("names the sampling where one side was sampled sparsely, whatever the parts look like", () => {
    const one = against(sessions(20, { latency: 0.08 }, { rateHz: 60 }));
    expect(one.verdict).toEqual({ kind: "limitedBy", factor: "sampling" });
    expect(rulingOf(one, "sampling").reason).toMatch(/^60 samples a second against 250 in the reference/);
    expect(partOf(one, "nextTarget").confounds).toEqual(["sampling"]);
  });
  it("names the sampling where a tenth of the rows have no boundaries", () => {
    const spoilt = sessions(20).map((one) => ({ ...one, rows: one.rows.map((r, i) => (i % 8 === 0 ? flagged(r, "belowResolution") : r)) }));
    expect(against(spoilt).verdict).toEqual({ kind: "limitedBy", factor: "sampling" });
  });

  const fast = { id: "fast", refreshHz: 240, latency: 0.02 };
  const slow = { id: "slow", refreshHz: 60, latency: 0.09 };
  const earlier = BEFORE.map((one) => ({ ...one, equipment: fast }));
  const display = (levels: Levels, equipment = slow): Diagnosis =>
    diagnose(
      sessions(20, { ...levels, corrections: 1 }).map((one) => ({ ...one, equipment })),
      { reference: { earlier } },
    );
  // Source: arithmetic, 70 ms of delay waited for before leaving and correcting, and taken to hold up half of the presses
  it("names the equipment where its delay is all there is, and takes it off", () => {
    const one = display({ latency: 0.07, correction: 0.07, verification: 0.07 });
    expect(one.verdict).toEqual({ kind: "limitedBy", factor: "equipment" });
    const { effect } = rulingOf(one, "equipment");
    expect(given(effect!)).toBeCloseTo(0.175, 6);
    for (const { part, excess } of one.parts) expect(Math.abs(given(excess) - (part === "stopAndPress" ? 0.035 : 0))).toBeLessThan(0.012);
  });
  it("names a part that stands out beyond the equipment's delay", () => {
    const one = display({ latency: 0.17, correction: 0.07, verification: 0.07 });
    expect(one.verdict).toEqual({ kind: "weakestPart", part: "nextTarget" });
    expect(rulingOf(one, "equipment").ruling).toBe("limits");
    expect(partOf(one, "nextTarget").confounds).toEqual(["equipment"]);
  });
  it("cannot tell where the equipment differs and nobody knows by how much", () => {
    const one = diagnose(
      sessions(20, { latency: 0.08 }).map((s) => ({ ...s, equipment: { id: "another" } })),
      { reference: { earlier: BEFORE } },
    );
    expect(one.verdict).toEqual({ kind: "cannotTell", why: "mixedEquipment" });
    expect(rulingOf(one, "equipment").ruling).toBe("cannotTell");
  });

  it.each([
    ["quicker and less accurate", 0.75],
    ["slower and more accurate", 1 / 0.75],
  ])("names the pace where movements are %s", (words, factor) => {
    const paced = sessions(20, { scatter: 1 / factor }).map((one) => ({
      ...one,
      rows: one.rows.map((r) => ({ ...r, budget: { ...r.budget, primary: r.budget.primary * factor } })),
    }));
    const one = against(paced);
    expect(one.verdict).toEqual({ kind: "limitedBy", factor: "pace" });
    expect(rulingOf(one, "pace").reason).toContain(words);
    expect(rulingOf(one, "pace").parts).toEqual(["primary", "correction"]);
  });
  it("names a part that pace does not touch although the pace is another", () => {
    const paced = sessions(20, { scatter: 1 / 0.75, verification: 0.2 }).map((one) => ({
      ...one,
      rows: one.rows.map((r) => ({ ...r, budget: { ...r.budget, primary: r.budget.primary * 0.75 } })),
    }));
    expect(against(paced).verdict).toEqual({ kind: "weakestPart", part: "stopAndPress" });
  });
  it("names tiredness where the excess sits in the last third of the sessions", () => {
    const one = against(sessions(20, {}, {}, { latency: 0.09, verification: 0.05 }));
    expect(one.verdict).toEqual({ kind: "limitedBy", factor: "fatigue" });
    expect(rulingOf(one, "fatigue").parts).toEqual(["nextTarget", "stopAndPress"]);
    // Source: arithmetic, 140 ms in the last third (14 of 40 rows) of each session; sampling error about 3 ms
    expect(Math.abs(given(rulingOf(one, "fatigue").effect!) - (0.14 * 13) / 40)).toBeLessThan(0.012);
  });
  it("names the part where it is weak throughout and worse toward the end", () =>
    expect(against(sessions(20, { latency: 0.08 }, {}, { latency: 0.05 })).verdict).toEqual({ kind: "weakestPart", part: "nextTarget" }));
});

describe("diagnose chooses whom to judge against", () => {
  const person = (seed: number, levels: Levels = {}): PractisedSession[] => {
    const random = createRandom(seed, 5);
    const own = {
      latency: random.normal(0, 0.02),
      primary: random.normal(0, 0.02),
      correction: random.normal(0, 0.02),
      verification: random.normal(0, 0.02),
    };
    const shifted = Object.fromEntries(Object.entries(own).map(([name, value]) => [name, value + (levels[name as keyof Levels] ?? 0)]));
    return sessions(seed, shifted);
  };
  const group = Array.from({ length: 15 }, (_, i) => person(100 + i));
  it("does not call what members of a group ordinarily differ by a weakness", () => {
    // one and a half standard deviations of the members' own levels, far beyond the noise of six sessions
    const own = sessions(60, { verification: 0.03 });
    expect(diagnose(own, { reference: { group } }).verdict).toEqual({ kind: "noWeakestPart" });
    expect(against(own).verdict).toEqual({ kind: "weakestPart", part: "stopAndPress" });
  });
  it("names a part far beyond the members", () => {
    const one = diagnose(sessions(60, { verification: 0.11 }), { reference: { group } });
    expect(one.verdict).toEqual({ kind: "weakestPart", part: "stopAndPress" });
    expect(one.reference).toEqual({ kind: "group", sessions: 90, people: 15, rows: 3600 });
  });
  it("takes the later half against the best three in a row before it", () => {
    const own = [...sessions(1, { latency: 0.1 }), ...sessions(7), ...sessions(13, { latency: 0.1 }), ...sessions(19, { latency: 0.1 })];
    const one = diagnose(own);
    expect(one.verdict).toEqual({ kind: "weakestPart", part: "nextTarget" });
    expect(one).toMatchObject({ sessions: 12, reference: { kind: "ownBest", sessions: 3, people: 1 } });
    expect(Math.abs(given(one.parts[0]!.excess) - 0.1)).toBeLessThan(0.02);
  });
  it("does not take lucky sessions for a best: sessions that scatter at random show no excess", () => {
    const excess = Array.from({ length: 40 }, (_, s) => {
      const random = createRandom(s, 9);
      const own = Array.from({ length: 18 }, (_, day) =>
        session(1 + day, drawnRows(5000 + 100 * s + day, { latency: random.normal(0, 0.03) }, 15)),
      );
      return given(diagnose(own, { resamples: 100 }).totalExcess);
    });
    // the best three of nine in a row lie 1.1 standard errors of a three-session mean (19 ms) ahead by luck; most of that must be gone
    const mean = excess.reduce((sum, value) => sum + value, 0) / excess.length;
    expect(mean).toBeLessThan(0.01);
    expect(mean).toBeGreaterThan(-0.01);
  });
});

describe("diagnose properties", () => {
  const shift = fc.integer({ min: -50, max: 200 }).map((ms) => ms / 1000);
  const keys = { nextTarget: "latency", primary: "primary", correction: "correction", stopAndPress: "verification" } as const;
  const shifted = (list: readonly PractisedSession[], part: Part, by: number): PractisedSession[] =>
    list.map((one) => ({
      ...one,
      rows: one.rows.map((r) => ({ ...r, budget: { ...r.budget, [keys[part]]: r.budget[keys[part]] + by } })),
    }));

  test.prop([fc.constantFrom<Part>("nextTarget", "primary", "correction", "stopAndPress"), shift])(
    "raises the excess of a part, and of no other, by what all its times are raised",
    (part, by) => {
      const [one, other] = [
        diagnose(NOW, { reference: { earlier: EARLIER }, resamples: 100 }),
        diagnose(shifted(NOW, part, by), { reference: { earlier: EARLIER }, resamples: 100 }),
      ];
      for (const { part: name, excess } of one.parts) {
        expect(given(partOf(other, name).excess)).toBeCloseTo(given(excess) + (name === part ? by : 0), 10);
      }
    },
  );

  test.prop([fc.integer({ min: 0, max: 1000 })], { numRuns: 20 })(
    "adds up: parts to the whole, own and passed on to the part, shares to 1",
    (seed) => {
      const now = [0, 1, 2].map((day) => session(30 + day, drawnRows(seed + day, { latency: 0.03, scatter: 1.3 })));
      const one = diagnose(now, { reference: { earlier: BEFORE }, resamples: 100 });
      expect(one.parts.reduce((sum, { excess }) => sum + given(excess), 0)).toBeCloseTo(given(one.totalExcess), 12);
      for (const { excess, own, passedOn } of one.parts) expect(given(own) + given(passedOn)).toBeCloseTo(given(excess), 12);
      expect(one.parts.reduce((sum, { share }) => sum + share!, 0)).toBeCloseTo(1, 12);
      expect(one.parts.reduce((sum, { probabilityLargest }) => sum + probabilityLargest, 0)).toBeCloseTo(1, 12);
      // the whole is the time taken less what the reference takes at the same distances and sizes: 0 for the reference itself
      const itself = diagnose(BEFORE, { reference: { earlier: BEFORE }, resamples: 100 });
      for (const { excess } of itself.parts) expect(given(excess)).toBeCloseTo(0, 12);
    },
  );

  test.prop([fc.double({ min: 0.01, max: 100, noNaN: true })], { numRuns: 20 })("does not depend on the unit of length", (factor) => {
    const scale = (list: readonly PractisedSession[]): PractisedSession[] =>
      list.map((one) => ({ ...one, rows: one.rows.map((r) => scaled(r, factor)) }));
    const [one, other] = [
      diagnose(NOW, { reference: { earlier: EARLIER }, resamples: 100 }),
      diagnose(scale(NOW), { reference: { earlier: scale(EARLIER) }, resamples: 100 }),
    ];
    expect(other.verdict).toEqual(one.verdict);
    for (const { part, excess } of one.parts) expect(given(partOf(other, part).excess)).toBeCloseTo(given(excess), 9);
    expect(given(other.hitShare)).toBeCloseTo(given(one.hitShare), 12);
  });

  test.prop([fc.shuffledSubarray([0, 1, 2, 3, 4], { minLength: 5 })], { numRuns: 10 })(
    "takes the sessions in any order, leaves them alone and returns plain data",
    (order) => {
      const given = order.map((i) => NOW[i]!);
      const copy = structuredClone(given);
      const one = diagnose(given, { reference: { earlier: EARLIER } });
      expect(given).toEqual(copy);
      expect(one).toEqual(diagnose(NOW, { reference: { earlier: EARLIER } }));
      expect(JSON.parse(JSON.stringify(one))).toEqual(one);
    },
  );

  it("fixes the random part by the seed", () => {
    const [one, same, other] = [against(NOW), against(NOW), against(NOW, { seed: 2 })];
    expect(same).toEqual(one);
    expect(other.header.options.seed).toBe(2);
  });
  it("says what gains and slips cost in hits", () => {
    // every press lies 24 from the centre of a target of 40 and the only correction fell 8 short of the 40 it found, all along the axis
    const fall = { ...CORRECTION, errorBefore: { along: -40, across: 0, radial: 40, inside: false }, gain: 0.8 };
    const now = [1, 2, 3].map((day) => {
      const rows = drawnRows(day, {}, 40, { stopError: -10, pressError: -24, width: 40 }).map((r) => ({ ...r, corrections: [fall] }));
      return session(20 + day, rows);
    });
    const one = against(now);
    expect(given(one.hitShare)).toBe(0);
    const of = (change: string): number => given(one.counterfactuals.find((c) => c.change === change)!.hitShare);
    // Source: arithmetic, the press moves by (1 - 0.8) 40 = 8 to 16, within 20; without slip it lies at the stop, 10
    expect(of("correctiveGain")).toBe(1);
    expect(of("slip")).toBe(1);
    expect(of("primaryError")).toBe(0);
  });
});

describe("diagnose bad input", () => {
  it("has nothing to say of nothing", () => {
    const one = diagnose([]);
    expect(one.verdict).toEqual({ kind: "cannotTell", why: "tooFew" });
    expect(one.totalExcess).toEqual({ ok: false, why: "tooFew", unit: "s", n: 0 });
    expect(JSON.parse(JSON.stringify(one))).toEqual(one);
    expect(JSON.stringify(one)).not.toContain("NaN");
  });
  it.each([1, 2])("says too few of %d sessions", (n) =>
    expect(against(sessions(20).slice(0, n)).verdict).toEqual({ kind: "cannotTell", why: "tooFew" }),
  );
  it("says too few where the reference has no people, or no earlier sessions", () => {
    for (const reference of [{ group: [] }, { earlier: [] }, { group: [BEFORE, BEFORE] }]) {
      const one = diagnose(sessions(20), { reference });
      expect(one.verdict).toEqual({ kind: "cannotTell", why: "tooFew" });
      expect(JSON.parse(JSON.stringify(one))).toEqual(one);
      expect(JSON.stringify(one)).not.toContain("NaN");
    }
  });
  it("leaves out rows that cannot be read, and says how many were", () => {
    const spoilt = sessions(20).map((one) => ({ ...one, rows: one.rows.map((r, i) => (i % 4 === 0 ? flagged(r, "noMovement") : r)) }));
    expect(against(spoilt).rows).toBe(180);
  });
  it("names what is wrong", () => {
    const bad = (call: () => unknown): string => {
      try {
        call();
      } catch (error) {
        return `${(error as Error).name}: ${(error as Error).message}`;
      }
      return "nothing thrown";
    };
    expect(bad(() => diagnose(3 as never))).toBe("TypeError: diagnose: sessions must be an array of sessions, got 3");
    expect(bad(() => diagnose([{ ...BEFORE[0]!, startedAt: "soon" }]))).toBe(
      'RangeError: diagnose: sessions[0].startedAt must be an ISO 8601 date, got "soon"',
    );
    expect(bad(() => diagnose([{ ...BEFORE[0]!, rows: null as never }]))).toBe(
      "TypeError: diagnose: sessions[0].rows must be an array of acquisitions, got null",
    );
    expect(bad(() => diagnose(BEFORE, { reference: "best" as never }))).toBe(
      'RangeError: diagnose: options.reference must be "ownBest", { earlier } or { group }, got "best"',
    );
    expect(bad(() => diagnose(BEFORE, { reference: { group: [3 as never] } }))).toBe(
      "TypeError: diagnose: options.reference.group[0] must be an array of sessions, got 3",
    );
    expect(bad(() => diagnose(BEFORE, { level: 1 }))).toBe(
      "RangeError: diagnose: options.level must be finite and at least 0.6 and at most 0.9999, got 1".replace("finite and ", ""),
    );
    expect(bad(() => diagnose(BEFORE, { resamples: 10 }))).toMatch(
      /^RangeError: diagnose: options.resamples must be a whole number at least 100/,
    );
    expect(bad(() => diagnose(BEFORE, { worthwhile: 0 }))).toMatch(/^RangeError: diagnose: options.worthwhile must be above 0/);
    expect(bad(() => diagnose(BEFORE, { seed: 0.5 }))).toMatch(/^RangeError: diagnose: options.seed must be/);
  });
});

function flagged(one: Acquisition, flag: Flag): Acquisition {
  return { ...one, flags: [flag] };
}

function scaled(one: Acquisition, factor: number): Acquisition {
  const offset = (at: Acquisition["errors"]["press"]) =>
    at && { ...at, along: at.along! * factor, across: at.across! * factor, radial: at.radial * factor };
  return {
    ...one,
    amplitude: one.amplitude! * factor,
    width: one.width * factor,
    errors: { primary: offset(one.errors.primary)!, stop: offset(one.errors.stop)!, press: offset(one.errors.press)! },
  };
}
