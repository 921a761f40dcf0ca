import { describe, expect, it } from "vitest";
import { departureAfter } from "../../src/movement/acquisition/departure.js";
import { meanSpeedOver, profileOver } from "../../src/movement/acquisition/motion.js";
import { fallAfter, riseBefore } from "../../src/movement/bell/onset.js";
import { swings } from "../../src/movement/stop/swings.js";

// Source: worked by hand on straight lines
describe("instants on straight lines", () => {
  it("looks no further than its limit", () => {
    const up = Float64Array.of(9, 8, 50, 100);
    expect(riseBefore(up, 3, 2, 0.2, 0.3).crossing).toBe(2);
    expect(fallAfter(up.slice().reverse(), 0, 2, 0.2, 0.3).crossing).toBe(1);
  });
  it("finds a departure where the ramp began, whatever the grid", () => {
    // a ramp of 100 a second from 1.0005 s on: a tenth of the peak of 100 at 1.1005 s, a quarter of that at 1.0255 s: 2 * 1.0255 - 1.1005
    const rateHz = 1000;
    const speed = Float64Array.from({ length: 2001 }, (_, i) => Math.max(0, (i - 1000.5) / 10));
    const left = departureAfter({ speed, t0: 0, sampleRateHz: rateHz } as never, 0.5, 2, 100, 0);
    expect(left).toBeCloseTo(0.9505, 9);
  });
  it("reads the nearest sample where a stretch holds none", () => {
    const line = { t0: 0, sampleRateHz: 10, x: Float64Array.of(0, 1, 2, 3), y: new Float64Array(4), speed: Float64Array.of(5, 6, 7, 9) };
    const profile = profileOver([line as never], 0, 0.3)!;
    expect(meanSpeedOver(profile, 0.21, 0.23)).toBe(7);
    expect(meanSpeedOver(profile, 0.1, 0.3)).toBeCloseTo(22 / 3, 12);
  });
  // parabolas through three samples: tops of 3 and 1 + 0.0625 of one side, one of -0.5 between them on the other
  it("takes no top below the least height for a swing", () => {
    const position = Float64Array.of(0, 3, 0, -0.5, 0, 1, 0.5, 0.5);
    const heights = (least: number) => swings(position, 0, 8, 0, least).map(({ index, height }) => [index, height]);
    expect(heights(0.4)).toEqual([
      [1, 3],
      [3, -0.5],
      [expect.closeTo(5 + 1 / 6, 12), expect.closeTo(1 + 1 / 48, 12)],
    ]);
    expect(heights(0.6)).toEqual([[1, 3]]);
    expect(heights(3)).toEqual([]);
  });
});
