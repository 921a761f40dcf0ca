import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import { variabilityProfile } from "../../src/movement/variability-profile.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Recording } from "../../src/trace/types.js";

/** Movements of one condition without corrections, whose only spread is what `primary` says. */
function recordingOf(primary: object, movements = 200): Recording {
  return simulateRecording({
    seed: 41,
    movements,
    sampleRateHz: 500,
    tremorAmplitude: 0,
    targets: { amplitude: [400, 400], widths: [60], bounds: { width: 3000, height: 3000 } },
    primary: { bells: ["minimumJerk"], alongBias: 0, timeSd: 0, ...primary },
    correction: { pureShare: 1 },
  }).recording;
}

describe("variabilityProfile against outside values", () => {
  const recording = recordingOf({ alongSd: 0.1, acrossSd: 0.03 });
  const profile = variabilityProfile(recording, analyze(recording));

  // Source: closed form. For x = alpha A f(s) with SD ca of alpha the spread along is A ca f(s); f(0.5) = 0.5 for minimum jerk. Sampling error of an SD at n = 200: 5 %.
  it("grows in proportion to the distance covered when nothing is corrected", () => {
    expect(profile.n).toBe(200);
    const along = (share: number): number => {
      const found = profile.byTime.find((p) => Math.abs(p.share - share) < 1e-9)!.along;
      return found.ok ? found.value : 0;
    };
    expect(along(1) / 40).toBeCloseTo(1, 0.7);
    expect(along(0.5) / along(1)).toBeCloseTo(0.5, 1);
  });
  // Source: the same closed form: without correction the ratio to the uncorrected prediction is 1 at every later landmark.
  it("reports no compensation where there is none", () => {
    expect(profile.byLandmark.primaryEnd.ratioToUncorrected).toBeCloseTo(1, 1);
    expect(profile.byLandmark.peakDeceleration.ratioToUncorrected).toBeCloseTo(1, 1);
  });
  // Source: minimum jerk: peak deceleration lies at 0.9330 of the amplitude, peak speed at half of it; the filter moves both by under 1 %.
  it("finds the landmarks where minimum jerk has them", () => {
    expect(profile.byLandmark.peakSpeed.meanAlong / 400).toBeCloseTo(0.5, 1);
    expect(profile.byLandmark.peakDeceleration.meanAlong / 400).toBeCloseTo(0.933, 1.5);
    expect(profile.byLandmark.peakAcceleration.meanAlong / 400).toBeCloseTo(0.067, 1.5);
  });
});

describe("variabilityProfile properties", () => {
  const recording = recordingOf({}, 30);
  const rows = analyze(recording);

  it("shows less spread at the stop than uncorrected movements would have when corrections follow", () => {
    const corrected = simulateRecording({
      seed: 42,
      movements: 120,
      sampleRateHz: 500,
      targets: { amplitude: [400, 400], widths: [24] },
      primary: { bells: ["minimumJerk"], alongSd: 0.1 },
      correction: { pureShare: 0, gains: [1], onset: [0.05, 0.2] },
    }).recording;
    const profile = variabilityProfile(corrected, analyze(corrected));
    expect(profile.byLandmark.stop.ratioToUncorrected!).toBeLessThan(0.5);
    expect(profile.byLandmark.primaryEnd.ratioToUncorrected!).toBeGreaterThan(0.8);
  });
  it("starts from no spread and uses the steps asked for", () => {
    const profile = variabilityProfile(recording, rows, { steps: 4 });
    expect(profile.byTime.map((p) => p.share)).toEqual([0, 0.25, 0.5, 0.75, 1]);
    expect(profile.byTime[0]!.along).toMatchObject({ ok: false, why: "noSpread" });
  });
  it("warns of mixed amplitudes and of few movements", () => {
    const mixed = simulateRecording({ seed: 43, movements: 12 }).recording;
    expect(variabilityProfile(mixed, analyze(mixed)).warnings).toEqual(["few", "mixedAmplitudes"]);
    expect(variabilityProfile(recording, rows).warnings).toEqual([]);
  });
  it("counts the rows it leaves out", () => {
    const profile = variabilityProfile(recording, [...rows, { ...rows[0]!, flags: ["clutch"] }]);
    expect(profile).toMatchObject({ n: 30, leftOut: 1 });
  });
  it("is not ok without movements, survives JSON and leaves its input as it was", () => {
    const before = structuredClone(rows);
    const profile = variabilityProfile(recording, rows);
    expect(rows).toEqual(before);
    expect(JSON.parse(JSON.stringify(profile))).toEqual(profile);
    expect(variabilityProfile(recording, []).byLandmark.stop.along).toMatchObject({ ok: false, why: "tooFew", n: 0 });
  });
});

describe("variabilityProfile bad input", () => {
  const recording = recordingOf({}, 2);
  it("refuses steps that are no whole number of at least 2", () => {
    expect(() => variabilityProfile(recording, [], { steps: 1 })).toThrow(/options\.steps must be a whole number .*2.*got 1/);
  });
  it("refuses a level outside (0, 1)", () => {
    expect(() => variabilityProfile(recording, [], { level: 0 })).toThrow(/options\.level must be above 0 and below 1, got 0/);
  });
});
