import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { assessSampling } from "../../src/trace/assess-sampling.js";
import { requireTrace } from "../../src/trace/require-trace.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";
import { choiceReachFacts } from "./choice-reach-facts.js";
import { choiceReachPeople, convertChoiceReach } from "./convert-choice-reach.js";

const path = sharedPath("data", "choice-reach", "facts.json");

// Source: data/choice-reach/facts.json, made by the NumPy script beside it from the same files, independently of this project.
describe.skipIf(path === undefined)(`choice-reach recordings${path === undefined ? `: ${SHARED_ABSENT}` : ""}`, () => {
  const facts = path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));
  const people = choiceReachPeople();
  const recordings = people.map(convertChoiceReach);

  it("have the counts, intervals and held samples of the reference", () => {
    const { counts } = choiceReachFacts(recordings);
    const { medianInterval_ms, meanInterval_ms, share10ms, ...whole } = facts.counts;
    expect(counts).toMatchObject({
      medianInterval_ms: expect.closeTo(medianInterval_ms, 6),
      meanInterval_ms: expect.closeTo(meanInterval_ms, 6),
      share10ms: expect.closeTo(share10ms, 6),
    });
    const { responseTimeMinusDuration_ms_min_median_max: _, ...rest } = whole;
    for (const [name, value] of Object.entries(rest)) expect.soft(counts[name], name).toBeCloseTo(value as number, 6);
  });

  it("have the paths, deviations and times of the reference in every trial", () => {
    const { trials } = choiceReachFacts(recordings);
    expect(Object.keys(trials)).toEqual(Object.keys(facts.trials));
    for (const [id, expected] of Object.entries<Record<string, unknown>>(facts.trials)) {
      const got = trials[id]!;
      for (const [name, value] of Object.entries(expected)) {
        // the reference keeps six decimals
        if (typeof value === "number") expect.soft(got[name], `${id} ${name}`).toBeCloseTo(value, 5);
        else expect.soft(got[name], `${id} ${name}`).toBe(value);
      }
    }
  });

  it("are valid, in order of time, with the time between trials marked as a gap", () => {
    for (const recording of recordings) {
      requireTrace("choice-reach", "trace", recording.trace);
      expect(recording.trials.length).toBe(19);
      expect(recording.marks.length).toBe(18);
      for (const { t, tEnd } of recording.marks) expect(tEnd! - t).toBeGreaterThan(3);
    }
  });

  it("are judged as 100 Hz: enough for peak speed and deceleration, too slow for jerk", () => {
    let duplicates = 0;
    for (const { trace, trials } of recordings) {
      const report = assessSampling(trace);
      duplicates += report.duplicates.count;
      expect(report.rate).toMatchObject({ ok: true, value: expect.closeTo(100, 6) });
      expect(report.positionQuantum).toMatchObject({ ok: true, value: 1 });
      expect(report.supports).toMatchObject({
        peakSpeed: { ok: true },
        peakDeceleration: { ok: true },
        jerk: { ok: false, why: "belowResolution" },
      });
      expect(report.jumps.count).toBe(0);
      // between two trials the pointer went back to the start button
      expect(report.gaps.missing).toBeGreaterThanOrEqual(trials.length - 1);
    }
    expect(duplicates).toBe(facts.counts.zeroIntervals);
  });
});
