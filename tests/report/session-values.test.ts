import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import type { Acquisition } from "../../src/movement/types.js";
import type { SessionMeasure } from "../../src/report/measures/session-measures.js";
import { sessionValues } from "../../src/report/measures/session-values.js";

/** The value stands in for the time of the acquisition; amplitude and width make the index of difficulty. */
const row = (id: number, value: number): Acquisition =>
  ({ amplitude: 20 * (2 ** id - 1), width: 20, times: { go: 0, end: value }, flags: [] }) as unknown as Acquisition;
const measure = (by: "mean" | "sd"): SessionMeasure => ({
  name: "time",
  label: "time",
  unit: "s",
  better: "lower",
  kind: "percent",
  worthwhile: 2,
  by,
  of: ({ times }) => times.end,
});

const ID = [
  [2.1, 3.4, 2.8, 4.0, 3.1, 2.2, 3.9, 2.6, 3.3, 3.0],
  [3.2, 4.1, 3.7, 4.4, 3.0, 3.5, 4.2, 3.8, 3.1, 3.9],
  [2.0, 2.4, 2.9, 3.1, 2.2, 2.7, 3.3, 2.5, 2.1, 3.0],
];
const TIME = [
  [0.61, 0.82, 0.74, 0.93, 0.77, 0.6, 0.95, 0.69, 0.8, 0.78],
  [0.75, 0.92, 0.83, 0.97, 0.7, 0.79, 0.94, 0.86, 0.72, 0.87],
  [0.52, 0.6, 0.66, 0.71, 0.58, 0.63, 0.74, 0.59, 0.55, 0.68],
];
const sessions = ID.map((ids, i) => ids.map((id, j) => row(id, TIME[i]![j]!)));

describe("session values", () => {
  // Source: R 4.2.2 predict(lm(time ~ session + id), at the mean id)
  it("are the adjusted means of an analysis of covariance", () => {
    const [a, b, c] = sessionValues(sessions, measure("mean"));
    expect(a).toBeCloseTo(0.782679896613659, 12);
    expect(b).toBeCloseTo(0.732698164454374, 12);
    expect(c).toBeCloseTo(0.714621938931967, 12);
  });
  it("leave out sessions with too few rows, more so for a spread", () => {
    expect(sessionValues([sessions[0]!.slice(0, 9), sessions[1]!], measure("mean"))[0]).toBeUndefined();
    expect(sessionValues(sessions, measure("sd"))).toEqual([undefined, undefined, undefined]);
  });
  it("are plain means when all is of one difficulty", () => {
    const same = TIME.map((times) => times.map((time) => row(3, time)));
    expect(sessionValues(same, measure("mean"))[0]).toBeCloseTo(0.769, 12);
  });
  test.prop([fc.integer({ min: 1, max: 1000 }), fc.double({ min: -0.3, max: 0.3, noNaN: true })])(
    "do not move with the mix of tasks when time is a line of difficulty",
    (seed, shift) => {
      const random = createRandom(seed, 0);
      const session = (level: number, middle: number): Acquisition[] =>
        Array.from({ length: 25 }, () => {
          const id = middle + random.uniform(0, 1);
          return row(id, level + 0.15 * id);
        });
      const [first, second] = sessionValues([session(0.3, 3), session(0.3 + shift, 4)], measure("mean"));
      expect(second! - first!).toBeCloseTo(shift, 9);
      const [spread] = sessionValues([session(0.3, 3), session(0.3, 4)], measure("sd"));
      expect(spread).toBeLessThan(1e-9);
    },
  );
});
