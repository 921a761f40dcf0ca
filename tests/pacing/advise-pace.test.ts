import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { advisePace, type PaceBlock } from "../../src/pacing/advise-pace.js";

/** A block of `n` trials at movement time `t` of which `hits` hit; errors of the primary of this root mean square, if any. */
function block(hits: number, n = 60, t = 0.5, error?: number): PaceBlock {
  return {
    movementTime: new Float64Array(n).fill(t),
    hit: Float64Array.from({ length: n }, (_, i) => (i < hits ? 1 : 0)),
    // half the squares 0.5, half 1.5 of the mean square
    ...(error !== undefined && { primaryError: Float64Array.from({ length: n }, (_, i) => error * Math.sqrt(i % 2 === 0 ? 0.5 : 1.5)) }),
  };
}

describe("advisePace against outside values", () => {
  // Source: Wilson score bounds with z = stats.norm.ppf(.9), SciPy 1.10.1
  it.each([
    [42, 0.6196809481236888, 0.769661614159271, "slowDown"],
    [51, 0.7816491652607375, 0.8997003187344423, "hold"],
    [55, 0.8591053174149018, 0.952025020674598, "speedUp"],
    [57, 0.9004694495077848, 0.9755513156288749, "speedUp"],
  ] as const)("decides on %d of 60 by one-sided 90 %% bounds", (hits, low, high, advice) => {
    const result = advisePace(block(hits));
    expect(result.advice).toBe(advice);
    expect(result.hitShare).toMatchObject({ value: hits / 60, interval: [expect.closeTo(low, 10), expect.closeTo(high, 10)], n: 60 });
  });
  // Source: the same bounds for 17 of 20 are wider than any step could justify; a rule of this library, common practice: never on 20 trials
  it("never decides on 20 trials", () => {
    expect(advisePace(block(20, 20))).toMatchObject({ advice: "cannotTell", from: 0.5, to: 0.5 });
    expect(advisePace(block(0, 39)).advice).toBe("cannotTell");
    expect(advisePace(block(0, 40)).advice).toBe("slowDown");
  });
  // Source: delta method by hand: squares of mean m^2 with SD m^2 sqrt(60/59)/2: variance of ln rms = (60/59)/4/(4 60) = .0010593; 1.96 sqrt(2 .0010593) = .0902 -> + 9.44 %
  it.each([
    [10, 10.9, "hold"],
    [10, 11, "slowDown"],
  ])("slows down when the primary error rises from %d to %d px", (before, after, advice) => {
    expect(advisePace([block(51, 60, 0.5, before), block(51, 60, 0.5, after)]).advice).toBe(advice);
  });
  it("takes the smallest detectable rise that it is given", () => {
    const history = [block(51, 60, 0.5, 10), block(51, 60, 0.5, 11)];
    expect(advisePace(history, { minimalDetectable: 1.1 }).advice).toBe("hold");
    expect(advisePace(history, { minimalDetectable: 0.9 }).advice).toBe("slowDown");
  });
});

