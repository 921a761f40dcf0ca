import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { displayTiming } from "../../src/equipment/display-timing.js";
import { createRandom } from "../../src/math/random.js";

/** Times from intervals in ms. */
const timesOf = (ms: readonly number[]): Float64Array => {
  let now = 0;
  return Float64Array.from([0, ...ms], (step) => {
    now += step / 1000;
    return now;
  });
};

const even = (n: number, hz: number): Float64Array => Float64Array.from({ length: n }, (_, i) => i / hz);

/** An even display whose every `every`-th frame is not ready, so that the one before it stays. */
const withMissing = (n: number, hz: number, every: number): Float64Array => even(n, hz).filter((_, i) => i % every !== every - 1);

describe("displayTiming against outside values", () => {
  // Source: NumPy 1.24.2 median and mean, SciPy 1.10.1 stats.t and stats.norm (Wilson's interval written out); stamps in whole milliseconds at 60 Hz, one frame in ten repeated
  it("reads rate, long frames and their intervals from coarse stamps", () => {
    const ms = Array.from({ length: 8 }, () => [17, 16, 17, 17, 16, 17, 33, 17, 16, 17]).flat();
    const { interval, rate, longFrames, longest, missed, rateDifference, verdict } = displayTiming(timesOf(ms), { nominalHz: 60 });
    expect(interval).toMatchObject({ ok: true, value: expect.closeTo(0.017, 12), unit: "s", n: 80 });
    expect(rate).toMatchObject({
      value: expect.closeTo(60, 9),
      unit: "Hz",
      n: 72,
      interval: [expect.closeTo(59.60108277618607, 9), expect.closeTo(60.404293207951405, 9)],
    });
    expect(longFrames).toMatchObject({
      value: 0.1,
      interval: [expect.closeTo(0.051547615567380814, 9), expect.closeTo(0.18510688806104086, 9)],
    });
    expect(rateDifference).toBeCloseTo(0, 9);
    expect([longest, missed, verdict]).toEqual([expect.closeTo(0.033, 12), 8, "unsteady"]);
  });

  // Source: common practice, no source: a cap of three frames below the refresh rate; its beat at a fixed rate by hand, 144 - 141 = 3 Hz, a repeated frame every 1/3 s
  it("gives the beat of a cap beside the refresh rate", () => {
    expect(displayTiming(even(600, 141), { nominalHz: 144, capHz: 141 })).toMatchObject({
      beat: { hz: 3, period: expect.closeTo(1 / 3, 12) },
      verdict: "steady",
    });
    expect(displayTiming(even(600, 144), { nominalHz: 144, capHz: 300 }).beat).toBeNull();
  });

  // Source: counted by hand: frames of a capped program shown on the next refresh of a fixed display, 3 repeats a second
  it("sees that beat in frames held by a display at a fixed rate", () => {
    const shown = even(1411, 141).map((t) => Math.ceil(t * 144 - 1e-9) / 144);
    const { missed, longFrames } = displayTiming(shown, { nominalHz: 144 });
    expect(missed).toBe(30);
    expect(longFrames).toMatchObject({ value: expect.closeTo(30 / 1410, 9) });
  });

  // Source: normal distribution: 1.4826 times the median absolute deviation of normal values is their standard deviation; the difference of two stamps has sqrt(2) times
  // that of one. Tolerance 10 %: four standard errors (the MAD of 2000 neighbouring differences is known to 2.4 %).
  it("measures jitter", () => {
    const random = createRandom(4);
    const { jitter, verdict } = displayTiming(
      even(2000, 144).map((t) => t + random.normal(0, 0.0004)),
      { nominalHz: 144 },
    );
    expect(jitter.ok && jitter.value / (0.0004 * Math.SQRT2)).toBeGreaterThan(0.9);
    expect(jitter.ok && jitter.value / (0.0004 * Math.SQRT2)).toBeLessThan(1.1);
    expect(verdict).toBe("steady");
  });
});

