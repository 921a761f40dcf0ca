import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { minimumJerkPosition } from "../../src/math/minimum-jerk.js";
import { createRandom } from "../../src/math/random.js";
import { assessSampling } from "../../src/trace/assess-sampling.js";
import type { Trace } from "../../src/trace/types.js";

/** Sums from the first entry to each. */
function cumulative(steps: readonly number[], start = 0): number[] {
  let total = start;
  return steps.map((step) => {
    total += step;
    return total;
  });
}

const columns = (t: ArrayLike<number>, x: ArrayLike<number>, y?: ArrayLike<number>): Trace => ({
  t: Float64Array.from(t),
  x: Float64Array.from(x),
  y: y === undefined ? new Float64Array(x.length) : Float64Array.from(y),
});

/** Reports at a steady speed around a circle of 400 px, `perReport` px apart, on whole pixels. */
function circle(n: number, rate: number, perReport = 6, start = 0): Trace {
  const angle = (i: number): number => (i * perReport) / 400;
  const index = Array.from({ length: n }, (_, i) => i);
  return columns(
    index.map((i) => start + i / rate),
    index.map((i) => Math.round(400 * Math.cos(angle(i)))),
    index.map((i) => Math.round(400 * Math.sin(angle(i)))),
  );
}

function without(trace: Trace, left: (i: number) => boolean): Trace {
  const kept = Array.from(trace.t.keys()).filter((i) => !left(i));
  const column = (from: Float64Array): number[] => kept.map((i) => from[i]!);
  return columns(column(trace.t), column(trace.x), column(trace.y));
}

const codes = (trace: Trace, options = {}): string[] => assessSampling(trace, options).warnings.map((warning) => warning.code);

describe("assessSampling against outside values", () => {
  // Source: NumPy 2.4.6 quantile (default method), std(ddof=1); SciPy 1.17.1 median_abs_deviation(scale="normal"); computed on these intervals.
  it("summarises the intervals in motion as NumPy and SciPy do", () => {
    const ms = [8, 8, 7, 9, 8, 8, 16, 8, 0, 8, 12, 10, 8, 24, 8, 7, 9, 11, 8, 10, 6, 13];
    const at = [0, ...cumulative(ms)].map((stamp) => stamp / 1000);
    const report = assessSampling(
      columns(
        at,
        at.map((_, i) => 3 * i),
      ),
    );
    expect(report.interval).toEqual({
      n: 22,
      min: 0,
      q05: expect.closeTo(0.00605, 12),
      median: expect.closeTo(0.008, 12),
      q95: expect.closeTo(0.01585, 12),
      max: expect.closeTo(0.024, 12),
    });
    expect(report.jitter).toMatchObject({ ok: true, value: expect.closeTo(0.001482602218505602, 12), n: 22 });
    expect(report.jitterSd).toMatchObject({ ok: true, value: expect.closeTo(0.004413674147523747, 12) });
    expect(report.rate).toMatchObject({ ok: true, value: expect.closeTo(125, 9), unit: "Hz" });
    expect(report.timeInMotion).toBeCloseTo(0.206, 12);
    expect(report.duplicates).toEqual({ count: 1, withMovement: 1, samePosition: 0 });
    expect(report.bursts).toEqual({ count: 1, of: 22 });
  });

  // Source: standard deviation of an even spread over one interval, dt / sqrt(12), textbook; two decimals of a millisecond.
  it.each([
    [60, 4.81],
    [125, 2.31],
    [250, 1.15],
    [500, 0.58],
    [1000, 0.29],
  ])("times an event at %i Hz to %f ms", (rate, ms) => {
    const { eventTiming } = assessSampling(circle(400, rate)).supports;
    expect(1000 * eventTiming.value!).toBeCloseTo(ms, 2);
    expect(eventTiming).toMatchObject({ ok: true, needed: 0.005, unit: "s" });
  });

  // Source: the minimum-jerk movement, whose peak speed is 1.875 amplitudes per duration (Flash and Hogan 1985, recalled). The largest first
  // difference, averaged over where the samples fall, misses it by less than a hundredth from 12 reports on and by more at 11.
  it("asks for as many reports as keep the peak speed within a hundredth", () => {
    const miss = (reports: number): number => {
      let total = 0;
      const phases = 200;
      for (let k = 0; k < phases; k++) {
        let peak = 0;
        for (let i = -1; i <= reports; i++) {
          const s = (i + k / phases) / reports;
          peak = Math.max(peak, (minimumJerkPosition(s + 1 / reports) - minimumJerkPosition(s)) * reports);
        }
        total += 1 - peak / 1.875;
      }
      return total / phases;
    };
    expect(miss(12)).toBeLessThan(0.01);
    expect(miss(11)).toBeGreaterThan(0.01);
    const verdict = (reports: number): boolean => assessSampling(circle(200, 100), { movementTime: reports / 100 }).supports.peakSpeed.ok;
    expect([verdict(11), verdict(12)]).toEqual([false, true]);
  });

  // Source: common practice, no source: a system clock of 64 Hz, read in full or rounded to whole milliseconds (15 and 16).
  it("finds the quantum of a coarse clock, and that of its rounding", () => {
    const ticks = Array.from({ length: 300 }, (_, i) => i + (i % 3 === 0 ? 0 : i % 5));
    const sorted = ticks.sort((a, b) => a - b);
    const at = (stamp: (tick: number) => number): number => {
      const { timeQuantum } = assessSampling(
        columns(
          sorted.map(stamp),
          sorted.map((_, i) => 2 * i),
        ),
      );
      return timeQuantum.ok ? timeQuantum.value : Number.NaN;
    };
    expect(at((tick) => tick / 64)).toBeCloseTo(0.015625, 9);
    expect(at((tick) => Math.round((tick * 1000) / 64) / 1000)).toBeCloseTo(0.001, 9);
  });
});

