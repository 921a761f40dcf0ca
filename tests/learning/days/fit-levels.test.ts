// Session levels over nights, rests and breaks, and the steps between sessions.
import { fc, test } from "@fast-check/vitest";
import { MultivariateLinearRegression } from "ml-regression";
import { describe, expect, it } from "vitest";
import { fitLevels } from "../../../src/learning/days/fit-levels.js";
import { stepsBetween } from "../../../src/learning/days/steps-between.js";

type Kind = "night" | "rest" | "break";
const levels = [5, 4.8, 4.85, 4.5, 4.6, 4.2, 5.1, 4.7, 4.75, 4.4];
const kinds: readonly Kind[] = ["night", "rest", "night", "rest", "night", "break", "night", "rest", "night"];

/** Nights, rests and each break up to a session, as far as there are any. */
function columnsOf(of: readonly Kind[]): number[][] {
  const upTo = (i: number, counts: (kind: Kind, at: number) => boolean): number => of.slice(0, i).filter(counts).length;
  const breaks = of.flatMap((kind, at) => (kind === "break" ? [at] : []));
  return Array.from({ length: of.length + 1 }, (_, i) => [
    ...(of.includes("night") ? [upTo(i, (kind) => kind === "night")] : []),
    ...(of.includes("rest") ? [upTo(i, (kind) => kind === "rest")] : []),
    ...breaks.map((at) => upTo(i, (_kind, own) => own === at)),
  ]);
}

describe("the trend of session levels", () => {
  // Source: ml-regression 6.3.0, MultivariateLinearRegression: slope of the nights with its standard error, and the residual standard deviation
  it.each([
    ["nights alone", kinds.map((): Kind => "night")],
    ["nights and rests", kinds.map((kind): Kind => (kind === "break" ? "night" : kind))],
    ["nights and a break", kinds.map((kind): Kind => (kind === "rest" ? "night" : kind))],
    ["nights, rests and a break", kinds],
    ["two breaks", kinds.map((kind, i): Kind => (i === 2 ? "break" : kind))],
  ])("of %s is the regression of a general library", (_, of) => {
    const rows = columnsOf(of);
    const found = fitLevels(levels, of)!;
    const rival = new MultivariateLinearRegression(
      rows,
      levels.map((level) => [level]),
    );
    const df = levels.length - rows[0]!.length - 1;
    expect(found.night).toEqual({
      value: expect.closeTo(rival.weights[0]![0]!, 9),
      variance: expect.closeTo(rival.stdErrors[0]! ** 2, 9),
      df,
    });
    expect(found.sd).toBeCloseTo(rival.stdError, 9);
    const jumps = of.flatMap((kind, at) => (kind === "break" ? [levels[at + 1]! - levels[at]!] : []));
    if (jumps.length === 0) return expect(found.afterBreak).toBeUndefined();
    // the mean of the differences beside the breaks, each of two levels with an error of its own
    expect(found.afterBreak).toEqual({
      value: expect.closeTo(jumps.reduce((sum, jump) => sum + jump, 0) / jumps.length, 12),
      variance: expect.closeTo((2 * rival.stdError ** 2) / jumps.length, 9),
      df,
    });
  });

  it("has no nights where all sessions lie on one day, and is none without anything left over", () => {
    const rests = fitLevels([3, 2.9, 2.7, 2.75], ["rest", "rest", "rest"])!;
    expect(rests.night).toBeUndefined();
    expect(rests.afterBreak).toBeUndefined();
    expect(rests.sd).toBeGreaterThan(0);
    expect(fitLevels([3], [])).toBeUndefined();
    expect(fitLevels([3, 2], ["night"])).toBeUndefined();
    expect(fitLevels([3, 2, 1.5], ["night", "break"])).toBeUndefined();
  });

  // Source: an exact course: what a rest within a day does is not put down to the nights
  test.prop([
    fc.double({ min: -1, max: 1, noNaN: true }),
    fc.double({ min: -1, max: 1, noNaN: true }),
    fc.array(fc.constantFrom("night" as const, "rest" as const), { minLength: 5, maxLength: 12 }),
  ])("tells nights from rests", (night, rest, of) => {
    if (!of.includes("night")) return;
    let level = 4;
    const course = [level, ...of.map((kind) => (level += kind === "night" ? night : rest))];
    expect(fitLevels(course, of)!.night!.value).toBeCloseTo(night, 9);
  });
});

describe("the steps between sessions", () => {
  const y = Float64Array.of(8, 6, 4, 2, 1, 10, 9, 7, 3, 5);
  const at = (day: number | null, from: number, to: number) => ({ session: from, day, from, to });
  const step = (block: number, one = at(0, 0, 5), other = at(1, 5, 10), breakDays = 3) => stepsBetween(y, [one, other], block, breakDays);

  // Source: by hand: first block of the next less last block of this one, at most half of a session (rounded up: three of five)
  it.each([
    [1, 10 - 1],
    [2, 9.5 - 1.5],
    [3, 26 / 3 - 7 / 3],
    [9, 26 / 3 - 7 / 3],
  ])("compare blocks of %d trials", (block, raw) => expect(step(block)[0]!.raw).toBeCloseTo(raw, 12));
  it("cut each block by its own session", () => {
    expect(step(3, at(0, 0, 2), at(1, 2, 7))[0]!.raw).toBeCloseTo(7 / 3 - 6, 12);
    expect(step(3, at(0, 0, 5), at(1, 5, 6))[0]!.raw).toBeCloseTo(10 - 7 / 3, 12);
  });
  // Source: the docstring of `kind`: rest, the same day; night, another; break, more than `breakDays` later
  it.each([
    [0.2, 0.7, "rest"],
    [0.9, 1.1, "night"],
    [0, 3, "night"],
    [0, 3.01, "break"],
    [0, 0, "rest"],
  ] as const)("from day %d to day %d are a %s", (one, other, kind) => {
    const [only] = step(2, at(one, 0, 5), at(other, 5, 10));
    expect(only).toMatchObject({ kind, days: expect.closeTo(other - one, 12) });
  });
  it("are breaks before nights or rests, with a shorter limit", () => {
    expect(step(2, at(0.1, 0, 5), at(0.9, 5, 10), 0.5)[0]!.kind).toBe("break");
    expect(step(2, at(0, 0, 5), at(1, 5, 10), 0.5)[0]!.kind).toBe("break");
  });
  it("are nights of unknown length without days", () => {
    const raw = expect.closeTo(8, 12);
    expect(step(2, at(null, 0, 5), at(null, 5, 10))).toEqual([{ days: null, kind: "night", raw }]);
    expect(step(2, at(0, 0, 5), at(null, 5, 10))).toEqual([{ days: null, kind: "night", raw }]);
    expect(step(2, at(null, 0, 5), at(4, 5, 10))).toEqual([{ days: null, kind: "night", raw }]);
  });
  it("are none of one session", () => expect(stepsBetween(y, [at(0, 0, 5)], 2, 3)).toEqual([]));
});
