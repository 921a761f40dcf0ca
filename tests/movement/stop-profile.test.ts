import { describe, expect, it } from "vitest";
import { bcaInterval, bootstrap } from "../../src/math/bootstrap.js";
import { createRandom } from "../../src/math/random.js";
import { analyze } from "../../src/movement/analyze.js";
import { likenessIntervals } from "../../src/movement/repetition/likeness-intervals.js";
import { pairwiseCorrelation } from "../../src/movement/repetition/pairwise-correlation.js";
import { likenessOf, profileSpread, withoutProfile } from "../../src/movement/repetition/profile-spread.js";
import { stopProfile } from "../../src/movement/stop-profile.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Recording } from "../../src/trace/types.js";

/** Movements of one distance and width that are all the same but for what is asked. */
function same(options: { primary?: object; press?: object; quantum?: number; movements?: number; seed?: number } = {}): Recording {
  const { quantum = 0.01, movements = 30, seed = 41 } = options;
  return simulateRecording({
    seed,
    movements,
    sampleRateHz: 500,
    tremorAmplitude: 0,
    targets: { amplitude: [400, 400], widths: [40] },
    primary: { bells: ["minimumJerk"], alongBias: 0, alongSd: 0, acrossSd: 0, timeSd: 0, ...options.primary },
    correction: { pureShare: 1 },
    press: { delaySd: 0, earlyShare: 0, slipSd: 0, ...options.press },
    recorder: { quantum },
  }).recording;
}
const value = (estimate: { ok: boolean; value?: number }): number => (estimate.ok ? estimate.value! : Number.NaN);

describe("stopProfile against outside values", () => {
  const recording = same();
  const profile = stopProfile(recording, analyze(recording));

  // Source: closed form: minimum-jerk speed over its peak is 16 s^2 (1 - s)^2; T = 0.12 + 0.05 log2(400/40 + 1) = 0.29297 s. The onset of rest is found to about 3 ms.
  it("shows the falling half of a minimum-jerk bell", () => {
    const duration = 0.12 + 0.05 * Math.log2(11);
    for (const back of [0.05, 0.1, 0.15]) {
      const s = 1 - back / duration;
      expect(profile.atStop.mean[40 - back * 200]).toBeCloseTo(16 * s * s * (1 - s) * (1 - s), 1.1);
    }
    expect(profile.atStop.mean.at(-1)!).toBeLessThan(0.01);
  });
  // Source: by hand. Profiles (0 2), (2 4), (1 3): mean (1 3), SD 1 at both points; SS within 4, grand mean 2: total 10; ratio (4/4)/(10/5) = 0.5.
  it("has the spread and the multiple correlation worked by hand", () => {
    const profiles = [Float64Array.of(0, 2), Float64Array.of(2, 4), Float64Array.of(1, 3)];
    const spread = profileSpread(profiles, [0, 1, 2]);
    expect([...spread.mean]).toEqual([1, 3]);
    expect([...spread.squares]).toEqual([2, 2]);
    const found = likenessOf(spread, 3);
    expect(found.functionalSd).toBe(1);
    expect(found.multipleCorrelation).toBeCloseTo(Math.sqrt(0.5), 12);
  });
  // Source: NumPy 2.4.6 corrcoef of (1 2 3 5), (2 1 4 4), (5 3 2 1); tanh of the mean of arctanh over the three pairs.
  it("averages the correlations of all pairs as NumPy's corrcoef has them", () => {
    const profiles = [Float64Array.of(1, 2, 3, 5), Float64Array.of(2, 1, 4, 4), Float64Array.of(5, 3, 2, 1)];
    expect(value(pairwiseCorrelation(profiles, 2, 0.95))).toBeCloseTo(-0.49533321344327313, 12);
  });
  // Source: closed form: time lags u with SD s shift the profile by u, so that its SD is s |f'(t)| to first order; s = 8 ms, |f'| by differences of the mean profile.
  it("sees a lag of the press of 8 ms as the slope of the profile times 8 ms", () => {
    const late = same({ press: { delaySd: 0.008, delay: 0.05 }, movements: 120 });
    const { atPress } = stopProfile(late, analyze(late));
    let expected = 0;
    for (let k = 1; k < 40; k++) expected += (0.008 * Math.abs(atPress.mean[k + 1]! - atPress.mean[k - 1]!) * 100) / 41;
    expect(value(atPress.functionalSd) / expected).toBeGreaterThan(0.85);
    expect(value(atPress.functionalSd) / expected).toBeLessThan(1.15);
  });
});

