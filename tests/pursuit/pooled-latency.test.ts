import { describe, expect, it } from "vitest";
import { analyzePursuit } from "../../src/pursuit/analyze-pursuit.js";
import { pooledLatency } from "../../src/pursuit/following/pooled-latency.js";
import { simulatePursuit } from "../../src/simulate/simulate-pursuit.js";

const settings = { level: 0.95, seed: 1, resamples: 100 };

/** Answers of which the velocity goes from 0 to 1 at `rate` Hz, evenly from `start` for `rise` seconds. */
function ramps(count: number, rate: number, start: number, rise: number) {
  const share = (t: number): number => Math.min(1, Math.max(0, (t - start) / rise));
  const n = Math.round(0.6 * rate) + 1;
  return Array.from({ length: count }, (_, e) => {
    const times = Float64Array.from({ length: n }, (_, k) => -0.1 + (k + e / count) / rate);
    return { course: Float64Array.from({ length: n }, (_, k) => share(-0.1 + k / rate)), times, steps: times.map(share) };
  });
}

// Source: the break of a level and a straight line is where the line begins, in closed form.
describe("pooledLatency against outside values", () => {
  it.each([60, 250, 1000])("finds the beginning of a straight rise at %i Hz", (rate) => {
    const found = pooledLatency(ramps(12, rate, 0.16, 0.1), rate, settings);
    expect(found).toMatchObject({ ok: true, value: expect.closeTo(0.16, 9), n: 12, level: 0.95 });
    const slack = Math.max(1 / rate, 0.005);
    expect(found.ok && found.interval).toEqual([expect.closeTo(0.16 - slack, 9), expect.closeTo(0.16 + slack, 9)]);
  });

  // Source: the delay that the simulation was given.
  it.each([
    [60, 0],
    [250, 0],
    [250, 0.05],
  ])("holds the delay in its interval at %i Hz with a time constant of %d s", (sampleRateHz, timeConstant) => {
    let held = 0;
    for (let seed = 1; seed <= 5; seed++) {
      const { recording } = simulatePursuit({
        seed,
        sampleRateHz,
        duration: 40,
        target: { path: "randomWalk" },
        follower: { delay: 0.16, timeConstant },
        catchUp: { deadZone: null },
      });
      const { pooledLatency: found } = analyzePursuit(recording, { resamples: 100 })[0]!.changes;
      held += Number(found.ok && found.interval![0] <= 0.16 && 0.16 <= found.interval![1]);
    }
    expect(held).toBeGreaterThanOrEqual(4);
  });
});

describe("pooledLatency properties", () => {
  it("says when nothing rises", () => {
    const flat = ramps(10, 250, 5, 1);
    expect(pooledLatency(flat, 250, settings)).toEqual({ ok: false, why: "notIdentified", unit: "s", n: 10 });
  });
});
