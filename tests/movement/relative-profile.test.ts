import { describe, expect, it } from "vitest";
import { relativeTo } from "../../src/movement/acquisition/relative-profile.js";
import { kinematics } from "../../src/trace/kinematics.js";
import type { Target, Trace } from "../../src/trace/types.js";
import { circle } from "./hand-made.js";

const frame = { x: 0, y: 0, shrink: 1 };
const t = Float64Array.from({ length: 501 }, (_, k) => k / 500);
const line = (vx: number, vy: number): Trace => ({ t, x: t.map((time) => vx * time), y: t.map((time) => vy * time) });
const running = (path: Trace): Target => ({ ...circle("a", 0, 0, 10), at: path });
const profileOf = (path: Trace) => kinematics(path, { sampleRateHz: 500, quantum: 0.001 }).segments[0];

describe("relativeTo against outside values", () => {
  // Source: differences of constant velocities by hand: (300, 400) against (60, 80) leaves 240 and 320, that is 400 px/s. Tolerance: at
  // the ends of the pointer's profile the filter has settled to 1e-8.
  it("takes the target's velocity off the pointer's", () => {
    const relative = relativeTo(profileOf(line(300, 400)), running(line(60, 80)), frame, 20);
    for (const k of [0, 100, 250, 400, 500]) {
      expect(relative.speed[k]).toBeCloseTo(400, 4);
      expect(relative.x[k]).toBeCloseTo((240 * k) / 500, 4);
      expect(relative.y[k]).toBeCloseTo((320 * k) / 500, 4);
    }
  });

  // Source: symmetry: what goes the same way through the same filter leaves nothing.
  it("leaves nothing of a pointer that goes with its target, also where both speed up", () => {
    const path = { t, x: t.map((time) => 200 * Math.sin(6 * time)), y: t.map((time) => 400 * time * time) };
    const { speed } = relativeTo(profileOf(path), running(path), frame, 20);
    expect(Math.max(...speed)).toBeLessThan(1e-6);
  });
});

describe("relativeTo properties", () => {
  it("counts azimuth by the frame's cosine", () => {
    const relative = relativeTo(profileOf(line(0, 0)), running(line(100, 0)), { ...frame, shrink: 0.5 }, 20);
    expect(relative.speed[250]).toBeCloseTo(50, 6);
  });

  it("leaves the profile as it was", () => {
    const profile = profileOf(line(300, 400));
    const before = structuredClone(profile);
    relativeTo(profile, running(line(60, 80)), frame, 20);
    expect(profile).toEqual(before);
  });
});