describe("stopProfile properties", () => {
  const recording = same({ primary: { timeSd: 0.1 } });
  const rows = analyze(recording);
  const profile = stopProfile(recording, rows);

  it("finds identical movements alike, and different ones less so", () => {
    const steady = same();
    const alike = stopProfile(steady, analyze(steady));
    expect(value(alike.atStop.functionalSd)).toBeLessThan(0.01);
    expect(value(alike.atStop.meanCorrelation)).toBeGreaterThan(0.999);
    expect(value(alike.atStop.multipleCorrelation)).toBeGreaterThan(0.999);
    expect(value(profile.atStop.functionalSd)).toBeGreaterThan(3 * value(alike.atStop.functionalSd));
    expect(value(profile.atStop.meanCorrelation)).toBeLessThan(value(alike.atStop.meanCorrelation));
  });
  it("reads the last 0.2 s every 5 ms and averages the SD", () => {
    expect(profile.times).toHaveLength(41);
    expect(profile.times[0]).toBe(-0.2);
    expect(profile.times.at(-1)).toBe(0);
    const { sd, functionalSd } = profile.atStop;
    expect(value(functionalSd)).toBeCloseTo(sd.reduce((sum, s) => sum + s, 0) / 41, 12);
  });
  it("is the same at 1.7e9 s, and in another unit", () => {
    const late = shift(recording, 1.7e9);
    const other = stopProfile(late, analyze(late));
    expect(other.atStop.n).toBe(profile.atStop.n);
    expect(value(other.atStop.functionalSd)).toBeCloseTo(value(profile.atStop.functionalSd), 3);
  });
  it("holds its values within intervals that shrink with the number of movements", () => {
    const many = same({ primary: { timeSd: 0.1 }, movements: 120 });
    const wide = profile.atStop.functionalSd;
    const narrow = stopProfile(many, analyze(many)).atStop.functionalSd;
    if (!wide.ok || !narrow.ok) throw new Error("no estimate");
    expect(wide.interval![0] < wide.value && wide.value < wide.interval![1]).toBe(true);
    expect(narrow.interval![1] - narrow.interval![0]).toBeLessThan(wide.interval![1] - wide.interval![0]);
  });
  it("gives the same for one seed and nearly the same for another", () => {
    expect(stopProfile(recording, rows)).toEqual(profile);
    const other = stopProfile(recording, rows, { seed: 9 });
    expect(other.seed).toBe(9);
    expect(other.atStop.functionalSd.ok && other.atStop.functionalSd.interval).not.toEqual(
      profile.atStop.functionalSd.ok && profile.atStop.functionalSd.interval,
    );
  });
  it("leaves out spoilt rows, and rows without a press at the press", () => {
    const { press: _, ...unpressed } = rows[1]!.times;
    const some = [{ ...rows[0]!, flags: ["clutch" as const] }, { ...rows[1]!, times: unpressed }, ...rows.slice(2)];
    const found = stopProfile(recording, some);
    expect(found).toMatchObject({ leftOut: 1, atStop: { n: 29 }, atPress: { n: 28 } });
  });
  it("is not ok under ten movements, and warns of few and of mixed conditions", () => {
    const few = stopProfile(recording, rows.slice(0, 9));
    const none = { ok: false, why: "tooFew", n: 9 };
    expect(few.atStop).toMatchObject({ mean: [], sd: [], functionalSd: none, meanCorrelation: none, multipleCorrelation: none });
    expect(few.warnings).toEqual(["few"]);
    const mixed = simulateRecording({ seed: 3, movements: 30 }).recording;
    expect(stopProfile(mixed, analyze(mixed)).warnings).toEqual(["mixedAmplitudes", "mixedWidths"]);
  });
  it("correlates no more than 200 of very many profiles, and leaves flat ones out", () => {
    const random = createRandom(3);
    const profiles = Array.from({ length: 500 }, () => Float64Array.from({ length: 20 }, () => random.normal()));
    const found = pairwiseCorrelation(profiles, 10, 0.95);
    expect(found.n).toBe(200);
    expect(Math.abs(value(found))).toBeLessThan(0.02);
    expect(pairwiseCorrelation(new Array(12).fill(new Float64Array(5).fill(2)), 10, 0.95)).toMatchObject({ ok: false, why: "noSpread" });
  });
  it("has no multiple correlation of profiles without shape, nor NaN", () => {
    const of = (...profiles: Float64Array[]) => likenessOf(profileSpread(profiles, [0, 1]), 2).multipleCorrelation;
    expect(of(Float64Array.of(1, 1), Float64Array.of(1, 1))).toBe(0);
    expect(of(Float64Array.of(0, 1), Float64Array.of(1, 0))).toBe(0);
  });
  it("leaves a profile out of the sums as if it had not been there, and has the interval of the general bootstrap", () => {
    const random = createRandom(4);
    const profiles = Array.from({ length: 12 }, () => Float64Array.from({ length: 6 }, (_, t) => Math.sin(t) + random.normal(0, 0.3)));
    const all = profiles.map((_, i) => i);
    const spread = profileSpread(profiles, all);
    const rest = withoutProfile(spread, profiles[3]!, 12);
    const others = profileSpread(
      profiles,
      all.filter((i) => i !== 3),
    );
    for (let t = 0; t < 6; t++) {
      expect(rest.mean[t]).toBeCloseTo(others.mean[t]!, 12);
      expect(rest.squares[t]).toBeCloseTo(others.squares[t]!, 12);
    }
    const draws = (): ((n: number) => number) => {
      const { uniform } = createRandom(9);
      return (n) => Math.floor(uniform(0, n));
    };
    const found = likenessIntervals(profiles, spread, 200, 0.9, draws());
    for (const trait of ["functionalSd", "multipleCorrelation"] as const) {
      const plain = bootstrap([all], ([pick]) => likenessOf(profileSpread(profiles, pick!), pick!.length)[trait], 200, draws());
      const [low, high] = bcaInterval(plain, 0.9)!;
      expect(found[trait]![0]).toBeCloseTo(low, 10);
      expect(found[trait]![1]).toBeCloseTo(high, 10);
    }
  });
  it("survives JSON and leaves its input as it was", () => {
    const before = structuredClone(rows);
    expect(JSON.parse(JSON.stringify(profile))).toEqual(profile);
    expect(structuredClone(profile)).toEqual(profile);
    expect(rows).toEqual(before);
    expect(stopProfile(recording, []).atStop.n).toBe(0);
  });
});

