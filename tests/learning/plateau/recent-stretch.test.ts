import { describe, expect, it } from "vitest";
import { recentStretch } from "../../../src/learning/plateau/recent-stretch.js";
import { createRandom } from "../../../src/math/random.js";
import { readReference, SHARED_ABSENT } from "../../shared.js";

const table = readReference("learning/trend.json");

describe("recentStretch against outside values", () => {
  // Source: the flow of the Nile at Aswan 1871 to 1970, whose level fell about 1898 (Cobb 1978, recalled: the dam of 1902 and a drier climate); data of the
  // reference table. A step is the plainest break of a course.
  it.skipIf(table === undefined)(`finds the year in which the Nile fell (${table === undefined ? SHARED_ABSENT : "flow at Aswan"})`, () => {
    const flow = Float64Array.from(table!.cases.find(({ name }) => name.includes("Nile"))!.input.y as number[]);
    const { from, support } = recentStretch(
      flow.map((_, i) => i),
      flow,
      8,
      10,
    );
    expect(Math.abs(from - 28)).toBeLessThanOrEqual(1);
    expect(support).toBeGreaterThan(6);
  });

  // Source: simulation with known truth
  it("finds where a fall ends, and no break in a line", () => {
    const random = createRandom(4);
    const day = Float64Array.from({ length: 40 }, (_, i) => i);
    const noise = day.map(() => random.normal(0, 0.3));
    const stopped = day.map((at, i) => Math.max(0, 12 - at) + noise[i]!);
    expect(Math.abs(recentStretch(day, stopped, 8, 10).from - 12)).toBeLessThanOrEqual(2);
    const line = day.map((at, i) => 5 - 0.1 * at + noise[i]!);
    expect(recentStretch(day, line, 8, 10)).toEqual({ from: 0, support: 0 });
  });
});

describe("recentStretch properties", () => {
  it("keeps the sessions and days that a stretch must have", () => {
    const day = Float64Array.from({ length: 30 }, (_, i) => i);
    const step = day.map((at) => (at < 24 ? 5 : 1) + 0.01 * ((at * 7) % 3));
    const { from } = recentStretch(day, step, 8, 10);
    expect(30 - from).toBeGreaterThanOrEqual(8);
    expect(29 - day[from]!).toBeGreaterThanOrEqual(10);
  });

  it("has nothing to cut in short or empty series", () => {
    expect(recentStretch(new Float64Array(0), new Float64Array(0), 8, 10).from).toBe(0);
    expect(recentStretch(Float64Array.of(0, 1), Float64Array.of(3, 4), 8, 10).from).toBe(0);
    expect(recentStretch(new Float64Array(20), new Float64Array(20), 8, 10).from).toBe(0);
  });
});
