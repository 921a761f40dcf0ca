import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { summarizeSession } from "../../src/report/summarize-session.js";
import { simulatePursuit } from "../../src/simulate/simulate-pursuit.js";
import type { Session } from "../../src/trace/types.js";
import { choiceReachPeople, convertChoiceReach } from "../data/convert-choice-reach.js";
import { SHARED_ABSENT } from "../shared.js";
import { DESK, session } from "./practised.js";

const people = choiceReachPeople();

describe("summarizeSession against outside values", () => {
  // Source: Kieslich and Henninger 2017, doi:10.3758/s13428-017-0900-z: 19 trials per person, each ended by a click on one of two buttons
  it.skipIf(people.length === 0)(`finds every trial of real recordings (${SHARED_ABSENT})`, () => {
    for (const person of people.slice(0, 4)) {
      const startedAt = "2007-01-01T00:00:00Z";
      const found = summarizeSession({ person, startedAt, equipment: { id: "unknown" }, recordings: [convertChoiceReach(person)] });
      expect(found.rows).toHaveLength(19);
      expect(found.summary.outcomes.hit).toBe(19);
      // polled every 10 ms
      expect(found.sampling[0]!.rate).toMatchObject({ ok: true, value: expect.closeTo(100, 0) });
      expect(found.warnings).toContain("equipmentUnknown");
    }
  });
});

describe("summarizeSession properties", () => {
  const plain = session(0);
  const found = summarizeSession(plain);

  it("keeps one row per trial and no sample", () => {
    expect(found.rows).toHaveLength(40);
    expect(JSON.stringify(found)).not.toContain('"trace"');
  });
  it("gives plain data", () => {
    expect(JSON.parse(JSON.stringify(found))).toEqual(found);
    expect(structuredClone(found)).toEqual(found);
  });
  it("spans the time from the first go to the last end", () => {
    const gos = found.rows.map(({ times }) => times.go);
    const ends = found.rows.map(({ times }) => times.end);
    expect(60 * found.minutes).toBeCloseTo(Math.max(...ends) - Math.min(...gos), 9);
  });
  it("puts the rows of several recordings in order of time", () => {
    const later = session(1).recordings[0]!;
    const shifted =
      (by: number) =>
      (times: Float64Array): Float64Array =>
        times.map((t) => t + by);
    const move = shifted(1000);
    const moved = {
      ...later,
      trace: { ...later.trace, t: move(later.trace.t) },
      presses: later.presses.map((press) => ({ ...press, t: press.t + 1000, ...(press.tUp !== undefined && { tUp: press.tUp + 1000 }) })),
      targets: later.targets.map((target) => ({ ...target, tShown: target.tShown + 1000, tGone: target.tGone! + 1000 })),
      trials: later.trials.map((trial) => ({ ...trial, tStart: trial.tStart + 1000, tEnd: trial.tEnd! + 1000 })),
      marks: [],
    };
    const both = summarizeSession({ ...plain, recordings: [moved, plain.recordings[0]!] });
    const gos = both.rows.map(({ times }) => times.go);
    expect(gos).toHaveLength(80);
    expect(gos).toEqual([...gos].sort((a, b) => a - b));
  });
  it("describes sequences, pursuits and frames where they were recorded", () => {
    const sequences = summarizeSession(session(2, { sequence: 4, movements: 40 }));
    expect(sequences.sequences[0]!.sequences).toHaveLength(10);
    expect(sequences.pursuits).toEqual([]);
    const { recording } = simulatePursuit({ seed: 4, duration: 25 });
    expect(summarizeSession({ ...plain, recordings: [recording] }).pursuits).toHaveLength(1);
    const frames = Float64Array.from({ length: 300 }, (_, i) => i / 240);
    const shown = summarizeSession({ ...plain, recordings: [{ ...plain.recordings[0]!, frames }] });
    expect(shown.display).toMatchObject({ verdict: "steady", frames: 300 });
  });
  it("warns of what its figures suffer from", () => {
    expect(found.warnings).toEqual([]);
    expect(summarizeSession(session(3, { movements: 15 })).warnings).toContain("fewAcquisitions");
    expect(summarizeSession(session(3, { sampleRateHz: 60 })).warnings).toContain("sampling");
    expect(summarizeSession(session(3, {}, { id: "somewhere" })).warnings).toContain("equipmentUnknown");
    const none = { ...plain.recordings[0]!, trials: [], targets: [], presses: [] };
    expect(summarizeSession({ ...plain, recordings: [none] }).warnings).toContain("noAcquisitions");
  });
  it("leaves its input alone", () => {
    const copy = structuredClone(plain);
    summarizeSession(plain);
    expect(plain).toEqual(copy);
  });
  test.prop([fc.double({ min: -1e3, max: 1e6, noNaN: true }), fc.integer({ min: 1, max: 50 })], { numRuns: 10 })(
    "does not depend on where the clock of the session begins",
    (shift, seed) => {
      const one = session(0, { seed, movements: 12 });
      const [recording] = one.recordings;
      const moved: Session = {
        ...one,
        recordings: [
          {
            ...recording!,
            trace: { ...recording!.trace, t: recording!.trace.t.map((t) => t + shift) },
            presses: recording!.presses.map((press) => ({ ...press, t: press.t + shift, tUp: press.tUp! + shift })),
            targets: recording!.targets.map((target) => ({ ...target, tShown: target.tShown + shift, tGone: target.tGone! + shift })),
            trials: recording!.trials.map((trial) => ({ ...trial, tStart: trial.tStart + shift, tEnd: trial.tEnd! + shift })),
          },
        ],
      };
      const [a, b] = [summarizeSession(one), summarizeSession(moved)];
      expect(b.minutes).toBeCloseTo(a.minutes, 6);
      expect(b.summary.outcomes).toEqual(a.summary.outcomes);
    },
  );
});

describe("summarizeSession bad input", () => {
  const plain = session(0, { movements: 5 });
  it("refuses two spaces and names both", () => {
    const view = { ...plain.recordings[0]!, space: { kind: "view", unit: "deg" } as const };
    expect(() => summarizeSession({ ...plain, recordings: [plain.recordings[0]!, view] })).toThrow(
      "summarizeSession: session.recordings must share one space, got plane in px and, at [1], view in deg",
    );
  });
  it("refuses a session without recordings, a date that is none, a level out of range", () => {
    expect(() => summarizeSession({ ...plain, recordings: [] })).toThrow("session.recordings must hold at least one recording, got 0");
    expect(() => summarizeSession({ ...plain, startedAt: "yesterday" })).toThrow(/summarizeSession: session.*startedAt/);
    expect(() => summarizeSession(plain, { level: 1 })).toThrow("summarizeSession: options.level must be above 0 and below 1, got 1");
    expect(() => summarizeSession(undefined as unknown as Session)).toThrow(/summarizeSession: session/);
    expect(DESK.id).toBe("desk");
  });
});
