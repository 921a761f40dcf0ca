import { fc, test } from "@fast-check/vitest";
import { beforeAll, describe, expect, it } from "vitest";
import { normalQuantile } from "../../src/math/normal-quantile.js";
import { analyze } from "../../src/movement/analyze.js";
import type { Acquisition } from "../../src/movement/types.js";
import { type AnalyzeSequenceOptions, analyzeSequence } from "../../src/sequence/analyze-sequence.js";
import type { SequenceAnalysis } from "../../src/sequence/types.js";
import { type SimulateRecordingOptions, simulateRecording } from "../../src/simulate/index.js";
import type { Recording } from "../../src/trace/types.js";
import { type SceneTrial, scene, type Take } from "./scene.js";

const analyzed = (trials: readonly SceneTrial[], options?: AnalyzeSequenceOptions): SequenceAnalysis => {
  const { recording, rows } = scene(trials);
  return analyzeSequence(recording, rows, options);
};
const times = <T>(n: number, make: (i: number) => T): T[] => Array.from({ length: n }, (_, i) => make(i));
const close = (value: number, digits = 9): number => expect.closeTo(value, digits) as unknown as number;
const inOrder = (order: readonly number[], more: Partial<Take> = {}): Take[] => order.map((target) => ({ target, ...more }));

/** Three targets on a line: the shortest way from 0 goes 100, 200, 300. */
const LINE = {
  start: [0, 0],
  places: [
    [100, 0],
    [300, 0],
    [200, 0],
  ],
} as const;