describe("assessSampling properties", () => {
  it("supports speed but not jerk at 60 Hz, and no kinematics at 9 Hz", () => {
    const at = (rate: number): string[] =>
      Object.entries(assessSampling(circle(400, rate)).supports).flatMap(([measure, verdict]) => (verdict.ok ? [measure] : []));
    expect(at(1000)).toEqual(["peakSpeed", "peakDeceleration", "jerk", "tremor", "eventTiming"]);
    expect(at(60)).toEqual(["peakSpeed", "tremor", "eventTiming"]);
    expect(at(9)).toEqual([]);
    expect(assessSampling(circle(400, 9)).supports.peakSpeed).toEqual({
      ok: false,
      why: "belowResolution",
      value: expect.closeTo(1.8, 6),
      needed: 12,
      unit: "reports per movement",
    });
  });

  it("lets a coarse clock, not only a slow device, spoil the timing of events", () => {
    const trace = circle(600, 1000);
    const coarse = { ...trace, t: trace.t.map((t) => Math.floor(t * 32) / 32) };
    expect(assessSampling(trace).supports.eventTiming.ok).toBe(true);
    expect(assessSampling(coarse).supports.eventTiming).toMatchObject({ ok: false, value: expect.closeTo(1 / 32 / Math.sqrt(12), 6) });
  });

  test.prop([fc.integer({ min: 1, max: 2 ** 31 - 1 }), fc.constantFrom(0.01, 0.04, 0.1)], { numRuns: 15 })(
    "estimates the share of lost reports",
    (seed, share) => {
      const random = createRandom(seed);
      const n = 8000;
      const lost = Array.from({ length: n }, () => random.uniform() < share);
      const { lostReports } = assessSampling(without(circle(n, 1000), (i) => lost[i]!));
      const truth = lost.filter(Boolean).length / n;
      // five standard errors of a binomial share, over the intervals that have two whole neighbours
      const tolerance = 5 * Math.sqrt((share * (1 - share)) / (n * (1 - share) ** 3));
      expect(lostReports.ok && Math.abs(lostReports.value - truth)).toBeLessThan(tolerance);
    },
  );

  it("takes no slow movement for lost reports: a device has nothing to report within a quantum", () => {
    const every = circle(6000, 1000, 0.4);
    const reported = without(every, (i) => i > 0 && every.x[i] === every.x[i - 1] && every.y[i] === every.y[i - 1]);
    expect(assessSampling(reported).lostReports).toMatchObject({ ok: false, why: "tooFew" });
  });

  it("tells a rest from missing data and counts the stretches of motion that are broken", () => {
    const trace = circle(3000, 500);
    // silent for 0.4 s without moving: later samples come later
    const rested = { ...trace, t: trace.t.map((t, i) => (i < 1000 ? t : t + 0.4)) };
    expect(assessSampling(rested)).toMatchObject({ gaps: { count: 1, holds: 1, missing: 0 }, bouts: { count: 2, broken: 0 } });
    const lossy = without(trace, (i) => i >= 1000 && i < 1100);
    const report = assessSampling(lossy);
    expect(report).toMatchObject({ gaps: { count: 1, holds: 0, missing: 1 }, bouts: { count: 1, broken: 1 } });
    expect(report.gaps.longest).toBeCloseTo(101 / 500, 9);
    expect(report.gaps.list).toEqual([{ from: trace.t[999], to: trace.t[1100], kind: "missing", jump: expect.any(Number) }]);
    expect(codes(lossy)).toContain("gapsInMotion");
  });

  it("lists the longest gaps in order of time and counts them all", () => {
    const trace = circle(3000, 500);
    const paused = { ...trace, t: trace.t.map((t, i) => t + 0.1 * Math.floor(i / 500) + (i >= 1000 ? 0.5 : 0)) };
    const { gaps } = assessSampling(paused, { listed: 2 });
    expect(gaps.count).toBe(5);
    expect(gaps.list.length).toBe(2);
    expect(gaps.list.map((gap) => gap.to - gap.from)).toContainEqual(expect.closeTo(0.602, 9));
    expect(gaps.list[0]!.from).toBeLessThan(gaps.list[1]!.from);
    expect(assessSampling(paused, { listed: 0 }).gaps).toMatchObject({ count: 5, list: [] });
  });

  it("suspects positions kept once per frame, and not a device's own rate", () => {
    const fast = circle(20_000, 1000, 1);
    const frame = (refreshHz: number): Trace =>
      without(fast, (i) => Math.floor((i * refreshHz) / 1000) === Math.floor(((i + 1) * refreshHz) / 1000));
    expect(assessSampling(frame(60)).framePaced).toEqual({ suspected: true, refreshHz: 60 });
    expect(assessSampling(frame(144)).framePaced).toEqual({ suspected: true, refreshHz: 144 });
    expect(assessSampling(frame(100)).framePaced).toEqual({ suspected: false });
    expect(assessSampling(frame(100), { refreshHz: 100 }).framePaced).toEqual({ suspected: true, refreshHz: 100 });
    for (const rate of [125, 250, 500, 1000]) expect(assessSampling(circle(2000, rate)).framePaced).toEqual({ suspected: false });
    expect(codes(frame(60))).toContain("framePaced");
    // a device that reports 60 times per second cannot be told more often
    expect(codes(frame(60), { nominalHz: 60 })).not.toContain("framePaced");
    expect(codes(frame(60), { nominalHz: 1000 })).toEqual(expect.arrayContaining(["framePaced", "rateBelowNominal"]));
  });

  it("counts reports delivered in bunches", () => {
    const trace = circle(4000, 1000);
    const bunched = { ...trace, t: trace.t.map((t, i) => (i % 4 === 3 ? trace.t[i - 1]! : t)) };
    const { bursts, duplicates } = assessSampling(bunched);
    expect(bursts.count).toBe(1000);
    expect(duplicates).toEqual({ count: 1000, withMovement: 1000, samePosition: 0 });
    expect(codes(bunched)).toContain("bursts");
  });

  it("counts repeated rows apart from movement without time", () => {
    const trace = circle(100, 100);
    const twice = columns(
      [...trace.t].flatMap((v) => [v, v]),
      [...trace.x].flatMap((v) => [v, v]),
      [...trace.y].flatMap((v) => [v, v]),
    );
    expect(assessSampling(twice).duplicates).toEqual({ count: 100, withMovement: 0, samePosition: 100 });
    expect(assessSampling(twice).rate).toEqual(assessSampling(trace).rate);
  });

  const spikes = fc
    .uniqueArray(fc.integer({ min: 1, max: 190 }), { maxLength: 8 })
    .map((list) => list.map((k) => 5 * k).sort((a, b) => a - b));

  test.prop([spikes, fc.integer({ min: 1, max: 3 })], { numRuns: 40 })(
    "finds the samples that carry a code for no position, whether named or not",
    (at, stay) => {
      const trace = circle(1000, 1000);
      const coded = (i: number): boolean => at.some((first) => i >= first && i < first + stay);
      const spoilt = { ...trace, x: trace.x.map((v, i) => (coded(i) ? 65535 : v)), y: trace.y.map((v, i) => (coded(i) ? 65535 : v)) };
      const indices = Array.from(trace.t.keys()).filter(coded);
      expect(assessSampling(spoilt).jumps).toEqual({ count: indices.length, indices: indices.slice(0, 100) });
      const named = assessSampling(spoilt, { missing: 65535 });
      const { missing, warnings, ...rest } = named;
      const clean = assessSampling(without(trace, coded));
      expect(missing).toBe(indices.length);
      expect(rest).toEqual((({ missing: _, warnings: __, ...others }) => others)(clean));
      expect(warnings.map((w) => w.code)).toEqual([...(indices.length > 0 ? ["missingValues"] : []), ...clean.warnings.map((w) => w.code)]);
    },
  );

  it("gives the places of jumps in the input when other samples were left out before", () => {
    const trace = circle(200, 1000);
    trace.x[50] = -1;
    trace.x[90] = 99_999;
    expect(assessSampling(trace, { missing: -1 })).toMatchObject({ missing: 1, jumps: { count: 1, indices: [90] } });
    // a pair must match in both coordinates
    expect(assessSampling(trace, { missing: { x: -1, y: trace.y[50]! } }).missing).toBe(1);
    expect(assessSampling(trace, { missing: { x: -1, y: -1 } }).missing).toBe(0);
  });

  test.prop([fc.double({ min: 0.08, max: 0.5, noNaN: true }), fc.constantFrom(60, 125, 1000), fc.integer({ min: 100, max: 1800 })])(
    "takes no fast movement out and back for a fault",
    (duration, rate, amplitude) => {
      const n = Math.ceil(2 * duration * rate) + 60;
      const x = Array.from({ length: n }, (_, i) => {
        const s = (i - 20) / rate / duration;
        return Math.round(amplitude * (minimumJerkPosition(s) - minimumJerkPosition(s - 1)));
      });
      expect(
        assessSampling(
          columns(
            Array.from({ length: n }, (_, i) => i / rate),
            x,
          ),
        ).jumps.count,
      ).toBe(0);
    },
  );

  test.prop([
    fc.constantFrom(0.001, 0.0001, 1 / 64, 0.005, 1 / 144),
    fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 80, maxLength: 200 }),
  ])("finds the quantum of the time stamps", (quantum, multiples) => {
    // two neighbours among the multiples leave no larger common step
    const steps = [...multiples, ...Array.from({ length: 40 }, (_, i) => 7 + (i % 2))];
    let total = 0;
    const t = [0, ...steps.map((k) => (total += k))].map((k) => k * quantum);
    const { timeQuantum } = assessSampling(
      columns(
        t,
        t.map((_, i) => 5 * i),
      ),
    );
    expect(timeQuantum.ok && Math.abs(timeQuantum.value / quantum - 1)).toBeLessThan(1e-6);
  });

  // Source: constructed: 8 and 9 ms share no step above 1 ms, however many stand between the intervals that are looked at
  it.each([2, 3, 4, 5, 50])("sees in a long recording an interval that comes every %d times", (every) => {
    const t = cumulative(Array.from({ length: 4000 * every }, (_, i) => (i % every === 0 ? 0.009 : 0.008)));
    const { timeQuantum } = assessSampling(
      columns(
        t,
        t.map((_, i) => 5 * i),
      ),
    );
    expect(timeQuantum.ok && timeQuantum.value).toBeCloseTo(0.001, 9);
  });

  it("names no quantum for stamps without one", () => {
    const random = createRandom(7);
    const at = cumulative(Array.from({ length: 2000 }, () => random.uniform(0.5e-3, 1.5e-3)));
    const report = assessSampling(
      columns(
        at,
        at.map((_, i) => 5 * i),
      ),
    );
    expect(report.timeQuantum).toEqual({ ok: false, why: "notIdentified", unit: "s", n: 1999 });
    expect(
      codes(
        columns(
          at,
          at.map((_, i) => 5 * i),
        ),
      ),
    ).not.toContain("coarseTime");
  });

  const walk = fc.array(
    fc.record({ wait: fc.integer({ min: 0, max: 40 }), dx: fc.integer({ min: -9, max: 9 }), dy: fc.integer({ min: -9, max: 9 }) }),
    {
      maxLength: 150,
    },
  );
  const path = (list: readonly { wait: number; dx: number; dy: number }[], start = 0, scale = 1, offset = 0): Trace => {
    const column = (name: "wait" | "dx" | "dy"): number[] => cumulative(list.map((row) => row[name]));
    // steps of 1/1024 s, so that a late start costs no rounding
    const place = (v: number): number => offset + scale * v;
    return columns(
      column("wait").map((ticks) => start + ticks / 1024),
      column("dx").map(place),
      column("dy").map(place),
    );
  };

  // second implementation, straight from the definitions
  test.prop([walk])("counts steps as a plain pass over them does", (list) => {
    const trace = path(list);
    const { rate, duplicates, bursts, gaps, interval } = assessSampling(trace);
    const steps = list.slice(1).map(({ wait, dx, dy }) => ({ dt: wait / 1024, moves: dx !== 0 || dy !== 0 }));
    const count = (test: (step: { dt: number; moves: boolean }) => boolean): number => steps.filter(test).length;
    expect(duplicates.withMovement).toBe(count(({ dt, moves }) => dt === 0 && moves));
    expect(duplicates.samePosition).toBe(count(({ dt, moves }) => dt === 0 && !moves));
    expect(interval?.n ?? 0).toBe(count(({ moves }) => moves));
    const sorted = steps.flatMap(({ dt, moves }) => (moves && dt > 0 ? [dt] : [])).sort((a, b) => a - b);
    expect(rate.ok).toBe(sorted.length >= 2);
    if (!rate.ok) return;
    const middle = (sorted[(sorted.length - 1) >> 1]! + sorted[sorted.length >> 1]!) / 2;
    expect(rate.value).toBe(1 / middle);
    expect(bursts.count).toBe(count(({ dt, moves }) => moves && dt < 0.25 / rate.value));
    expect(gaps.count).toBe(count(({ dt }) => dt > Math.max(0.025, 3 / rate.value)));
    expect(gaps.longest).toBe(Math.max(0, ...gaps.list.map((gap) => gap.to - gap.from)));
  });

  test.prop([walk])("does not change when the recording starts at a time since 1970, or elsewhere on the screen", (list) => {
    const { gaps, timeQuantum, ...here } = assessSampling(path(list));
    const { gaps: gapsThere, timeQuantum: quantumThere, ...there } = assessSampling(path(list, 1.7e9, 1, 4096));
    expect(there).toEqual(here);
    expect(gapsThere.list).toEqual(gaps.list.map((gap) => ({ ...gap, from: gap.from + 1.7e9, to: gap.to + 1.7e9 })));
    expect(quantumThere).toEqual(timeQuantum);
  });

  test.prop([walk])("changes only its lengths with the unit of length", (list) => {
    const { gaps, positionQuantum, ...one } = assessSampling(path(list));
    const { gaps: scaledGaps, positionQuantum: scaledQuantum, ...scaled } = assessSampling(path(list, 0, 0.25));
    expect(scaled).toEqual(one);
    expect(scaledGaps.list).toEqual(gaps.list.map((gap) => ({ ...gap, jump: gap.jump / 4 })));
    expect(scaledQuantum.ok && scaledQuantum.value).toBe(positionQuantum.ok && positionQuantum.value / 4);
  });

  test.prop([walk])("gives plain data, leaves the columns alone and says the same twice", (list) => {
    const trace = path(list);
    const before = structuredClone(trace);
    const report = assessSampling(Object.freeze(trace), Object.freeze({ targetWidth: 8, nominalHz: 125 }));
    expect(trace).toEqual(before);
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
    expect(structuredClone(report)).toEqual(report);
    expect(assessSampling(trace, { targetWidth: 8, nominalHz: 125 })).toEqual(report);
  });

  it("cannot judge what does not move", () => {
    for (const n of [0, 1, 2, 500]) {
      const report = assessSampling(
        columns(
          Array.from({ length: n }, (_, i) => i / 1000),
          new Float64Array(n),
        ),
      );
      expect(report.rate).toEqual({ ok: false, why: "tooFew", unit: "Hz", n: 0 });
      expect(report.interval).toBeUndefined();
      expect(Object.values(report.supports).every((verdict) => !verdict.ok && verdict.why === "tooFew")).toBe(true);
      expect(report.warnings).toEqual([{ code: "fewSamples", value: 0, limit: 50 }]);
    }
  });

  it("warns of a slow rate, uneven intervals, a coarse clock and coarse positions, with figure and limit", () => {
    expect(assessSampling(circle(400, 99)).warnings).toContainEqual({ code: "lowRate", value: expect.closeTo(99, 5), limit: 100 });
    expect(codes(circle(400, 100))).toEqual([]);
    expect(assessSampling(circle(400, 500), { targetWidth: 8 }).warnings).toEqual([{ code: "coarsePosition", value: 0.125, limit: 0.1 }]);
    expect(codes(circle(400, 500), { targetWidth: 10 })).toEqual([]);
    const random = createRandom(3);
    const uneven = cumulative(Array.from({ length: 400 }, () => random.uniform(0.001, 0.003)));
    expect(codes({ ...circle(400, 500), t: Float64Array.from(uneven) })).toEqual(["irregular"]);
    // two reports a tick: the clock of 500 Hz hides a device of 1000 Hz
    const trace = circle(2000, 1000);
    const { warnings, rate } = assessSampling({ ...trace, t: trace.t.map((at) => Math.floor(at * 500 + 1e-6) / 500) });
    expect(rate).toMatchObject({ ok: true, value: expect.closeTo(500, 6) });
    expect(warnings).toContainEqual({ code: "coarseTime", value: expect.closeTo(2, 2), limit: 1.1 });
  });
});

