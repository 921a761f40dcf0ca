import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createSampleBuffer } from "../../src/movement/acquisition/sample-buffer.js";
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
      fc.record({ kind: fc.constant("append" as const), steps: fc.array(fc.integer({ min: 0, max: 3 }), { maxLength: 700 }) }),
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
        const trace = traceOf(step.steps.map((dt) => (now += dt)));
        buffer.append(trace);
        list.push(...listOf(trace));
      } else if (step.kind === "forget") {
        const kept = list.findIndex(([t]) => t >= step.before);
        // the last one before stays: it tells where the pointer rested
        list = list.slice(Math.max(0, (kept < 0 ? list.length : kept) - 1));
        buffer.forget(step.before);
      } else {
        const to = step.from + step.length;
        const until = list.filter(([t]) => t <= to);
        const begin = until.filter(([t]) => t <= step.from).length;
        const expected = until.slice(Math.max(0, begin - 1));
        const last = expected[expected.length - 1];
        if (step.held && last !== undefined && last[0] < to) expected.push([to, last[1], last[2]]);
        expect(listOf(buffer.between(step.from, to, step.held))).toEqual(expected);
      }
      expect(buffer.size()).toBe(list.length);
      expect(buffer.newest()).toBe(list[list.length - 1]?.[0] ?? Number.NEGATIVE_INFINITY);
    }
  });
});

describe("createSampleBuffer properties", () => {
  it("does not grow with what it has forgotten", () => {
    const buffer = createSampleBuffer();
    for (let second = 0; second < 3000; second++) {
      buffer.append(traceOf(Array.from({ length: 1000 }, (_, k) => second + k / 1000)));
      buffer.forget(second - 1);
      expect(buffer.size()).toBeLessThanOrEqual(2001);
    }
    // the whole of it would be 72 MB
    expect(buffer.between(0, 3000).t.length).toBe(buffer.size());
  });

  it("gives columns of its own: neither what is given nor what is got is shared", () => {
    const buffer = createSampleBuffer();
    const given = traceOf([1, 2, 3]);
    buffer.append(given);
    given.x.fill(0);
    const got = buffer.between(0, 5);
    got.t.fill(9);
    expect(listOf(buffer.between(0, 5))).toEqual(listOf(traceOf([1, 2, 3])));
  });
});

describe("createSampleBuffer at its edges", () => {
  it("is empty at first", () => {
    const buffer = createSampleBuffer();
    buffer.forget(5);
    expect(listOf(buffer.between(0, 10, true))).toEqual([]);
    expect(buffer.size()).toBe(0);
  });
});
