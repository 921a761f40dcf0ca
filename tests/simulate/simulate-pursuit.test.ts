import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { minimumJerkPosition } from "../../src/math/minimum-jerk.js";
import { createRandom } from "../../src/math/random.js";
import { bandNoise } from "../../src/simulate/pursuit/band-noise.js";
import type { SimulatePursuitOptions } from "../../src/simulate/pursuit/options.js";
import { simulatePursuit } from "../../src/simulate/simulate-pursuit.js";
import { requireTrace } from "../../src/trace/require-trace.js";
import type { Track } from "../../src/trace/types.js";

/** Everything recorded, nothing rounded, no noise. */
const EXACT = { timeJitterSd: 0, quantum: 0, eventsOnly: false } as const;
const trackOf = (recording: ReturnType<typeof simulatePursuit>["recording"], i = 0): Track => recording.targets[i]!.at as Track;

function at(column: Float64Array, t: Float64Array, time: number): number {
  let k = 0;
  while (k + 2 < t.length && t[k + 1]! <= time) k++;
  return column[k]! + ((time - t[k]!) / (t[k + 1]! - t[k]!)) * (column[k + 1]! - column[k]!);
}

describe("simulatePursuit against outside values", () => {
  const clean: SimulatePursuitOptions = {
    seed: 11,
    duration: 12,
    noise: { sd: 0 },
    catchUp: { deadZone: null },
    recorder: EXACT,
    sampleRateHz: 500,
  };

  // Source: closed form: the answer to a sum of sinusoids a sin(w t + p) is a g sin(w (t - d) + p) about the start
  it("follows a multisine with the delay and gain it states", () => {
    const { recording, truth } = simulatePursuit({
      ...clean,
      follower: { delay: 0.13, gain: 0.8 },
      display: { frameHz: 100, hold: true, latency: 0.02 },
    });
    expect(truth.delay).toBeCloseTo(0.13 + 0.02 + 0.005, 12);
    const trial = truth.trials[0]!;
    const place = (axis: "x" | "y", s: number): number =>
      trial.lines.reduce((sum, l) => sum + (l.axis === axis ? l.amplitude * Math.sin(2 * Math.PI * l.hz * s + l.phase) : 0), 0);
    const { t, x, y } = recording.trace;
    let checked = 0;
    for (let i = 0; i < t.length; i++) {
      const s = t[i]! - trial.tStart;
      if (t[i]! < trial.reachEnd + 0.01 || t[i]! > trial.tEnd) continue;
      // half the field is 800 by 500; a straight line over 1 ms of a curve of 5000 px/s^2 errs by 0.6e-3
      expect(Math.abs(x[i]! - 800 - (place("x", 0) + 0.8 * (place("x", s - truth.delay) - place("x", 0))))).toBeLessThan(2e-3);
      expect(Math.abs(y[i]! - 500 - (place("y", 0) + 0.8 * (place("y", s - truth.delay) - place("y", 0))))).toBeLessThan(2e-3);
      checked++;
    }
    expect(checked).toBeGreaterThan(5000);
  });

  // Source: closed form: at constant speed v a delay and a first-order lag both leave the pointer v (delay + time constant) behind
  it("stays behind a straight target by speed times delay and time constant", () => {
    const follower = { delay: 0.1, gain: 1, timeConstant: 0.08 };
    const { recording, truth } = simulatePursuit({
      ...clean,
      follower,
      target: { path: "straight", speed: [200, 200] },
      display: { hold: false },
    });
    const track = trackOf(recording);
    const { t, x, y } = recording.trace;
    const last = t.filter((time) => time <= truth.trials[0]!.tEnd - 0.01).length - 1;
    const behind = Math.hypot(x[last]! - at(track.x, track.t, t[last]!), y[last]! - at(track.y, track.t, t[last]!));
    expect(behind).toBeCloseTo(200 * 0.18, 2);
  });

  // Source: stationary variance of x = 2a x' - a^2 x'' + e (textbook), and correlation at lag k of (1 + k (1 - a^2)/(1 + a^2)) a^k; error of a variance by 4 standard errors of a long record
  it("makes noise of the size and band asked for", () => {
    const noise = bandNoise(createRandom(5), 400_000, 0.001, 3, 1);
    const mean = (value: (i: number) => number, n: number): number => {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += value(i);
      return sum / n;
    };
    const variance = mean((i) => noise[i]! ** 2, noise.length);
    // about 400 s times 2 independent moments a second and more
    expect(Math.abs(variance / 9 - 1)).toBeLessThan(4 * Math.sqrt(2 / 800));
    const a = Math.exp(-2 * Math.PI * 0.001);
    const k = 100;
    const expected = (1 + (k * (1 - a * a)) / (1 + a * a)) * a ** k;
    expect(Math.abs(mean((i) => noise[i]! * noise[i + k]!, noise.length - k) / variance - expected)).toBeLessThan(0.03);
  });

  // Source: minimum jerk, closed form; what is left after taking off the steady answer is the sum of the bells told
  it("catches up with the bells it tells of", () => {
    const { recording, truth } = simulatePursuit({
      ...clean,
      duration: 20,
      follower: { gain: 0.8 },
      catchUp: { deadZone: 20 },
      display: { hold: false },
    });
    const trial = truth.trials[0]!;
    expect(trial.catchUps.length).toBeGreaterThan(10);
    const track = trackOf(recording);
    const start = at(track.x, track.t, trial.tStart);
    const { t, x } = recording.trace;
    for (let i = 0; i < t.length; i += 7) {
      if (t[i]! < trial.reachEnd + 0.01 || t[i]! > trial.tEnd) continue;
      const steady = start + 0.8 * (at(track.x, track.t, t[i]! - truth.delay) - start);
      const bells = trial.catchUps.reduce((sum, b) => sum + b.dx * minimumJerkPosition((t[i]! - b.onset) / b.duration), 0);
      // between frames of 1/120 s the track runs straight: up to a dt^2/8 = 0.05 px
      expect(Math.abs(x[i]! - steady - bells)).toBeLessThan(0.15);
    }
    trial.catchUps.forEach((bell, k) => {
      if (k > 0) expect(bell.onset - trial.catchUps[k - 1]!.onset).toBeGreaterThan(0.17 - 1e-9);
    });
  });

  it("turns where it says, at constant speed, within the bounds", () => {
    const { recording, truth } = simulatePursuit({ seed: 12, duration: 60, target: { path: "randomWalk", speed: [200, 300] } });
    const [trial] = truth.trials;
    const track = trackOf(recording);
    expect(trial!.reversals.length).toBeGreaterThan(35);
    const speeds = trial!.reversals.flatMap(({ before, after }) => [Math.hypot(before.x, before.y), Math.hypot(after.x, after.y)]);
    expect(Math.max(...speeds) - Math.min(...speeds)).toBeLessThan(1e-9);
    expect(speeds[0]! >= 200 && speeds[0]! <= 300).toBe(true);
    for (const { t, before, after } of trial!.reversals) {
      const slope = (column: Float64Array, from: number): number => (at(column, track.t, from + 0.1) - at(column, track.t, from)) / 0.1;
      if (t + 0.13 > trial!.tEnd) continue;
      expect(slope(track.x, t - 0.12)).toBeCloseTo(before.x, 6);
      expect(slope(track.y, t + 0.02)).toBeCloseTo(after.y, 6);
    }
    expect(Math.min(...track.x) >= 0 && Math.max(...track.x) <= 1600 && Math.min(...track.y) >= 0 && Math.max(...track.y) <= 1000).toBe(
      true,
    );
  });
});

