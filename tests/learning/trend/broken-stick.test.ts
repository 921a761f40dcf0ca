import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type BrokenStick, brokenStick } from "../../../src/learning/trend/broken-stick.js";
import { linearRegression } from "../../../src/math/linear-regression.js";
import { type Points, pointsArb, same } from "./series.js";

const alike = (a: number, b: number, share = 1e-8): boolean => Math.abs(a - b) <= share * Math.max(1, Math.abs(a), Math.abs(b));
const ENDS = ["level", "line"] as const;

/** Residual sum with the bend at `x0`, by least squares in general; `undefined` where the columns cannot be told apart. */
function plainSum({ x, y }: Points, end: "level" | "line", x0: number): number | undefined {
  const capped = Array.from(x, (value) => Math.min(value, x0));
  const rest = Array.from(x, (value) => Math.max(0, value - x0));
  return linearRegression(end === "level" ? [capped] : [capped, rest], y)?.residualSum;
}

/** y = level + slope before or after the bend. */
function stickAt({ bend, level, slopeBefore, slopeAfter }: BrokenStick, x: number): number {
  return level + (x < bend ? slopeBefore : slopeAfter) * (x - bend);
}

const DECAY = [
  1.432, 1.428, 1.225, 1.18, 1.094, 0.993, 0.929, 0.997, 0.931, 0.922, 0.891, 0.759, 0.787, 0.74, 0.672, 0.668, 0.589, 0.593, 0.654, 0.704,
  0.724, 0.625, 0.618, 0.661, 0.582, 0.624, 0.486, 0.696, 0.591, 0.642, 0.573, 0.751, 0.573, 0.64, 0.703, 0.637, 0.635, 0.553, 0.524, 0.572,
];
const decay: Points = { x: Float64Array.from(DECAY, (_, i) => i + 1), y: Float64Array.from(DECAY) };

describe("brokenStick against outside values", () => {
  // Source: SciPy 1.10.1 minimize_scalar over every interval, as stored in the reference table learning/change-points.json (a simulated
  // learner)
  it("bends where a bounded search does", () => {
    const level = brokenStick(decay.x, decay.y, "level")!;
    expect(level.bend).toBeCloseTo(15.441195838589273, 5);
    expect(level.residualSum).toBeCloseTo(0.15706636976190472, 12);
    expect([level.level, level.slopeAfter]).toEqual([expect.closeTo(0.6247200000102662, 8), 0]);
    const line = brokenStick(decay.x, decay.y, "line")!;
    expect(line.bend).toBeCloseTo(14.662175005309228, 5);
    expect(line.residualSum).toBeCloseTo(0.15060522363858367, 12);
    expect(line.slopeAfter).toBeCloseTo(-0.05108131872180474 + 0.04877499392419142, 8);
  });

  // Source: closed form of the criteria, residual sums by linearRegression
  it("states the criteria of the bend and of one line", () => {
    const stick = brokenStick(decay.x, decay.y, "line")!;
    const whole = linearRegression([decay.x], decay.y)!;
    expect(stick.bicOfLine).toBeCloseTo(40 * Math.log(whole.residualSum / 40) + 3 * Math.log(40), 9);
    expect(stick.bic).toBeCloseTo(40 * Math.log(stick.residualSum / 40) + 5 * Math.log(40), 9);
  });

  // Source: least squares in general (linearRegression) on a grid that holds every x and 12 places between each two
  test.prop([pointsArb(5, 25), fc.constantFrom(...ENDS)])("has no better bend anywhere on a grid", (points, end) => {
    const stick = brokenStick(points.x, points.y, end);
    fc.pre(stick !== undefined);
    const knots = [...new Set(points.x)];
    let least = Number.POSITIVE_INFINITY;
    for (let i = 1; i < knots.length - 1; i++) {
      const width = i < knots.length - 2 ? knots[i + 1]! - knots[i]! : 0;
      for (let k = 0; k <= 12; k++) least = Math.min(least, plainSum(points, end, knots[i]! + (k / 12) * width) ?? least);
    }
    expect(stick!.residualSum).toBeLessThanOrEqual(least + 1e-9 * (1 + least));
    // and it is what its own bend gives
    expect(stick!.bend >= knots[1]! - 1e-9 && stick!.bend <= knots[knots.length - 2]! + 1e-9).toBe(true);
    const own = plainSum(points, end, stick!.bend);
    if (own !== undefined) expect(alike(stick!.residualSum, own, 1e-6)).toBe(true);
  });
});

describe("brokenStick properties", () => {
  it("gets back the stick it is given", () => {
    const x = Float64Array.from({ length: 30 }, (_, i) => 1.7e9 + 86400 * i);
    for (const [end, after] of [
      ["level", 0],
      ["line", -0.03125],
    ] as const) {
      const y = x.map((value) => {
        const day = (value - x[0]!) / 86400;
        return day < 11.5 ? 4 - 0.25 * day : 4 - 0.25 * 11.5 + after * (day - 11.5);
      });
      const stick = brokenStick(x, y, end)!;
      // times near 1.7e9 are held to 2e-7 s
      expect(Math.abs((stick.bend - x[0]!) / 86400 - 11.5)).toBeLessThan(1e-9);
      expect(stick.slopeBefore * 86400).toBeCloseTo(-0.25, 10);
      expect(stick.slopeAfter * 86400).toBeCloseTo(after, 10);
      expect(stick.residualSum).toBeLessThan(1e-15);
      expect(Number.isFinite(stick.bic)).toBe(true);
    }
  });

  test.prop([pointsArb(5), fc.constantFrom(...ENDS), fc.integer({ min: 2, max: 6 })])(
    "keeps to its shortest ends, leaves its columns alone and gives plain numbers",
    (points, end, shortest) => {
      const { x, y } = points;
      const copies = [x.slice(), y.slice()];
      const stick = brokenStick(x, y, end, shortest);
      expect(same(x, copies[0]!) && same(y, copies[1]!)).toBe(true);
      if (stick === undefined) return;
      const knots = [...new Set(x)];
      expect(knots.filter((value) => value <= stick.bend + 1e-9).length).toBeGreaterThanOrEqual(shortest);
      expect(knots.filter((value) => value >= stick.bend - 1e-9).length).toBeGreaterThanOrEqual(shortest);
      const sum = y.reduce((total, value, i) => total + (value - stickAt(stick, x[i]!)) ** 2, 0);
      expect(alike(sum, stick.residualSum)).toBe(true);
      expect(JSON.parse(JSON.stringify(stick))).toEqual(stick);
      expect(Object.values(stick).every(Number.isFinite)).toBe(true);
    },
  );
});

describe("brokenStick bad input", () => {
  const x = Float64Array.of(1, 2, 3, 4, 5, 6);
  it("has no bend without spread, with too few values or too few different x", () => {
    expect(brokenStick(x, new Float64Array(6).fill(3), "level")).toBeUndefined();
    expect(brokenStick(x.slice(0, 3), Float64Array.of(3, 2, 2), "level")).toBeUndefined();
    expect(brokenStick(x.slice(0, 4), Float64Array.of(3, 2, 2, 1), "line")).toBeUndefined();
    expect(brokenStick(Float64Array.of(1, 1, 1, 2, 2, 2), Float64Array.of(3, 2, 2, 1, 4, 1), "line")).toBeUndefined();
    expect(brokenStick(x, Float64Array.of(6, 5, 4, 3, 3, 3), "level", 4)).toBeUndefined();
    expect(brokenStick(new Float64Array(0), new Float64Array(0), "line")).toBeUndefined();
  });
});
