import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { findBouts } from "../../src/movement/bell/bouts.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";
import { compose } from "./bells.js";

const table = readReference("kinematics/segmentation.json");

describe.skipIf(table === undefined)(
  `findBouts against outside values (${table === undefined ? SHARED_ABSENT : "reference tables"})`,
  () => {
    for (const c of table?.cases.filter((entry) => entry.name.startsWith("bouts with hysteresis")) ?? []) {
      // Source: closed form, crossings interpolated between samples; kinematics/segmentation.json.
      it(c.name, () => {
        const fs = c.params.sampleRateHz;
        const { speed } = compose(c.input.components, fs, c.input.n);
        const enter = 0.05 * Math.max(...speed);
        expect(within(enter, c.expected.enterLevel, c.tolerance)).toBe(true);
        for (const [gap, expected] of [
          [0, c.expected.bouts],
          [c.params.mergeGap, c.expected.merged],
        ] as const) {
          const found = findBouts(speed, 0, fs, enter, enter / 2, gap).map((bout) => [bout.from, bout.to]);
          expect(found.length).toBe(expected.length);
          for (const [k, bout] of found.entries()) {
            expect(within(bout[0]!, expected[k][0], c.tolerance)).toBe(true);
            expect(within(bout[1]!, expected[k][1], c.tolerance)).toBe(true);
          }
        }
      });
    }
  },
);

describe("findBouts properties", () => {
  const speeds = fc.array(fc.double({ min: 0, max: 10, noNaN: true }), { minLength: 1, maxLength: 80 });
  test.prop([speeds, fc.double({ min: 0.5, max: 9, noNaN: true }), fc.double({ min: 0, max: 0.2, noNaN: true })])(
    "returns bouts in order, apart by at least the merge gap, each reaching the enter level and nothing outside reaching it",
    (values, enter, gap) => {
      const speed = Float64Array.from(values);
      const bouts = findBouts(speed, 0, 100, enter, enter / 2, gap);
      bouts.forEach((bout, k) => {
        expect(bout.from).toBeLessThanOrEqual(bout.to);
        expect(Math.max(...speed.subarray(bout.start, bout.end))).toBeGreaterThanOrEqual(enter);
        if (k > 0) expect(bout.from - bouts[k - 1]!.to).toBeGreaterThanOrEqual(gap);
      });
      const covered = new Set(bouts.flatMap((bout) => Array.from({ length: bout.end - bout.start }, (_, i) => bout.start + i)));
      values.forEach((v, i) => {
        if (v >= enter) expect(covered.has(i)).toBe(true);
      });
    },
  );
});

describe("findBouts bad input", () => {
  it("finds nothing at rest", () => expect(findBouts(new Float64Array(50), 0, 100, 1, 0.5, 0)).toEqual([]));
  it("takes a bout that never ends to the last sample", () => {
    expect(findBouts(Float64Array.of(0, 2, 2), 5, 10, 1, 0.5, 0)).toEqual([{ start: 1, end: 3, from: 5.05, to: 5.2 }]);
  });
});
