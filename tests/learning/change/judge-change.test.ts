// What an effect comes to: verdict, size and equivalence from its intervals, at their edges, both ways round.
import { describe, expect, it } from "vitest";
import type { ChangeScale } from "../../../src/learning/change/change-scale.js";
import type { Effect } from "../../../src/learning/change/effect.js";
import { judgeChange } from "../../../src/learning/change/judge-change.js";

/** Marks and changes as they are. */
const PLAIN = { unit: "s", onScale: (v: number) => v, change: (v: number) => v } as unknown as ChangeScale;

/** An effect that says this for 95 % and that for 90 %. */
function effect(wide: readonly [number, number] | undefined, narrow: readonly [number, number] | undefined): Effect {
  return {
    value: 0.5,
    interval: (level) => (level === 0.95 ? wide : level === 0.9 ? narrow : undefined),
    below: (mark) => (mark === 0 ? 0.3 : mark < 0 ? 0.1 : 0.6),
  };
}

function judged(
  wide: readonly [number, number] | undefined,
  narrow: readonly [number, number] | undefined,
  better: "lower" | "higher" = "lower",
) {
  return judgeChange(effect(wide, narrow), PLAIN, 7, { worthwhile: 1, better, level: 0.95 });
}

describe("judgeChange against outside values", () => {
  // Source: definitions: an interval without 0 tells better from worse; one of 1 - 2 alpha within the marks is equivalence by two one-sided tests (Schuirmann 1987, recalled)
  it.each([
    [[-3, -2], [-2.9, -2.1], "better", "worse", "worthwhile"],
    [[2, 3], [2.1, 2.9], "worse", "better", "worthwhile"],
    [[-0.5, 0.5], [-0.4, 0.4], "equivalent", "equivalent", "trivial"],
    [[-0.5, -0.1], [-0.4, -0.2], "better", "worse", "trivial"],
    [[-3, 3], [-2, 2], "cannotTell", "cannotTell", "unclear"],
    // edges: 0 and the marks belong to the interval
    [[-3, 0], [-2.9, -0.1], "cannotTell", "cannotTell", "unclear"],
    [[0, 3], [0.1, 2.9], "cannotTell", "cannotTell", "unclear"],
    [[-1.1, 1.1], [-1, 1], "equivalent", "equivalent", "trivial"],
    [[-1.1, 1.1], [-1.01, 1], "cannotTell", "cannotTell", "unclear"],
    [[-1.1, 1.1], [-1, 1.01], "cannotTell", "cannotTell", "unclear"],
    [[-3, -0.9], [-2, -1], "better", "worse", "unclear"],
    [[-3, -0.9], [-2, -1.01], "better", "worse", "worthwhile"],
    [[0.9, 3], [1, 2], "worse", "better", "unclear"],
    [[0.9, 3], [1.01, 2], "worse", "better", "worthwhile"],
  ] as const)("intervals %j and %j: %s where lower is better, else %s; %s", (wide, narrow, low, high, size) => {
    expect(judged(wide, narrow)).toMatchObject({ verdict: low, size });
    expect(judged(wide, narrow, "higher")).toMatchObject({ verdict: high, size });
  });

  // Source: by hand: below -1 with chance 0.1, below 0 with 0.3, below 1 with 0.6
  it("splits the chances at 0 and the marks, whichever way is better", () => {
    const chances = judged([-3, 3], [-2, 2]).chances!;
    expect(chances).toEqual({ improvement: 0.3, worthwhileImprovement: 0.1, worthwhileLoss: 0.4 });
    expect(judged([-3, 3], [-2, 2], "higher").chances).toEqual({ improvement: 0.7, worthwhileImprovement: 0.4, worthwhileLoss: 0.1 });
  });
  it("says what it was asked for, and how sure", () => {
    const { change, equivalence } = judged([-3, 3], [-2, 2]);
    expect(change).toEqual({ ok: true, value: 0.5, unit: "s", n: 7, interval: [-3, 3], level: 0.95 });
    // 2 * 0.95 - 1 in doubles is 0.8999999999999999
    expect(equivalence).toEqual({ interval: [-2, 2], level: 0.9, within: false });
  });
  it("cannot tell without intervals", () => {
    const { change, equivalence, verdict, size } = judged(undefined, undefined);
    expect(change).toEqual({ ok: true, value: 0.5, unit: "s", n: 7 });
    expect([equivalence, verdict, size]).toEqual([null, "cannotTell", "unclear"]);
  });
});
