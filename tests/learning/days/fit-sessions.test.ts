// What sessions have to be for their shape to be fitted, and what is made of a slope within them.
import { describe, expect, it } from "vitest";
import { fitSessions } from "../../../src/learning/days/fit-sessions.js";
import { createRandom } from "../../../src/math/random.js";

/** Sessions of these lengths whose values scatter about 1 and change by `slope` a trial. */
function fitted(
  lengths: readonly number[],
  over: { slope?: "judge" | "fatigue" | "gain"; better?: "lower" | "higher"; perTrial?: number; sd?: number } = {},
) {
  const random = createRandom(lengths.length);
  const y: number[] = [];
  const ranges = lengths.map((length, k) => {
    const from = y.length;
    for (let i = 0; i < length; i++) y.push(1 + (over.perTrial ?? 0) * i + random.normal(0, over.sd ?? 0.05));
    return { session: `${k}`, day: k, from, to: y.length } as never;
  });
  const kinds = lengths.slice(1).map(() => "night" as never);
  return fitSessions(Float64Array.from(y), ranges, kinds, { slope: over.slope ?? "judge", better: over.better ?? "lower", level: 0.95 });
}

describe("fitSessions", () => {
  it("needs three sessions of six trials, one of them of ten", () => {
    expect(fitted([6, 6, 10])).not.toBe("tooFew");
    expect(fitted([6, 6, 9])).toBe("tooFew");
    expect(fitted([5, 6, 10])).toBe("tooFew");
    expect(fitted([5, 6, 6, 10])).not.toBe("tooFew");
    expect(fitted([30, 30])).toBe("tooFew");
    expect(fitted([])).toBe("tooFew");
  });
  it("needs scatter within some session", () => {
    expect(fitted([12, 12, 12], { sd: 0 })).toBe("noSpread");
    expect(fitted([12, 12, 12], { sd: 0, perTrial: 0.1 })).not.toBe("noSpread");
  });
  // Source: simulated truth: a change of 20 scatters over a session of 100 trials
  it.each([
    ["lower", 0.01, "fatigue"],
    ["lower", -0.01, "gain"],
    ["higher", 0.01, "gain"],
    ["higher", -0.01, "fatigue"],
    ["lower", 0, "fatigue"],
  ] as const)("judges a slope where %s is better and trials change by %d: %s", (better, perTrial, taken) => {
    const found = fitted([100, 100, 100, 100], { better, perTrial });
    if (typeof found === "string") throw new Error(found);
    expect(found.slopeTakenAs).toBe(taken);
    // what remains over night: with the slope taken out of the end level where it is gain, else from end to start as it is
    expect(found.corrected === found.warmUpRemoved).toBe(taken === "gain");
    expect(found.slope.df).toBe(3);
    expect(found.size.df).toBe(3);
    expect(Math.abs(found.slope.value - perTrial)).toBeLessThan(0.002);
    for (const asked of ["fatigue", "gain"] as const) {
      const told = fitted([100, 100, 100, 100], { better, perTrial, slope: asked });
      expect(typeof told === "string" ? told : told.slopeTakenAs).toBe(asked);
    }
  });
});
