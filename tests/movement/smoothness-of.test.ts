// When the path of a row has a spectral arc length: from 0.1 s on, up to 60 s.
import { describe, expect, it } from "vitest";
import { smoothnessOf } from "../../src/movement/acquisition/smoothness-of.js";
import type { SpeedSegment } from "../../src/trace/condition/speed-segment.js";

/** One minimum-jerk movement of this duration from 0 on, at 250 Hz; what follows it rests. */
function bell(duration: number, sampleRateHz = 250): SpeedSegment {
  const n = Math.ceil(duration * sampleRateHz) + 3;
  const share = (i: number): number => Math.min(1, i / sampleRateHz / duration);
  const x = Float64Array.from({ length: n }, (_, i) => 1000 * share(i) ** 3 * (10 - 15 * share(i) + 6 * share(i) ** 2));
  const speed = Float64Array.from({ length: n }, (_, i) => (30_000 / duration) * share(i) ** 2 * (1 - share(i)) ** 2);
  return { t0: 0, sampleRateHz, x, y: new Float64Array(n), speed } as unknown as SpeedSegment;
}

describe("smoothness of a row against outside values", () => {
  // Source: limit of one minimum-jerk movement, closed form (mpmath): -1.40818, whatever its duration while 20 Hz is far beyond its band.
  it.each([1, 10, 59])("is that of a minimum-jerk movement of %i s", (duration) => {
    expect(smoothnessOf(bell(duration), 0, duration).spectralArcLength!).toBeCloseTo(-1.408, 1);
  });
});

describe("smoothness of a row properties", () => {
  it("is absent below 0.1 s or 20 samples, and has no spectrum beyond 60 s", () => {
    expect(smoothnessOf(bell(0.099, 1000), 0, 0.099)).toEqual({});
    expect(smoothnessOf(bell(0.1, 1000), 0, 0.1).spectralArcLength).toBeDefined();
    expect(smoothnessOf(bell(0.15, 125), 0, 0.15)).toEqual({});
    expect(smoothnessOf(bell(60), 0, 60).spectralArcLength).toBeDefined();
    const long = smoothnessOf(bell(61), 0, 61);
    expect(long.spectralArcLength).toBeUndefined();
    expect(long.logDimensionlessJerk).toBeDefined();
  });
});