describe("advisePace properties", () => {
  const blockArb = fc
    .tuple(fc.integer({ min: 0, max: 60 }), fc.double({ min: 0.2, max: 1, noNaN: true }))
    .map(([hits, t]) => block(hits, 60, t, 8));

  test.prop([fc.array(blockArb, { minLength: 1, maxLength: 6 }), fc.double({ min: 0.5, max: 0.95, noNaN: true })])(
    "steps once, the way it says, with the figures that decided",
    (history, wanted) => {
      const copy = structuredClone(history);
      const result = advisePace(history, { wanted });
      expect(history).toEqual(copy);
      expect(JSON.parse(JSON.stringify(result))).toEqual(result);
      const factor = { slowDown: 1.05, speedUp: 0.95, hold: 1, cannotTell: 1 }[result.advice];
      expect(result.to).toBeCloseTo(result.from * factor, 12);
      if (result.advice === "speedUp") expect(result.hitShare.ok && result.hitShare.interval![0]).toBeGreaterThan(wanted);
      expect(result.reason).toMatch(/^In \d+ trials at .*\.$/);
    },
  );
  test.prop([fc.integer({ min: 0, max: 59 }), fc.double({ min: 0.5, max: 0.95, noNaN: true })])(
    "never asks for more speed with fewer hits",
    (hits, wanted) => {
      const order = ["slowDown", "hold", "speedUp"];
      expect(order.indexOf(advisePace(block(hits + 1), { wanted }).advice)).toBeGreaterThanOrEqual(
        order.indexOf(advisePace(block(hits), { wanted }).advice),
      );
    },
  );

  it("waits for a second block before it turns back", () => {
    const slowed = [block(40, 60, 0.5), block(58, 60, 0.525)];
    expect(advisePace(slowed).advice).toBe("hold");
    expect(advisePace(slowed).reason).toMatch(/second block/);
    expect(advisePace([...slowed, block(58, 60, 0.525)])).toMatchObject({ advice: "speedUp", hitShare: { n: 120 } });
    // the second block says so, both together do not
    expect(advisePace([block(40, 60, 0.5), block(46, 60, 0.525), block(57, 60, 0.525)]).advice).toBe("hold");
    // going on the same way needs no wait
    expect(advisePace([block(40, 60, 0.5), block(40, 60, 0.525)]).advice).toBe("slowDown");
    expect(advisePace([block(58, 60, 0.5), block(58, 60, 0.475)]).advice).toBe("speedUp");
    expect(advisePace([block(58, 60, 0.5), block(40, 60, 0.475)]).advice).toBe("hold");
  });
  it("does not speed up while the primary error has risen", () => {
    expect(advisePace([block(58, 60, 0.5, 10), block(58, 60, 0.5, 10)]).advice).toBe("speedUp");
    expect(advisePace([block(58, 60, 0.5, 10), block(58, 60, 0.5, 14)]).advice).toBe("slowDown");
  });
  it("counts timeouts as misses, and never as fast", () => {
    const late = { ...block(60), pressed: Float64Array.from({ length: 60 }, (_, i) => (i < 20 ? 0 : 1)) };
    expect(advisePace(late)).toMatchObject({ advice: "slowDown", hitShare: { value: 40 / 60 } });
    const quick = {
      ...late,
      movementTime: late.movementTime.map((t, i) => (i < 40 ? 0.1 : t)),
      pressed: Float64Array.from({ length: 60 }, (_, i) => (i < 40 ? 0 : 1)),
    };
    expect(advisePace(quick).from).toBe(0.5);
  });
});

describe("advisePace bad input", () => {
  it.each([
    [[], {}, "advisePace: history must hold a block, got an array of 0"],
    [block(1, 0), {}, "advisePace: history.movementTime must have at least 1 entry, got 0"],
    [
      [block(40), { ...block(40), hit: new Float64Array(3) }],
      {},
      "advisePace: history[1].hit must have 60 entries like the other columns, got 3",
    ],
    [{ ...block(40), pressed: new Float64Array(60).fill(0.5) }, {}, "advisePace: history.pressed[0] must be 0 or 1, got 0.5"],
    [block(40, 60, -1), {}, "advisePace: history.movementTime[0] must be above 0, got -1"],
    [block(40), { wanted: 0 }, "advisePace: options.wanted must be above 0 and at most 1, got 0"],
    [block(40), { least: 20 }, "advisePace: options.least must be a whole number finite and at least 30, got 20"],
    [block(40), { step: 0.6 }, "advisePace: options.step must be above 0 and at most 0.5, got 0.6"],
  ])("refuses %#", (history, options, message) => expect(() => advisePace(history, options)).toThrow(message));
  it("refuses what is no block", () => expect(() => advisePace(null as never)).toThrow(TypeError));
});
