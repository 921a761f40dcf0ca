import { describe, expect, it } from "vitest";
import type { Estimate } from "../../src/math/estimate.js";
import { analyze } from "../../src/movement/analyze.js";
import { variabilityProfile } from "../../src/movement/variability-profile.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Recording } from "../../src/trace/types.js";
import { moved } from "./simulated.js";

const { recording } = simulateRecording({
  seed: 42,
  movements: 40,
  sampleRateHz: 500,
  tremorAmplitude: 0,
  targets: { amplitude: [400, 400], widths: [60], bounds: { width: 3000, height: 3000 } },
  correction: { pureShare: 1 },
  // silences are held against the step of either axis, which a turn changes: a recorder that never falls silent has none
  recorder: { eventsOnly: false },
});

/** Mean displacements along the way and spreads along and across it; at the start there is no spread. */
function spreadsOf(turned: Recording): number[] {
  // a turned grid of pixels is none, so that its step has to be told
  const { n, byTime } = variabilityProfile(turned, analyze(turned, { quantum: 1 }), { quantum: 1 });
  const told = (one: Estimate): number => (one.ok ? one.value : -1);
  return [n, ...byTime.flatMap(({ meanAlong, along, across }) => [meanAlong, told(along), told(across)])];
}

// Source: an exact relation: displacements are counted along the straight line to the target, wherever it points
describe("movements in another direction", () => {
  const plain = spreadsOf(recording);
  it.each([
    ["turned by a right angle", (x: number, y: number) => [-y, x] as const],
    ["turned by 3-4-5", (x: number, y: number) => [0.6 * x - 0.8 * y, 0.8 * x + 0.6 * y] as const],
    ["mirrored", (x: number, y: number) => [x, -y] as const],
    ["elsewhere", (x: number, y: number) => [x + 1000, y - 700] as const],
  ])("have the same spreads: %s", (_, point) => {
    const turned = spreadsOf(moved(recording, { point }));
    expect(plain[0]).toBe(40);
    expect(turned).toHaveLength(plain.length);
    // what is left is the filter's rounding of positions of some hundred px
    for (const [i, value] of turned.entries()) expect(Math.abs(value - plain[i]!)).toBeLessThan(1e-6 * (1 + Math.abs(plain[i]!)));
  });
});
