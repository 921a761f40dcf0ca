// Aggregates of corrections, stop, press and economy, from rows written by hand.
import { test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import type { Economy, Pressing } from "../../src/movement/row-parts.js";
import { summarize } from "../../src/movement/summarize.js";
import type { Acquisition, Correction } from "../../src/movement/types.js";
import { errorOf, rowOf } from "./rows.js";
import { deepFreeze, simulatedArb } from "./simulated.js";

/** A correction that found `error` to do along the axis, did `done` of it, and took the given time to begin. */
function correctionOf(error: number, done: number, more: Partial<Correction> = {}): Correction {
  return {
    start: 0,
    peak: 0.05,
    end: 0.1,
    peakSpeed: 100,
    dx: done,
    dy: 0,
    errorBefore: errorOf(-error, 0),
    errorAfter: errorOf(done - error, 0),
    latency: 0.1,
    fromPeak: 0.2,
    pause: 0.05,
    amplitude: Math.abs(done),
    gain: done / error,
    directionErrorDeg: 0,
    reversal: done < 0,
    unnecessary: false,
    counterProductive: false,
    ...more,
  };
}

const FOUND = [20, -12, 35, 8, -25, 14, 40, -30, 18, -9, 26, -16, 7];
const DONE = [15, -9.5, 30, 5, -20, 12, 31, -24, 16, -8, 19, -12, 6];
const TIMES = [0.21, 0.17, 0.3, 0.14, 0.22, 0.2, 0.31, 0.27, 0.21, 0.13, 0.24, 0.2];

/** Twelve acquisitions, one correction each and two in the last. */
const corrected: Acquisition[] = TIMES.map((time, i) =>
  rowOf(
    10 * i,
    { latency: 0.2, primary: 0.3, correction: time },
    {
      corrections: [correctionOf(FOUND[i]!, DONE[i]!), ...(i === 11 ? [correctionOf(FOUND[12]!, DONE[12]!)] : [])],
      errors: { primary: errorOf(-FOUND[i]!, 0) },
      correctionPhase: { pause: 0.05, efficiency: 0.9, netEfficiency: 0.8, missing: i === 0 },
      resolution: { sampleRateHz: 250, quantum: 1, positionNoise: 2, speedNoise: 10 },
    },
  ),
);

describe("corrections of summarize against outside values", () => {
  const { corrections } = summarize(corrected);

  // Source: NumPy 1.24.2 (least squares, jackknife over the twelve acquisitions) and SciPy 1.10.1 stats.t.ppf; stats.linregress gives the same slope.
  it("regresses what was done on what there was to do, with the acquisition as the unit", () => {
    expect(corrections.gain.slope).toMatchObject({
      ok: true,
      value: expect.closeTo(0.7983191156428245, 12),
      n: 12,
      interval: [expect.closeTo(0.7622683355336825, 10), expect.closeTo(0.8343698957519666, 10)],
    });
    expect(corrections.gain.intercept).toMatchObject({
      ok: true,
      value: expect.closeTo(-0.013250214527281479, 11),
      unit: "px",
      interval: [expect.closeTo(-0.6607531895610914, 9), expect.closeTo(0.6342527605065285, 9)],
    });
  });

  // Source: lambda = 1 - 4/var(e), gain = (slope - (1 - lambda))/lambda, by NumPy 1.24.2.
  it("says how far rounding pulls the slope, and takes it out", () => {
    expect(corrections.gain.reliability).toMatchObject({ value: expect.closeTo(0.9921255867952148, 12) });
    expect(corrections.gain.unbiased).toMatchObject({ value: expect.closeTo(0.7967183922665987, 12) });
    expect(corrections.gain.unreliable).toBe(false);
    const coarse = corrected.map((row) => ({ ...row, resolution: { ...row.resolution!, positionNoise: 11 } }));
    expect(summarize(coarse).corrections.gain.unreliable).toBe(true);
  });

  // Source: SciPy 1.10.1 stats.linregress with t.ppf(.975, 10).
  it("fits correction time on the size of the error left by the primary", () => {
    expect(corrections.time.slope).toMatchObject({
      value: expect.closeTo(0.11598109774374216, 12),
      unit: "s/bit",
      interval: [expect.closeTo(0.0983216648533036, 11), expect.closeTo(0.13364053063418072, 11)],
    });
    expect(corrections.time.intercept).toMatchObject({
      value: expect.closeTo(0.03524671268992785, 12),
      interval: [expect.closeTo(0.006469337849369445, 11), expect.closeTo(0.06402408753048626, 11)],
    });
    expect(corrections.time.mean).toMatchObject({ value: expect.closeTo(0.2166666666666667, 12) });
    expect(corrections.time.difficulty).toMatchObject({ value: expect.closeTo(1.5642200108985216, 12), unit: "bit" });
    expect(corrections.time.residualSd).toMatchObject({ value: expect.closeTo(0.011959761957146098, 12) });
    expect(corrections.time.excess).toBeUndefined();
    const law = { intercept: 0.05, slope: 0.1 };
    const against = summarize(corrected, { correctionTimeLaw: law });
    expect(against.corrections.time.excess).toMatchObject({ value: expect.closeTo(0.010244665576814513, 12), unit: "s" });
    expect(against.header.options.correctionTimeLaw).toEqual(law);
  });

  // Source: counted by hand.
  it("counts", () => {
    expect(corrections.perAcquisition).toMatchObject({ value: expect.closeTo(13 / 12, 12) });
    expect(corrections.one).toMatchObject({ value: expect.closeTo(11 / 12, 12) });
    expect(corrections.more).toMatchObject({ value: expect.closeTo(1 / 12, 12) });
    expect(corrections.missing).toMatchObject({ value: expect.closeTo(1 / 12, 12) });
    expect(corrections.reversal).toMatchObject({ value: expect.closeTo(5 / 13, 12), n: 13 });
    expect(corrections.latency).toMatchObject({ value: 0.1, n: 12 });
    expect(corrections.amplitude).toMatchObject({ value: 15, unit: "px" });
    expect(corrections.amplitudePerWidth).toMatchObject({ value: 1.5, unit: "1" });
  });

  it("leaves corrections that began on the target out of the gain", () => {
    const idle = correctionOf(4, -40, { unnecessary: true });
    const more = corrected.map((row) => ({ ...row, corrections: [...row.corrections, idle] }));
    const { gain, unnecessary } = summarize(more).corrections;
    expect(gain).toEqual(corrections.gain);
    expect(unnecessary).toMatchObject({ value: expect.closeTo(12 / 25, 12) });
  });

  it("withholds what too few acquisitions cannot tell", () => {
    const { gain, time } = summarize(corrected.slice(0, 9)).corrections;
    expect(gain.slope).toEqual({ ok: false, why: "tooFew", unit: "1", n: 9 });
    expect(time.slope).toEqual({ ok: false, why: "tooFew", unit: "s/bit", n: 9 });
  });
});

describe("stopping of summarize against outside values", () => {
  const AFTER = [0.07, 0.05, 0.12, -0.02, 0.08, 0.2, 0.06, 0.09, 0.03, 0.07];
  const rows = AFTER.map((afterStop, i) => {
    const slip = { along: 1, across: 0, length: [1, 2, 1.5][i] ?? 0 };
    const pressing: Pressing = { afterStop, duration: 0.08, ...(i < 3 && { slip, releasedInside: i > 0 }) };
    const resolution = { sampleRateHz: 250, quantum: 1, positionNoise: 0.1, speedNoise: 10 };
    return rowOf(10 * i, { latency: 0.2, primary: 0.3, verification: Math.max(0, afterStop) }, { pressing, resolution });
  });
  const { stopping } = summarize(rows);

  // Source: NumPy 1.24.2: mean, std(ddof=1), 1.4826 times the median absolute deviation.
  it("tells how alike the presses are timed", () => {
    const { mean, median, sd, robustSd } = stopping.afterStop;
    expect(mean).toMatchObject({ value: expect.closeTo(0.075, 12) });
    expect(median).toMatchObject({ value: expect.closeTo(0.07, 12) });
    expect(sd).toMatchObject({ value: expect.closeTo(0.05759050847723665, 12) });
    expect(robustSd).toMatchObject({ value: expect.closeTo(0.029652044370112037, 12) });
    expect(stopping.early).toMatchObject({ value: 0.1, n: 10 });
    expect(stopping.late).toMatchObject({ value: 0.1, n: 10 });
  });

  // Source: by hand: the mean square of 1, 2 and 1.5 less 1/3 of a squared quantum (two points, two axes, quantum^2/12 each).
  it("takes the rounding of positions out of the slip", () => {
    expect(stopping.slip.rms).toMatchObject({ value: expect.closeTo(1.443375672974064, 12), n: 3 });
    expect(stopping.slip.out).toMatchObject({ value: expect.closeTo(1 / 3, 12), n: 3 });
    const still = rows.map((row) => ({ ...row, pressing: { ...row.pressing!, slip: { length: 0.3 } } }));
    expect(summarize(still).stopping.slip.rms).toEqual({ ok: false, why: "belowResolution", unit: "px", n: 10 });
  });

  it("has no coefficient of variation where nothing varies", () => {
    expect(stopping.pressDuration.cv).toEqual({ ok: false, why: "noSpread", unit: "1", n: 10 });
  });

  // Source: counted by hand.
  it("sets hits against stops", () => {
    const kinds = [
      ["hit", 0],
      ["hit", 0],
      ["hit", 8],
      ["miss", 0],
      ["recovered", 8],
      ["miss", 9],
    ] as const;
    const table = kinds.map(([outcome, off], i) => rowOf(10 * i, { primary: 0.3 }, { outcome, errors: { stop: errorOf(off, 0) } }));
    expect(summarize(table).stopping.hitsByStop).toMatchObject({
      insideHit: 2,
      insideMiss: 1,
      outsideHit: 1,
      outsideMiss: 2,
      hitGivenInside: { value: expect.closeTo(2 / 3, 12), n: 3 },
      hitGivenOutside: { value: expect.closeTo(1 / 3, 12), n: 3 },
    });
  });
});

describe("economy of summarize against outside values", () => {
  const economyOf = (pathLength: number, efficiency: number, entries: number): Economy => {
    return { pathLength, efficiency, entries, reversals: 1, excess: { primary: 3, correction: 2, verification: 1, recovery: 0 } };
  };
  const rows = [economyOf(100, 0.9, 1), economyOf(220, 1, 0), economyOf(330, 0.8, 3)].map((economy, i) =>
    rowOf(10 * i, { primary: 0.3 }, { economy }),
  );

  // Source: by hand: (90 + 220 + 264) / 650; excess 3 + 2 + 1.
  it("weighs efficiency by length and adds up what was beyond need", () => {
    const { economy } = summarize(rows);
    expect(economy.pathLength).toBe(650);
    expect(economy.efficiency).toMatchObject({ value: expect.closeTo(0.8830769230769231, 12), n: 3 });
    expect(economy.excess.total).toMatchObject({ value: 6 });
    expect(economy.reentries).toMatchObject({ value: expect.closeTo(2 / 3, 12) });
  });
});

describe("summaries of parts, properties", () => {
  test.prop([simulatedArb], { numRuns: 15 })("are plain data of rows that stay as they are", ({ recording }) => {
    const rows = deepFreeze(analyze(recording));
    const { corrections, stopping, economy } = summarize(rows);
    const parts = { corrections, stopping, economy };
    expect(JSON.parse(JSON.stringify(parts))).toEqual(parts);
    expect(structuredClone(parts)).toEqual(parts);
  });
});

describe("summaries of parts, bad input", () => {
  it("wants a law of correction time in numbers", () => {
    expect(() => summarize([], { correctionTimeLaw: { intercept: Number.NaN, slope: 0.1 } })).toThrow(
      "summarize: options.correctionTimeLaw.intercept must be finite, got NaN",
    );
  });
});
