import { describe, expect, it } from "vitest";
import { FOLLOWED, LINES, pursuitPath } from "../../docs/live/pursuit-path.js";

const FIELD = { width: 608, height: 480 };
const STEPS = Array.from({ length: 2000 }, (_, i) => i / 100);

describe("the way of the moving target", () => {
  // Source: a sum of sinusoids repeats itself after the least common multiple of its periods; all are multiples of 0.05 Hz.
  it("repeats itself every 20 s and not before", () => {
    const { at } = pursuitPath(FIELD, 5);
    for (const t of [0.3, 4.7, 11.9]) {
      expect(at(t + 20).x).toBeCloseTo(at(t).x, 9);
      expect(at(t + 20).y).toBeCloseTo(at(t).y, 9);
      expect(Math.abs(at(t + 10).x - at(t).x) + Math.abs(at(t + 10).y - at(t).y)).toBeGreaterThan(1);
    }
  });

  // Source: Parseval's theorem: the mean square of a sum of sinusoids is the sum of theirs, a^2/2 each.
  it("has the same speed in every line", () => {
    const { at } = pursuitPath(FIELD, 9);
    const power = (hz: number): number => {
      const parts = STEPS.map((t) => [(at(t + 0.0005).x - at(t - 0.0005).x) / 0.001, 2 * Math.PI * hz * t] as const);
      const [c, s] = [Math.cos, Math.sin].map((wave) => parts.reduce((sum, [v, angle]) => sum + v * wave(angle), 0) / 1000);
      return Math.sqrt(c! ** 2 + s! ** 2);
    };
    const speeds = LINES.x.map(power);
    for (const speed of speeds) expect(speed / speeds[0]!).toBeCloseTo(1, 3);
    expect(speeds[0]!).toBeGreaterThan(60);
    for (const hz of LINES.y) expect(power(hz)).toBeLessThan(1e-3);
  });

  it("begins at rest, stays in the field, and is drawn by its seed", () => {
    for (let seed = 0; seed < 20; seed++) {
      const { at } = pursuitPath(FIELD, seed);
      expect(Math.abs(at(1e-4).x - at(0).x)).toBeLessThan(1e-4);
      for (const t of STEPS) {
        const { x, y } = at(t);
        expect(Math.min(x, y, FIELD.width - x, FIELD.height - y)).toBeGreaterThan(FOLLOWED / 2);
      }
    }
    expect(pursuitPath(FIELD, 4).at(3)).toEqual(pursuitPath(FIELD, 4).at(3));
    expect(pursuitPath(FIELD, 4).at(3)).not.toEqual(pursuitPath(FIELD, 6).at(3));
  });
});