describe("analyzeSequence against outside values", () => {
  // Source: closed form on a line: 0-100-300-200 is 400 long, the shortest 300; ways of 300, 400 (twice), 500 (twice) and 600 rank 1, 2, 2, 4, 4 and 6
  it("compares the order taken with the shortest open way, and ranks it", () => {
    const cases = [
      [[0, 2, 1], 300, 1],
      [[0, 1, 2], 400, 2],
      [[2, 0, 1], 500, 4],
      [[2, 1, 0], 500, 4],
      [[1, 2, 0], 500, 4],
      [[1, 0, 2], 600, 6],
    ] as const;
    const lengths = cases.map(([, length]) => length);
    for (const [order, length] of cases) {
      const { sequences } = analyzed([{ ...LINE, takes: inOrder(order) }]);
      const rank = 1 + lengths.filter((other) => other < length).length;
      expect(sequences[0]!.choice).toMatchObject({
        targets: 3,
        length,
        shortest: 300,
        exact: true,
        excess: close(length / 300 - 1),
        regret: length - 300,
        best: length === 300,
        rank,
      });
      expect(sequences[0]!.order).toEqual(order.map((j) => `0-${j}`));
    }
  });

  // Source: the law worked by hand: steps of 100, 200, 100 px to targets of 40 px hold log2(3.5), log2(6), log2(3.5) bits; the fastest order is 100, 200, 300 with three times log2(3.5)
  it("foretells the time lost by a law that is given", () => {
    const { sequences, order, timeLaw } = analyzed([{ ...LINE, takes: inOrder([0, 1, 2]) }], { timeLaw: { intercept: 0.1, slope: 0.2 } });
    expect(sequences[0]!.choice!.timeRegret).toBeCloseTo(0.2 * (Math.log2(6) - Math.log2(3.5)), 9);
    expect(timeLaw).toEqual({ intercept: 0.1, slope: 0.2, source: "given" });
    expect(order!.timeRegret).toMatchObject({ ok: false, why: "tooFew", n: 1 });
  });

  // Source: Wilson 1927: 8 of 10 at 95 % gives 0.4902 to 0.9433 (textbook table); chance 1/n!
  it("gives the share of best orders of two and of three beside chance", () => {
    const two = (best: boolean): SceneTrial => ({
      start: [0, 0],
      places: [
        [100, 0],
        [300, 0],
      ],
      takes: inOrder(best ? [0, 1] : [1, 0]),
    });
    const { order } = analyzed([
      ...times(10, (i) => two(i < 8)),
      ...times(6, (i) => ({ ...LINE, takes: inOrder(i < 1 ? [0, 2, 1] : [1, 2, 0]) })),
    ]);
    expect(order!.best.ofTwo).toEqual({
      share: { ok: true, value: 0.8, unit: "1", n: 10, interval: [close(0.4902, 4), close(0.9433, 4)], level: 0.95 },
      chance: 0.5,
    });
    expect(order!.best.ofThree).toMatchObject({ share: { value: close(1 / 6), n: 6 }, chance: close(1 / 6) });
  });

  // Source: worked by hand. Chosen at (400, 0), other at (300, 200), start (0, 0): o - c = (-100, 200) on the screen, 223.607 long; to the right of travel
  // (y points down), separation atan2(200, 300) = 33.690 degrees. An end at (350, 100) is halfway and on the line: along -50, across -100; deviation
  // atan2(100, 350) = 15.9454 degrees toward the other, index 0.473297.
  it("places an end between two targets", () => {
    const pull: SceneTrial = {
      start: [0, 0],
      places: [
        [400, 0],
        [300, 200],
      ],
      takes: [{ target: 0, primaryError: [-50, -100], pressError: [10, 0] }, { target: 1 }],
    };
    const plain = times(
      30,
      (i): SceneTrial => ({
        ...pull,
        takes: [
          { target: 0, primaryError: [(i % 5) - 2, (i % 7) - 3] },
          { target: 1, primaryError: [(i % 3) - 1, (i % 4) - 1.5] },
        ],
      }),
    );
    const { sequences, between } = analyzed([pull, ...plain]);
    const [first, last] = sequences[0]!.steps;
    expect(first!.primary).toEqual({
      other: "0-1",
      separationDeg: close(33.690067, 5),
      distance: close(223.6068, 4),
      share: close(0.5),
      offLine: close(0),
      averagingIndex: close(0.473297, 5),
      between: true,
    });
    expect(first!.press).toMatchObject({ share: close(-1000 / 50000), between: false });
    expect(last!.primary).toBeUndefined();
    expect(between.primary).toMatchObject({
      pairs: 31,
      undecidable: 0,
      singles: 31,
      observed: { value: close(1 / 31) },
      expected: { value: 0 },
    });
    expect(between.primary.mirror).toEqual({ between: 1, mirrored: 0, p: close(0.5) });
  });

  // Source: the rule: off both targets, share within 0.2 and 0.8, off the line by at most W/2 or 0.15 of the distance; each end worked by hand on the pair above
  it.each([
    ["on the chosen target", [-8, -16], false],
    ["just short of a fifth of the way", [-19, -38], false],
    ["just beyond a fifth", [-21, -42], true],
    ["just off the line, 0.149 of the distance", [-50 - 0.149 * 200, -100 + 0.149 * 100], true],
    ["too far off the line, 0.151 of the distance", [-50 - 0.151 * 200, -100 + 0.151 * 100], false],
    ["just short of four fifths", [-79, -158], true],
    ["beyond four fifths", [-81, -162], false],
    ["on the mirror image of the way", [-50, 100], false],
  ] as const)("%s", (_, primaryError, between) => {
    const trial: SceneTrial = {
      start: [0, 0],
      places: [
        [400, 0],
        [300, 200],
      ],
      takes: [{ target: 0, primaryError }, { target: 1 }],
    };
    const spread = times(
      30,
      (i): SceneTrial => ({ ...trial, takes: [{ target: 0 }, { target: 1, primaryError: [(i % 3) - 1, (i % 4) - 1.5] }] }),
    );
    expect(analyzed([trial, ...spread]).sequences[0]!.steps[0]!.primary!.between).toBe(between);
  });

  // Source: NumPy and SciPy 1.17.1 (norm.pdf): the bivariate normal density with SD 40 px over the region of the rule on the pair above, summed on a grid of
  // 8001 by 8001 points: 0.0788. Here 400 errors at the midpoints of a 20 by 20 grid of normal quantiles stand for the person's own: 0.002 of a grid so coarse
  it("expects by the person's own scatter what the normal distribution has in that region", () => {
    const trial: SceneTrial = {
      start: [0, 0],
      places: [
        [400, 0],
        [300, 200],
      ],
      takes: [{ target: 0, primaryError: [-50, -100] }, { target: 1 }],
    };
    const { recording, rows } = scene([trial]);
    const q = times(20, (i) => 40 * normalQuantile((i + 0.5) / 20));
    const singles = q.flatMap((along) =>
      q.map((across) => ({ ...rows[0]!, errors: { primary: { along, across, radial: 0, inside: false } } })),
    );
    const { primary } = analyzeSequence(recording, rows, { singles }).between;
    expect(primary.singles).toBe(401);
    expect(primary.expected.ok && primary.expected.value).toBeCloseTo(0.0788, 2.3);
    // Source: one of one, where the share is all but known to be 0.0788: that probability
    expect(primary.p).toBeCloseTo(0.0788, 2);
  });

  // Source: closed form: latency 0.1 + 0.05 log2(n + 1), so that the slope is 0.05 s/bit by either count of bits where the other bends
  it("finds the slope of latency on the bits of a set", () => {
    const sizes = [1, 3, 7].flatMap((n) =>
      times(
        15,
        (i): SceneTrial => ({
          start: [0, 0],
          places: times(n, (j) => [100 + 60 * j, 0] as const),
          takes: times(n, (target) => ({ target, latency: 0.1 + 0.05 * Math.log2(n + 1) + 0.001 * ((i % 3) - 1) })),
        }),
      ),
    );
    const { setSize } = analyzed(sizes);
    expect(setSize.levels.map(({ targets, bits, n }) => [targets, bits, n])).toEqual([
      [1, 1, 15],
      [3, 2, 15],
      [7, 3, 15],
    ]);
    expect(setSize.slope).toMatchObject({ ok: true, value: close(0.05, 6), unit: "s/bit", n: 45 });
    expect(analyzed(sizes, { bits: "plain" }).setSize.levels[1]!.bits).toBeCloseTo(Math.log2(3), 12);
    expect(analyzed(sizes.slice(1)).setSize.slope).toMatchObject({ ok: false, why: "tooFew" });
  });

  // Source: worked by hand: steps right, then down the screen, is a turn to the right; then back up, straight back
  it("tells turns to the left from turns to the right", () => {
    const { sequences } = analyzed([
      {
        start: [0, 0],
        places: [
          [100, 0],
          [100, 200],
          [100, -300],
          [400, -300],
        ],
        takes: inOrder([0, 1, 2, 3]),
      },
    ]);
    expect(sequences[0]!.steps.map(({ turnDeg }) => turnDeg)).toEqual([undefined, close(-90), close(180), close(-90)]);
  });

  // Source: counted by hand: of four repeats of one layout three are taken alike: modal share 0.75; of two others one each: 0.5; pooled (3 + 1)/6. First
  // choices 3:1 and 1:1: entropies 0.811278 and 1 bit (textbook) plus (2 - 1)/(2 n ln 2) each
  it("says how alike the repeats of a layout are taken", () => {
    const other = {
      ...LINE,
      places: [
        [50, 0],
        [250, 0],
        [150, 0],
      ],
    } as const;
    const { order } = analyzed([
      ...[
        [0, 2, 1],
        [0, 2, 1],
        [0, 2, 1],
        [1, 2, 0],
      ].map((taken) => ({ ...LINE, takes: inOrder(taken) })),
      ...[
        [0, 1, 2],
        [2, 1, 0],
      ].map((taken) => ({ ...other, takes: inOrder(taken) })),
    ]);
    expect(order!.layouts).toBe(2);
    expect(order!.modalShare).toMatchObject({ ok: true, value: close(4 / 6), n: 6 });
    const bits = (4 * (0.8112781244591328 + 1 / (8 * Math.LN2)) + 2 * (1 + 1 / (4 * Math.LN2))) / 6;
    expect(order!.firstChoiceEntropy).toMatchObject({ ok: true, value: close(bits), unit: "bit" });
  });

  // Source: counted by hand
  it("counts departures before the press, and what became of the presses", () => {
    const early: SceneTrial = {
      start: [0, 0],
      places: [
        [100, 0],
        [300, 0],
      ],
      takes: [
        { target: 0, outcome: "miss", pressError: [30, 0] },
        { target: 1, latency: -0.03 },
      ],
    };
    const wide: SceneTrial = {
      ...early,
      takes: [
        { target: 0, outcome: "miss", pressError: [30, 0], stopInside: false },
        { target: 1, latency: -0.02 },
      ],
    };
    const fine: SceneTrial = { ...early, takes: inOrder([0, 1]) };
    const { overlap, downtime, sequences } = analyzed([
      early,
      wide,
      { ...fine, takes: [{ target: 0 }, { target: 1, latency: -0.01 }] },
      ...times(5, () => fine),
    ]);
    expect(overlap.share).toMatchObject({ value: 3 / 8, n: 8 });
    expect(overlap.missed).toMatchObject({ value: close(2 / 3), n: 3 });
    expect(overlap.slippedOut).toMatchObject({ value: close(1 / 3), n: 3 });
    expect(overlap.missedOtherwise).toMatchObject({ value: 0, n: 5 });
    expect(downtime).toMatchObject({ median: { value: close(0.2), n: 8 }, long: { value: close(5 / 8) } });
    expect(sequences[0]!.steps[1]).toMatchObject({ overlap: true, latency: -0.03 });
  });
});