describe("simulatePursuit properties", () => {
  const options = fc.record({
    seed: fc.integer({ min: -(2 ** 31), max: 2 ** 32 - 1 }),
    trials: fc.integer({ min: 1, max: 3 }),
    duration: fc.integer({ min: 2, max: 6 }),
    sampleRateHz: fc.constantFrom(60, 125, 250),
    target: fc.record({
      path: fc.constantFrom<"multisine" | "randomWalk" | "straight">("multisine", "randomWalk", "straight"),
      scale: fc.constantFrom<readonly [number, number]>([1, 1], [0.5, 2]),
    }),
    follower: fc.record({ delay: fc.double({ min: 0, max: 0.4, noNaN: true }), timeConstant: fc.constantFrom(0, 0.1) }),
    space: fc.constantFrom<NonNullable<SimulatePursuitOptions["space"]>>({ kind: "plane" }, { kind: "view", elevation: 20 }),
  });
  test.prop([options], { numRuns: 25 })("gives valid recordings, plain truth and the same again", (given) => {
    const { recording, truth } = simulatePursuit(given);
    requireTrace("test", "trace", recording.trace);
    expect(recording.trials).toHaveLength(given.trials);
    recording.targets.forEach(({ at: track, tShown, tGone }, i) => {
      requireTrace("test", "track", track as Track);
      expect(recording.trials[i]).toMatchObject({ kind: "pursue", tStart: tShown, tEnd: tGone });
      expect((track as Track).scale !== undefined).toBe(given.target.scale[0] !== 1);
    });
    expect(JSON.parse(JSON.stringify(truth))).toEqual(truth);
    expect(structuredClone(truth)).toEqual(truth);
    expect(simulatePursuit(given)).toEqual({ recording, truth });
  });

  it("keeps the motion when the recorder changes, and the target when the person does", () => {
    const base: SimulatePursuitOptions = { seed: 4, duration: 10, target: { path: "randomWalk" } };
    const one = simulatePursuit(base);
    const other = simulatePursuit({ ...base, sampleRateHz: 60, recorder: { quantum: 3, dropShare: 0.1 } });
    expect(other.truth.trials).toEqual(one.truth.trials);
    const person = simulatePursuit({ ...base, follower: { delay: 0.3 }, noise: { sd: 9 } });
    expect(trackOf(person.recording)).toEqual(trackOf(one.recording));
  });

  it("shows the same in a view as in a plane, but for the unit", () => {
    const base: SimulatePursuitOptions = { seed: 4, duration: 10, recorder: EXACT };
    const plane = simulatePursuit(base);
    const view = simulatePursuit({ ...base, space: { kind: "view", degreesPerUnit: 0.01, elevation: 30 } });
    const [p, v] = [trackOf(plane.recording), trackOf(view.recording)];
    for (let k = 0; k < p.t.length; k += 50) {
      expect((v.y[k]! - 30) / 0.01 + 500).toBeCloseTo(p.y[k]!, 6);
      const t = p.t[k]!;
      const offset = (r: typeof plane.recording, track: Track): number => at(r.trace.x, r.trace.t, t) - track.x[k]!;
      const tangent = (offset(view.recording, v) * Math.cos((v.y[k]! * Math.PI) / 180)) / 0.01;
      // before the reach, the resting pointer sees the frame move about it
      if (t > plane.truth.trials[0]!.reachEnd) expect(Math.abs(tangent - offset(plane.recording, p))).toBeLessThan(0.02);
    }
    expect(view.recording.targets[0]!.shape).toEqual({ kind: "circle", diameter: 0.6 });
    expect(view.truth.trials[0]!.noiseSd).toBeCloseTo(0.01 * plane.truth.trials[0]!.noiseSd, 9);
  });

  it("grows the noise with the size of the target when asked", () => {
    const noise = (sizeExponent: number, scale: readonly [number, number]): number =>
      simulatePursuit({ seed: 9, duration: 20, target: { scale }, noise: { sizeExponent } }).truth.trials[0]!.noiseSd;
    expect(noise(1, [2, 2]) / noise(1, [1, 1])).toBeCloseTo(2, 9);
    expect(noise(0, [2, 2])).toBeCloseTo(noise(0, [1, 1]), 9);
  });
});

