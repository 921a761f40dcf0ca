import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom, type Random } from "../../../src/math/random.js";
import { simulateRecording } from "../../../src/simulate/simulate-recording.js";
import { assessSampling } from "../../../src/trace/assess-sampling.js";
import { polledSteps } from "../../../src/trace/quality/polled-steps.js";
import type { Trace } from "../../../src/trace/types.js";
import { choiceReachPeople, convertChoiceReach } from "../../data/convert-choice-reach.js";
import { askedAt } from "../../polling.js";
import { SHARED_ABSENT } from "../../shared.js";

const warned = (trace: Trace): number | undefined => assessSampling(trace).warnings.find(({ code }) => code === "polled")?.value;

const plain = (seed: number, sampleRateHz: number, recorder = {}): Trace =>
  simulateRecording({ seed, movements: 30, sampleRateHz, recorder: { timeJitterSd: 0.0001, ...recorder } }).recording.trace;

describe("polledSteps against outside values", () => {
  const people = choiceReachPeople();
  // Source: choice-reach recordings (Kieslich and Henninger 2017), asked for every 10 ms; that their mice reported every 8 ms is seen in steps that repeat after four samples
  it.skipIf(people.length === 0)(`names the mouse of the choice-reach recordings (else ${SHARED_ABSENT})`, () => {
    for (const person of people) expect(warned(convertChoiceReach(person).trace)).toBe(125);
  });

  // Source: by construction: reports of a device at a known rate, asked for at another
  it.each([
    [125, 60],
    [125, 100],
    [125, 144],
    [125, 250],
    [250, 60],
    [250, 144],
  ])("names a device of %d Hz asked at %d Hz", (device, asked) => {
    const trace = plain(41, device, { timeJitterSd: 0 });
    expect(warned(askedAt(trace, asked, createRandom(8)))).toBe(device);
  });
});

describe("polledSteps properties", () => {
  test.prop([fc.integer({ min: 1, max: 1e6 }), fc.constantFrom(60, 75, 100, 125, 133, 144, 165, 200, 240, 250, 300)], { numRuns: 40 })(
    "names nothing in recordings at the device's own rate",
    (seed, rate) => {
      expect(warned(plain(seed, rate))).toBeUndefined();
      expect(warned(plain(seed, rate, { timeJitterSd: 0.0005, dropShare: 0.1 }))).toBeUndefined();
      expect(warned(plain(seed, rate, { timeQuantum: 0.001 }))).toBeUndefined();
    },
  );

  test.prop([fc.integer({ min: 1, max: 1e6 }), fc.double({ min: 0, max: 6, noNaN: true }), fc.constantFrom(0.01, 1, 50)], { numRuns: 20 })(
    "does not depend on direction, place or unit",
    (seed, turn, scale) => {
      const { t, x, y } = askedAt(plain(seed, 125, { timeJitterSd: 0 }), 100, createRandom(seed));
      const [cos, sin] = [scale * Math.cos(turn), scale * Math.sin(turn)];
      const turned = { t, x: x.map((value, i) => cos * value - sin * y[i]! + 7), y: x.map((value, i) => sin * value + cos * y[i]!) };
      expect(polledSteps(turned, 100, scale)).toEqual(polledSteps({ t, x, y }, 100, 1));
    },
  );

  it("says nothing of few samples, none, or fast ones", () => {
    const random: Random = createRandom(3);
    const trace = askedAt(plain(5, 125, { timeJitterSd: 0 }), 100, random);
    const first = (n: number): Trace => ({ t: trace.t.slice(0, n), x: trace.x.slice(0, n), y: trace.y.slice(0, n) });
    for (const n of [0, 1, 2, 3, 60]) expect(polledSteps(first(n), 100, 1)).toBeUndefined();
    expect(polledSteps(trace, 301, 1)).toBeUndefined();
  });
});