describe("analyzeSequence properties", () => {
  const simulated = (
    options: SimulateRecordingOptions,
  ): { recording: Recording; rows: Acquisition[]; truth: ReturnType<typeof simulateRecording>["truth"] } => {
    const { recording, truth } = simulateRecording(options);
    return { recording, rows: analyze(recording), truth };
  };
  let whole: ReturnType<typeof simulated>;
  let analysis: SequenceAnalysis;
  beforeAll(() => {
    whole = simulated({
      seed: 8,
      movements: 240,
      sequence: [2, 3, 4],
      cases: { timeout: 0.02, clutch: 0.02, retry: 0.5 },
      planning: { random: 0.5, shortest: 0.5, overlapShare: 0.1, pullShare: 0.2, hesitationShare: 0.05 },
    });
    analysis = analyzeSequence(whole.recording, whole.rows);
  });

  it("tiles every interval: waiting and the parts of the budget add up to it", () => {
    for (const { steps } of analysis.sequences) {
      for (const { interval, waiting, budget } of steps.slice(1)) {
        const { latency, primary, correction, clutch, verification, recovery } = budget;
        expect(waiting! + latency + primary + correction + clutch + verification + recovery).toBeCloseTo(interval!, 9);
      }
    }
  });

  it("never calls a way shorter than the shortest, and the best one best", () => {
    const choices = analysis.sequences.flatMap(({ choice }) => choice ?? []);
    expect(choices.length).toBeGreaterThan(60);
    for (const { excess, regret, rank, best, timeRegret } of choices) {
      expect(excess).toBeGreaterThanOrEqual(0);
      expect(regret).toBeGreaterThanOrEqual(0);
      expect(timeRegret).toBeGreaterThanOrEqual(0);
      expect(best).toBe(rank === 1);
    }
  });

  it("finds no excess in people who take the shortest way, and says that orders follow the goals", () => {
    const best = simulated({ seed: 4, movements: 80, sequence: 4, planning: { shortest: 1 } });
    const { order, warnings } = analyzeSequence(best.recording, best.rows);
    // the pointer is known to a pixel: now and then two ways all but equal change places
    expect(order!.excess).toMatchObject({ ok: true, value: expect.closeTo(0, 4) });
    expect(warnings).toEqual([]);
    const given = simulated({ seed: 4, movements: 80, sequence: 4 });
    expect(analyzeSequence(given.recording, given.rows).warnings).toEqual(["orderOfGoals"]);
  });

  it("computes no choice where the order was given", () => {
    const { order, sequences } = analyzeSequence(whole.recording, whole.rows, { order: "given" });
    expect(order).toBe(null);
    expect(sequences.every(({ choice }) => choice === undefined)).toBe(true);
  });

  it("leaves out of the order what was not finished, was not there or moved", () => {
    const base = scene([{ ...LINE, takes: inOrder([0, 2, 1]) }]);
    const flagsOf = (recording: Recording, rows: readonly Acquisition[]) => analyzeSequence(recording, rows).sequences[0]!;
    expect(flagsOf(base.recording, base.rows.slice(0, 2)).flags).toEqual(["unfinished"]);
    const [a, b, c] = base.recording.targets as [Recording["targets"][0], Recording["targets"][0], Recording["targets"][0]];
    const later = { ...base.recording, targets: [a, { ...b, tShown: base.rows[1]!.times.go }, c] };
    expect(flagsOf(later, base.rows)).toMatchObject({ flags: ["laterTargets"], choice: { targets: 2, length: 200, best: true } });
    const track = { t: Float64Array.of(0, 9), x: Float64Array.of(100, 120), y: Float64Array.of(0, 0) };
    expect(flagsOf({ ...base.recording, targets: [{ ...a, at: track }, b, c] }, base.rows).flags).toEqual(["movingTarget"]);
    const late = { t: Float64Array.of(100), x: Float64Array.of(0), y: Float64Array.of(0) };
    expect(flagsOf({ ...base.recording, trace: late }, base.rows).flags).toEqual(["noStart"]);
    expect(analyzed([{ start: [0, 0], places: [[100, 0]], takes: inOrder([0]) }]).sequences[0]!.flags).toEqual(["noChoice"]);
  });

  it("marks a search, and does not rank or time long sequences", () => {
    const n = 14;
    const places = times(n, (i) => [100 + 83 * ((i * 5) % n), 70 * ((i * 3) % n)] as const);
    const { sequences, warnings } = analyzed([{ start: [0, 0], places, takes: inOrder(times(n, (i) => i)) }]);
    expect(sequences[0]!.flags).toEqual(["heuristic"]);
    expect(sequences[0]!.choice).toMatchObject({ exact: false });
    expect(sequences[0]!.choice!.rank).toBeUndefined();
    expect(sequences[0]!.choice!.timeRegret).toBeUndefined();
    expect(warnings).toEqual(["fewChoices", "orderOfGoals", "heuristic"]);
  });

  it("waits for a target that was not there at the press before", () => {
    const base = scene([
      {
        start: [0, 0],
        places: [
          [100, 0],
          [300, 0],
        ],
        takes: inOrder([0, 1]),
      },
    ]);
    const [first, second] = base.rows as [Acquisition, Acquisition];
    const rows = [first, { ...second, times: { ...second.times, go: second.times.go + 0.5, end: second.times.end + 0.5 } }];
    const { sequences, downtime } = analyzeSequence(base.recording, rows);
    expect(sequences[0]!.steps[1]).toMatchObject({ waiting: close(0.5), interval: close(1.15) });
    expect(downtime.median).toMatchObject({ ok: false, n: 0 });
  });

  it("finds planted hesitations, and pauses on the way to the target", () => {
    const slow = times(
      30,
      (i): SceneTrial => ({
        start: [0, 0],
        places: [
          [100 + i, 0],
          [300, 5 * i],
          [200, 100],
        ],
        takes: [
          { target: 0 },
          { target: 1, latency: i === 7 ? 0.9 : 0.2 + 0.002 * (i % 5) },
          { target: 2, latency: 0.21 + 0.003 * (i % 4) },
        ],
      }),
    );
    const { recording, rows } = scene(slow);
    const stroke = { peak: 0, peakSpeed: 1, dx: 10, dy: 0 };
    const { press } = rows[1]!.times;
    const paused = rows.map((row, i) =>
      i === 1
        ? {
            ...row,
            submovements: [
              { ...stroke, start: press! - 0.5, end: press! - 0.4 },
              { ...stroke, start: press! - 0.2, end: press! - 0.1 },
            ],
          }
        : row,
    );
    const { sequences, hesitations } = analyzeSequence(recording, paused);
    const found = sequences.flatMap(({ steps }, i) =>
      steps.flatMap(({ late, pause }, k) => (late || pause > 0.15 ? [[i, k, late, pause > 0.15]] : [])),
    );
    expect(found).toEqual([
      [0, 1, false, true],
      [7, 1, true, false],
    ]);
    expect(hesitations).toMatchObject({
      late: { value: close(1 / 60) },
      paused: { value: close(1 / 60) },
      either: { value: close(2 / 60) },
    });
  });

  it("knows the scatter from single targets given beside, and falls back on the mirror image without any", () => {
    const alone = simulated({ seed: 12, movements: 60 });
    const two = simulated({ seed: 13, movements: 24, sequence: 2, planning: { random: 1 } });
    const without = analyzeSequence(two.recording, two.rows);
    const withThem = analyzeSequence(two.recording, two.rows, { singles: alone.rows });
    expect(without.between.primary).toMatchObject({ singles: 12, expected: { ok: false, why: "tooFew" }, excess: { ok: false }, p: null });
    if (without.between.primary.pairs > 0) expect(without.warnings).toContain("noSingles");
    expect(withThem.between.primary.singles).toBeGreaterThan(60);
    expect(withThem.between.primary.expected.ok).toBe(true);
    expect(withThem.warnings).not.toContain("noSingles");
  });

  it("names a layout as the caller does", () => {
    const { recording, rows } = scene(
      times(6, (i) => ({
        ...LINE,
        start: [5 * i, 0],
        places: [
          [100 + i, 0],
          [300, i],
          [200, 0],
        ],
        takes: inOrder([0, 2, 1]),
      })),
    );
    expect(analyzeSequence(recording, rows).order!.layouts).toBe(0);
    expect(analyzeSequence(recording, rows, { layout: () => "line" }).order).toMatchObject({ layouts: 1, modalShare: { value: 1, n: 6 } });
  });

  test.prop([fc.constantFrom(-30, 0, 1000), fc.constantFrom(0, 1.7e9), fc.constantFrom(0.5, 1, 4)])(
    "stays the same wherever, whenever and in whatever unit it was recorded",
    (shift, t0, scale) => {
      const make = (from: number, by: number, clock: number): SequenceAnalysis => {
        const place = ([x, y]: readonly [number, number]) => [from + by * x, from + by * y] as const;
        const trials = times(
          25,
          (i): SceneTrial => ({
            start: place([0, 0]),
            places: [place([400, 10 * i]), place([300, 200 + i]), place([50, 300])],
            takes: inOrder([i % 3, (i + 1) % 3, (i + 2) % 3], {
              primaryError: [by * ((i % 5) - 2), by * ((i % 7) - 3)],
              latency: 0.2 + 0.01 * (i % 6),
            }),
            width: 40 * by,
          }),
        );
        const { recording, rows } = scene(trials, clock);
        return analyzeSequence(recording, rows);
      };
      const here = make(0, 1, 0);
      const there = make(shift, scale, t0);
      here.sequences.forEach(({ choice, steps }, i) => {
        const other = there.sequences[i]!;
        expect(other.choice!.excess).toBeCloseTo(choice!.excess, 6);
        expect(other.choice!.regret / scale).toBeCloseTo(choice!.regret, 4);
        expect(other.choice!.rank).toBe(choice!.rank);
        expect(other.steps.map(({ primary }) => primary?.between)).toEqual(steps.map(({ primary }) => primary?.between));
        steps.forEach(({ turnDeg }, k) => {
          if (turnDeg !== undefined && Math.abs(turnDeg) < 179) expect(other.steps[k]!.turnDeg).toBeCloseTo(turnDeg, 4);
        });
      });
      expect(there.between.primary.averagingIndex).toMatchObject({ ok: true });
      expect(there.downtime.median.ok && there.downtime.median.value).toBeCloseTo(0.22, 5);
    },
  );

  it("says of a small view what it says of the plane", () => {
    const options = { seed: 21, movements: 60, sequence: 3, planning: { random: 1, pullShare: 0.3 }, tremorAmplitude: 0 } as const;
    const plane = simulated(options);
    const view = simulated({ ...options, space: { kind: "view", degreesPerUnit: 0.002 } });
    const [flat, seen] = [analyzeSequence(plane.recording, plane.rows), analyzeSequence(view.recording, view.rows)];
    flat.sequences.forEach(({ choice, order }, i) => {
      expect(seen.sequences[i]!.order).toEqual(order);
      // the field spans 4 degrees: its cosines differ by less than a thousandth
      expect(seen.sequences[i]!.choice!.length / 0.002 / choice!.length).toBeCloseTo(1, 2);
      expect(seen.sequences[i]!.choice!.excess).toBeCloseTo(choice!.excess, 2);
    });
    const { observed } = flat.between.primary;
    expect(seen.between.primary.observed).toMatchObject({ n: observed.n, value: expect.closeTo(observed.ok ? observed.value : 0, 1) });
  });

  it("does not mind the order of the rows, leaves its input alone and survives JSON", () => {
    const freeze = <T>(value: T): T => {
      if (value !== null && typeof value === "object" && !ArrayBuffer.isView(value)) Object.values(Object.freeze(value)).forEach(freeze);
      return value;
    };
    const rows = freeze([...whole.rows]);
    const again = analyzeSequence(freeze({ ...whole.recording }), rows);
    expect(again).toEqual(analysis);
    expect(JSON.parse(JSON.stringify(analysis))).toEqual(analysis);
    expect(structuredClone(analysis)).toEqual(analysis);
    const turned = analyzeSequence(whole.recording, [...rows].reverse());
    expect([...turned.sequences].reverse()).toEqual(analysis.sequences);
  });

  it("is not ok without rows", () => {
    const { recording } = scene([]);
    const empty = analyzeSequence(recording, []);
    expect(empty.sequences).toEqual([]);
    expect(empty.warnings).toEqual(["fewChoices"]);
    const estimates = [
      empty.downtime.median,
      empty.firstLatency,
      empty.interval.mean,
      empty.interval.variation,
      empty.overlap.share,
      empty.turnCost,
    ];
    for (const estimate of estimates) expect(estimate).toMatchObject({ ok: false, why: "tooFew", n: 0 });
    expect(empty.between.primary).toMatchObject({ pairs: 0, p: null, observed: { ok: false }, excess: { ok: false } });
  });
});