describe("simulatePursuit bad input", () => {
  it.each<[unknown, RegExp]>([
    [null, /simulatePursuit: options must be an object, got null/],
    [{ target: 3 }, /options\.target must be an object, got 3/],
    [{ seed: 0.5 }, /options\.seed must be a whole number.*got 0\.5/],
    [{ trials: 0 }, /options\.trials must be a whole number.*got 0/],
    [{ duration: 1 }, /options\.duration must be at least 2 and at most 3600, got 1/],
    [{ target: { path: "circle" } }, /options\.target\.path must be one of "multisine", "randomWalk", "straight", got "circle"/],
    [{ target: { linesX: [0] } }, /options\.target\.linesX\[0\] must be above 0/],
    [{ target: { linesX: [], linesY: [] } }, /options\.target\.linesX and linesY must hold a line, got none/],
    [{ target: { turnDeg: [90, 200] } }, /options\.target\.turnDeg\[1\] must be at least 0 and at most 180, got 200/],
    [{ target: { diameter: 0 } }, /options\.target\.diameter must be finite and above 0, got 0/],
    [{ follower: { delay: -1 } }, /options\.follower\.delay must be at least 0 and at most 2, got -1/],
    [{ catchUp: { deadZone: 0 } }, /options\.catchUp\.deadZone must be finite and above 0, got 0/],
    [{ noise: { sd: -1 } }, /options\.noise\.sd must be finite and at least 0, got -1/],
    [{ display: { hold: 1 } }, /options\.display\.hold must be true or false, got 1/],
    [{ recorder: { dropShare: 1 } }, /options\.recorder\.dropShare must be at least 0 and at most 0\.99, got 1/],
    [{ recorder: { edges: { width: 10, height: 10 } } }, /options\.recorder\.edges must be null, got a box/],
    [{ space: { kind: "view", elevation: 79 } }, /options\.space\.elevation must be/],
    [
      { space: { kind: "view" }, duration: 600, target: { path: "straight", speed: [900, 900] } },
      /must stay within 80 degrees of elevation/,
    ],
  ])("refuses %j", (options, message) => {
    expect(() => simulatePursuit(options as SimulatePursuitOptions)).toThrow(message);
  });
});