describe("displayTiming properties", () => {
  test.prop([fc.integer({ min: 30, max: 360 }), fc.integer({ min: 3, max: 90 })], { numRuns: 60 })(
    "finds the rate and every frame that did not come",
    (hz, every) => {
      const frames = withMissing(900, hz, every);
      const { rate, missed, longFrames, rateDifference } = displayTiming(frames, { nominalHz: hz });
      expect(rate.ok && rate.value).toBeCloseTo(hz, 6);
      expect(rateDifference).toBeCloseTo(0, 9);
      // the last frame of all cannot be told from the end of the recording
      const inside = Math.floor(900 / every) - (900 % every === 0 ? 1 : 0);
      expect(missed).toBe(inside);
      expect(longFrames).toMatchObject({ value: expect.closeTo(inside / (frames.length - 1), 12) });
    },
  );

  test.prop([fc.double({ min: -1e4, max: 1e4, noNaN: true }), fc.constantFrom(2, 4, 0.5)], { numRuns: 40 })(
    "does not depend on when the recording began, and scales with time",
    (start, factor) => {
      const frames = withMissing(400, 120, 7);
      const one = displayTiming(frames, { nominalHz: 120 });
      const [later, slower] = [frames.map((t) => t + start), frames.map((t) => t * factor)];
      const moved = displayTiming(later, { nominalHz: 120 });
      const scaled = displayTiming(slower, { nominalHz: 120 / factor });
      for (const other of [moved, scaled]) {
        expect([other.verdict, other.missed]).toEqual([one.verdict, one.missed]);
      }
      if (!one.rate.ok || !scaled.rate.ok) throw new Error("no rate");
      expect(scaled.rate.value * factor).toBeCloseTo(one.rate.value, 6);
    },
  );

  test.prop([fc.array(fc.double({ min: 0, max: 0.3, noNaN: true }), { maxLength: 120 })])("is plain data and keeps its input", (steps) => {
    const frames = timesOf(steps.map((step) => 1000 * step));
    const copy = frames.slice();
    const result = displayTiming(frames, { nominalHz: 60, capHz: 57 });
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(frames).toEqual(copy);
    expect(displayTiming(Array.from(frames), { nominalHz: 60, capHz: 57 })).toEqual(result);
  });

  it("names each kind of timing", () => {
    const verdict = (frames: Float64Array, nominalHz?: number): string =>
      displayTiming(frames, nominalHz === undefined ? {} : { nominalHz }).verdict;
    expect(verdict(even(300, 144), 144)).toBe("steady");
    expect(verdict(even(300, 144))).toBe("steady");
    expect(verdict(even(300, 60), 144)).toBe("slow");
    expect(verdict(even(300, 144), 60)).toBe("fast");
    expect(verdict(withMissing(900, 144, 20), 144)).toBe("unsteady");
    expect(verdict(withMissing(900, 144, 200), 144)).toBe("steady");
    expect(verdict(even(60, 144), 144)).toBe("cannotTell");
    expect(verdict(even(61, 144), 144)).toBe("steady");
    expect(verdict(new Float64Array(100), 144)).toBe("cannotTell");
  });

  it("says why there is no figure", () => {
    for (const frames of [[], [1], even(20, 60)]) {
      const { interval, rate, longFrames, jitter, rateDifference, reasons } = displayTiming(frames, { nominalHz: 60 });
      for (const figure of [interval, rate, longFrames, jitter]) expect(figure).toMatchObject({ ok: false, why: "tooFew" });
      expect(rateDifference).toBeNull();
      expect(reasons).toHaveLength(1);
    }
  });
});

describe("displayTiming bad input", () => {
  it("names the bad value", () => {
    expect(() => displayTiming([0, 0.1, 0.05])).toThrow(/displayTiming: frames\[2\] must be at least frames\[1\], 0\.1, got 0\.05/);
    expect(() => displayTiming([0, Number.NaN])).toThrow(/displayTiming: frames\[1\] must be finite, got NaN/);
    expect(() => displayTiming("now" as never)).toThrow(/displayTiming: frames must be a list of numbers, got "now"/);
    expect(() => displayTiming([], { nominalHz: 0 })).toThrow(/options\.nominalHz must be finite and above 0, got 0/);
    expect(() => displayTiming([], { capHz: -1 })).toThrow(/options\.capHz must be finite and above 0, got -1/);
    expect(() => displayTiming([], { level: 1 })).toThrow(/options\.level must be above 0 and below 1, got 1/);
    expect(() => displayTiming([], null as never)).toThrow(TypeError);
  });
});