describe("stopProfile bad input", () => {
  const recording = same({ movements: 2 });
  it("refuses options out of range", () => {
    expect(() => stopProfile(recording, [], { level: 2 })).toThrow(/options\.level must be above 0 and below 1, got 2/);
    expect(() => stopProfile(recording, [], { resamples: 10 })).toThrow(/options\.resamples must be a whole number .*99.*got 10/);
    expect(() => stopProfile(recording, [], { seed: 0.5 })).toThrow(/options\.seed must be a whole number/);
    expect(() => stopProfile(recording, [], { cutoffHz: -1 })).toThrow(/options\.cutoffHz must be/);
  });
});

function shift(recording: Recording, by: number): Recording {
  return {
    ...recording,
    trace: { ...recording.trace, t: recording.trace.t.map((t) => t + by) },
    presses: recording.presses.map((press) => ({ ...press, t: press.t + by, ...(press.tUp !== undefined && { tUp: press.tUp + by }) })),
    targets: recording.targets.map((target) => ({
      ...target,
      tShown: target.tShown + by,
      ...(target.tGone !== undefined && { tGone: target.tGone + by }),
    })),
    trials: recording.trials.map((trial) => ({
      ...trial,
      tStart: trial.tStart + by,
      ...(trial.tEnd !== undefined && { tEnd: trial.tEnd + by }),
    })),
  };
}