describe("analyzeSequence bad input", () => {
  const { recording, rows } = scene([{ ...LINE, takes: inOrder([0, 1, 2]) }]);
  const refused = (options: unknown) => expect(() => analyzeSequence(recording, rows, options as AnalyzeSequenceOptions));

  it("names the option, its range and its value", () => {
    refused({ level: 1 }).toThrow(/analyzeSequence: options\.level must be above 0 and below 1, got 1/);
    refused({ order: "any" }).toThrow(/options\.order must be one of "free", "given", got "any"/);
    refused({ bits: "two" }).toThrow(/options\.bits must be one of "onePlus", "plain", got "two"/);
    refused({ singles: 3 }).toThrow(/options\.singles must be an array of acquisitions, got 3/);
    refused({ layout: "a" }).toThrow(/options\.layout must be a function of a trial, got "a"/);
    refused({ timeLaw: null }).toThrow(/options\.timeLaw must be an intercept and a slope, got null/);
    refused({ timeLaw: { intercept: 0, slope: -1 } }).toThrow(/options\.timeLaw\.slope must be finite and at least 0, got -1/);
  });

  it("wants rows of this recording", () => {
    expect(() => analyzeSequence(recording, 3 as never)).toThrow(/analyzeSequence: rows must be an array of acquisitions, got 3/);
    expect(() => analyzeSequence(recording, [{ ...rows[0]!, trial: "x" }])).toThrow(
      /rows\[0\] must come from this recording, got trial "x"/,
    );
    expect(() => analyzeSequence(recording, [rows[0]!, { ...rows[0]!, target: "y" }])).toThrow(
      /rows\[1\] must come from this recording, got target "y"/,
    );
  });
});