describe("assessSampling bad input", () => {
  const good = circle(100, 100);

  it.each<[string, Trace, object, RegExp]>([
    [
      "unequal columns",
      { ...good, x: new Float64Array(3) },
      {},
      /^assessSampling: trace\.x must have 100 entries like the other columns, got 3$/,
    ],
    [
      "an entry that is not finite",
      { ...good, y: good.y.map((v, i) => (i === 7 ? Number.NaN : v)) },
      {},
      /trace\.y\[7\] must be finite, got NaN/,
    ],
    ["time that runs backward", { ...good, t: good.t.map((v, i) => (i === 7 ? 0 : v)) }, {}, /trace\.t must not run backward/],
    ["a code that is not finite", good, { missing: Number.NaN }, /options\.missing must be finite, got NaN/],
    ["half a pair", good, { missing: { x: 1, y: Number.NaN } }, /options\.missing\.y must be finite, got NaN/],
    ["a rate of zero", good, { nominalHz: 0 }, /options\.nominalHz must be finite and above 0, got 0/],
    ["a refresh rate below zero", good, { refreshHz: -60 }, /options\.refreshHz must be finite and above 0, got -60/],
    ["a width of zero", good, { targetWidth: 0 }, /options\.targetWidth must be finite and above 0, got 0/],
    ["a movement of no time", good, { movementTime: 0 }, /options\.movementTime must be finite and above 0, got 0/],
    ["a spread of zero", good, { timingSd: 0 }, /options\.timingSd must be finite and above 0, got 0/],
    ["part of a list entry", good, { listed: 1.5 }, /options\.listed must be a whole number finite and at least 0, got 1\.5/],
  ])("refuses %s", (_, trace, options, message) => {
    expect(() => assessSampling(trace, options)).toThrow(RangeError);
    expect(() => assessSampling(trace, options)).toThrow(message);
  });

  it("refuses what is no trace", () => {
    expect(() => assessSampling(null as unknown as Trace)).toThrow(TypeError);
    expect(() => assessSampling({ ...good, t: [0] as unknown as Float64Array })).toThrow(
      /trace\.t must be a Float64Array, got an array of 1/,
    );
  });
});
