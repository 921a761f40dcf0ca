import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import {
  appendSamples,
  borrowSamples,
  createSampleBuffer,
  forgetSamples,
  heldSamples,
  keepSamples,
  newestTime,
  samplesBetween,
} from "../../src/movement/acquisition/sample-buffer.js";
import type { Trace } from "../../src/trace/types.js";

const traceOf = (times: readonly number[]): Trace => ({
  t: Float64Array.from(times),
  x: Float64Array.from(times, (t) => 10 * t),
  y: Float64Array.from(times, (t) => -t),
});
const listOf = ({ t, x, y }: Trace): number[][] => [...t].map((time, i) => [time, x[i], y[i]]);

describe("createSampleBuffer against outside values", () => {
  // Source: a plain list, appended to and filtered.
  const stepsArb = fc.array(
    fc.oneof(
      fc.record({
        kind: fc.constant("append" as const),
        borrowed: fc.boolean(),
        steps: fc.array(fc.integer({ min: 0, max: 3 }), { maxLength: 700 }),
        times: fc.integer({ min: 1, max: 3 }),
      }),
      fc.record({ kind: fc.constant("keep" as const) }),
      fc.record({ kind: fc.constant("forget" as const), before: fc.integer({ min: 0, max: 3000 }) }),
      fc.record({
        kind: fc.constant("between" as const),
        from: fc.integer({ min: -5, max: 3000 }),
        length: fc.integer({ min: 0, max: 500 }),
        held: fc.boolean(),
      }),
    ),
    { maxLength: 20 },
  );
  test.prop([stepsArb])("holds what a list holds", (steps) => {
    const buffer = createSampleBuffer();
    let list: number[][] = [];
    let now = 0;
    for (const step of steps) {
      if (step.kind === "append") {
        const trace = traceOf(Array.from({ length: step.times }, () => step.steps.map((dt) => (now += dt))).flat());
        if (step.borrowed) borrowSamples(buffer, trace);
        else appendSamples(buffer, trace);
        list.push(...listOf(trace));
      } else if (step.kind === "keep") keepSamples(buffer);
      else if (step.kind === "forget") {
        const kept = list.findIndex(([t]) => t > step.before);
        // the last one up to then stays: it tells where the pointer rested
        list = list.slice(Math.max(0, (kept < 0 ? list.length : kept) - 1));
        forgetSamples(buffer, step.before);
      } else {
        const to = step.from + step.length;
        const until = list.filter(([t]) => t <= to);
        const begin = until.filter(([t]) => t <= step.from).length;
        const expected = until.slice(Math.max(0, begin - 1));
        const last = expected[expected.length - 1];
        if (step.held && last !== undefined && last[0] < to) expected.push([to, last[1], last[2]]);
        expect(listOf(samplesBetween(buffer, step.from, to, step.held))).toEqual(expected);
      }
      expect(heldSamples(buffer)).toBe(list.length);
      expect(newestTime(buffer)).toBe(list[list.length - 1]?.[0] ?? Number.NEGATIVE_INFINITY);
    }
  });
});

describe("createSampleBuffer properties", () => {
  it("does not grow with what it has forgotten", () => {
    const buffer = createSampleBuffer();
    for (let second = 0; second < 3000; second++) {
      appendSamples(buffer, traceOf(Array.from({ length: 1000 }, (_, k) => second + k / 1000)));
      forgetSamples(buffer, second - 1);
      expect(heldSamples(buffer)).toBeLessThanOrEqual(2001);
    }
    // the whole of it would be 72 MB
    expect(samplesBetween(buffer, 0, 3000).t.length).toBe(heldSamples(buffer));
  });

  it("keeps what was appended, whatever becomes of what was given", () => {
    const buffer = createSampleBuffer();
    const given = traceOf([1, 2, 3]);
    appendSamples(buffer, given);
    given.x.fill(0);
    expect(listOf(samplesBetween(buffer, 0, 5))).toEqual(listOf(traceOf([1, 2, 3])));
  });
  it("reads borrowed samples where they are, never writes there, and keeps what is left of them", () => {
    const times = Array.from({ length: 5000 }, (_, i) => i);
    const given = traceOf(times);
    const before = given.t.slice();
    const buffer = createSampleBuffer();
    borrowSamples(buffer, given);
    expect(samplesBetween(buffer, 10, 20).t.buffer).toBe(given.t.buffer);
    forgetSamples(buffer, 4990);
    keepSamples(buffer);
    appendSamples(buffer, traceOf([5000, 5001]));
    expect(given.t).toEqual(before);
    given.t.fill(0);
    expect([...samplesBetween(buffer, 4995, 6000).t]).toEqual([4995, 4996, 4997, 4998, 4999, 5000, 5001]);
    expect(heldSamples(buffer)).toBe(12);
  });
});

describe("createSampleBuffer at its edges", () => {
  it("is empty at first", () => {
    const buffer = createSampleBuffer();
    forgetSamples(buffer, 5);
    expect(listOf(samplesBetween(buffer, 0, 10, true))).toEqual([]);
    expect(heldSamples(buffer)).toBe(0);
  });
});
