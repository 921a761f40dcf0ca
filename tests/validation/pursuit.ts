// How well following is measured on simulated people of known delay, gain, noise and catch-up movements, at every rate; and whether intervals hold the truth.
import { createRandom } from "../../src/math/random.js";
import { analyzePursuit } from "../../src/pursuit/analyze-pursuit.js";
import type { Pursuit } from "../../src/pursuit/types.js";
import type { PursuitSettings, SimulatePursuitOptions } from "../../src/simulate/pursuit/options.js";
import type { PursuitTruth, TruePursuit } from "../../src/simulate/pursuit/truth.js";
import { simulatePursuit } from "../../src/simulate/simulate-pursuit.js";
import type { Figure, Outcome } from "./figure.js";

const RATES = [60, 125, 250, 500, 1000] as const;
/** Held out: the library was built with seeds below 100. */
const FIRST_SEED = 7100;
const SIMULATED = "simulated truth";
const DELAYS = [0.08, 0.12, 0.16, 0.22] as const;
const GAINS = [0.8, 0.9, 1, 1.1] as const;
const DIAMETER = 60;
/** Draws behind an interval where only the value is looked at. */
const QUICK_DRAWS = 100;

interface Run {
  readonly found: Pursuit;
  readonly truth: PursuitTruth;
  readonly trial: TruePursuit;
  readonly options: PursuitSettings;
}

export async function figures(quick: boolean): Promise<readonly Outcome[]> {
  const out: Figure[] = [];
  const add = (what: string, value: number, bar: string, ok: boolean): void => {
    out.push({ name: `pursuit/${what}`, value, bar, ok, source: SIMULATED });
  };
  for (const rate of quick ? ([250] as const) : RATES) following(rate, quick, add);
  for (const rate of quick ? ([250] as const) : RATES) catchUps(rate, quick, add);
  for (const rate of quick ? ([250] as const) : RATES) reversals(rate, quick, add);
  sizes(quick, add);
  coverage(quick, add);
  return out;
}

type Add = (what: string, value: number, bar: string, ok: boolean) => void;

function run(options: SimulatePursuitOptions, analysis: Parameters<typeof analyzePursuit>[1] = {}): Run {
  const { recording, truth } = simulatePursuit(options);
  const [found] = analyzePursuit(recording, { resamples: QUICK_DRAWS, ...analysis });
  return { found: found!, truth, trial: truth.trials[0]!, options: truth.options };
}

/** Lag, gain, noise and time on target of steady following. */
function following(rate: number, quick: boolean, add: Add): void {
  const at = `at ${rate} Hz`;
  const atSpeed = rate >= 250;
  const draws = quick ? 1 : 2;
  const errors = {
    correlation: [] as number[],
    phase: [] as number[],
    walk: [] as number[],
    straight: [] as number[],
    lagged: [] as number[],
  };
  const gains = { multisine: [] as number[], walk: [] as number[], lagged: [] as number[] };
  const noise: number[] = [];
  const onTarget: number[] = [];
  let seed = FIRST_SEED;
  for (let draw = 0; draw < draws; draw++) {
    for (const delay of quick ? DELAYS.slice(0, 2) : DELAYS) {
      for (const gain of quick ? [0.9] : GAINS) {
        const steady = { sampleRateHz: rate, catchUp: { deadZone: null } } as const;
        const person = { delay, gain, timeConstant: 0 };
        const sines = run({ ...steady, seed: seed++, follower: person }, drivenLines());
        push(errors.correlation, given(sines.found.lag.byCorrelation), delay);
        push(errors.phase, given(sines.found.lag.byPhase), delay);
        gains.multisine.push((100 * (given(sines.found.gain) - gain)) / gain);
        onTarget.push(given(sines.found.onTarget.share) - shareByTruth(sines));
        const lagged = run({ ...steady, seed: seed++, follower: { ...person, timeConstant: 0.05 } });
        const expected = laggedTruth(lagged);
        push(errors.lagged, given(lagged.found.lag.byCorrelation), expected.lag);
        gains.lagged.push((100 * (given(lagged.found.gain) - expected.gain)) / expected.gain);
        const walk = run({ ...steady, seed: seed++, follower: person, target: { path: "randomWalk", speed: [150, 400] } });
        push(errors.walk, given(walk.found.lag.byCorrelation), delay);
        gains.walk.push((100 * (given(walk.found.gain) - gain)) / gain);
        const level = run({
          ...steady,
          seed: seed++,
          duration: 30,
          follower: { delay, gain: 1, timeConstant: 0 },
          target: { path: "straight", speed: [150, 400] },
        });
        push(errors.straight, given(level.found.lag.atConstantVelocity), delay);
        const whole = run({ ...steady, seed: seed++, follower: { delay, gain: 1, timeConstant: 0 } });
        noise.push(100 * (given(whole.found.lag.rmsWithoutLag) / (Math.SQRT2 * whole.trial.noiseSd) - 1));
      }
    }
  }
  const within = (value: number, most: number): boolean => Math.abs(value) <= most;
  const names = {
    correlation: "by correlation, multisine",
    phase: "by phase, multisine",
    walk: "by correlation, random walk",
    lagged: "by correlation, multisine with a first-order lag of 50 ms",
    straight: "at constant velocity",
  } as const;
  for (const [key, name] of Object.entries(names) as [keyof typeof names, string][]) {
    const signed = mean(errors[key]);
    const size = median(errors[key].map(Math.abs));
    const bar = atSpeed && !(quick && key === "straight");
    add(
      `lag ${name}, mean signed error ${at}, ms (n ${errors[key].length})`,
      signed,
      bar ? "|.| <= 2" : "printed",
      !bar || within(signed, 2),
    );
    // one straight line holds too few independent moments of noise for that
    const both = bar && key !== "straight";
    add(`lag ${name}, median size of the error ${at}, ms`, size, both ? "<= 2" : "printed", !both || size <= 2);
  }
  for (const [name, list] of [
    ["multisine", gains.multisine],
    ["random walk", gains.walk],
    ["multisine with a first-order lag of 50 ms", gains.lagged],
  ] as const) {
    const signed = mean(list);
    add(`gain, ${name}, mean signed error ${at}, %`, signed, "|.| <= 2", within(signed, 2));
    const size = median(list.map(Math.abs));
    add(`gain, ${name}, median size of the error ${at}, %`, size, "<= 2", size <= 2);
  }
  add(`RMS without lag over that of the noise, mean error ${at}, %`, mean(noise), "|.| <= 5", within(mean(noise), 5));
  const share = mean(onTarget.map(Math.abs));
  // two short trials leave the quick run's share to the noise of their own
  add(`time on target, mean size of the error, share of the time ${at}`, share, quick ? "printed" : "<= 0.02", quick || share <= 0.02);
}

/** The catch-up movements of people whose gain is 0.85. */
function catchUps(rate: number, quick: boolean, add: Add): void {
  const bins = [
    ["multisine", 2, 0],
    ["multisine", 4, 0],
    ["multisine", 8, 0],
    ["multisine", 4, 0.05],
    ["randomWalk", 2, 0],
    ["randomWalk", 4, 0],
    ["randomWalk", 4, 0.05],
  ] as const;
  for (const [path, sd, timeConstant] of quick ? bins.slice(1, 2) : bins) {
    let seed = FIRST_SEED + 1000;
    const count = { true: 0, found: 0, detected: 0, false: 0, seconds: 0, none: 0, idle: 0 };
    const start: number[] = [];
    const amplitude: number[] = [];
    for (let k = 0; k < (quick ? 1 : 5); k++) {
      const shared = { sampleRateHz: rate, target: { path, diameter: DIAMETER }, noise: { sd } } as const;
      const one = run({ ...shared, seed: seed++, follower: { gain: 0.85, timeConstant } });
      const { from, to } = one.found.samples;
      const planted = one.trial.catchUps.filter((b) => b.onset > from + 0.2 && b.onset + b.duration < to - 0.2);
      const { movements } = one.found.catchUp;
      const near = (b: { onset: number; duration: number }) => movements.find((m) => Math.abs(m.peak - b.onset - b.duration / 2) < 0.06);
      const matches = planted.flatMap((b) => near(b) ?? []);
      count.true += planted.length;
      count.found += matches.length;
      count.detected += movements.length;
      const stray = movements.filter((m) => !one.trial.catchUps.some((b) => Math.abs(m.peak - b.onset - b.duration / 2) < 0.06));
      count.false += stray.length;
      for (const b of planted) {
        const match = near(b);
        if (match === undefined) continue;
        start.push(1000 * (match.start - b.onset));
        amplitude.push(length(match.dx, match.dy) / length(b.dx, b.dy) - 1);
      }
      const idle = run({ ...shared, seed: seed++, catchUp: { deadZone: null }, follower: { gain: 1, timeConstant } });
      count.idle += idle.found.catchUp.movements.length;
      count.seconds += idle.found.samples.duration;
    }
    const name = `${path}, noise ${sd} px, first-order lag ${1000 * timeConstant} ms, at ${rate} Hz`;
    const recall = count.found / count.true;
    const bar = !quick && rate >= 125;
    add(`catch-up movements found, ${name} (n ${count.true})`, recall, bar ? ">= 0.9" : "printed", !bar || recall >= 0.9);
    // with a lag of its own the pointer leaves the delayed target at each corner, which looks alike
    const clean = bar && !(path === "randomWalk" && timeConstant > 0);
    const stray = count.false / count.detected;
    add(`catch-up movements that are none, share, ${name}`, stray, clean ? "<= 0.1" : "printed", !clean || stray <= 0.1);
    add(`catch-up movements reported per minute where there are none, ${name}`, (60 * count.idle) / count.seconds, "printed", true);
    add(`catch-up start, median signed error, ms, ${name}`, median(start), "printed", true);
    add(`catch-up amplitude, median error, %, ${name}`, 100 * median(amplitude), "printed", true);
  }
}

/** Latency of the answer to unannounced turns. */
function reversals(rate: number, quick: boolean, add: Add): void {
  const limit = Math.max(10, 1000 / rate);
  for (const timeConstant of [0, 0.05]) {
    const pooled: number[] = [];
    const single: number[] = [];
    let silent = 0;
    let missed = 0;
    let seed = FIRST_SEED + 2000;
    for (let k = 0; k < (quick ? 1 : 6); k++) {
      const delay = DELAYS[k % DELAYS.length]!;
      const target = { path: "randomWalk", speed: [250, 250] } as const;
      const one = run({ seed: seed++, sampleRateHz: rate, target, follower: { delay, timeConstant }, catchUp: { deadZone: null } });
      const { events, pooledLatency, leftOut } = one.found.changes;
      push(pooled, given(pooledLatency), delay);
      for (const { latency } of events) {
        if (latency === null) silent++;
        else push(single, latency, delay);
      }
      const inside = one.trial.reversals.filter(({ t }) => t > one.found.samples.from + 0.2 && t < one.found.samples.to - 0.6);
      missed += Math.max(0, inside.filter(({ t }) => !events.some((event) => Math.abs(event.t - t) < 0.002)).length - leftOut);
    }
    const name = `first-order lag ${1000 * timeConstant} ms, at ${rate} Hz`;
    add(`reversals not found within 2 ms of their time, ${name}`, missed, "= 0", missed === 0);
    const average = mean(pooled);
    add(`reversal latency pooled, mean signed error, ms, ${name}`, average, `|.| <= ${limit.toFixed(0)}`, Math.abs(average) <= limit);
    add(`reversal latency of single events, median signed error, ms, ${name} (n ${single.length})`, median(single), "printed", true);
    add(`reversal latency of single events, median size of the error, ms, ${name}`, median(single.map(Math.abs)), "printed", true);
    add(`reversals without a latency of their own, share, ${name}`, silent / (silent + single.length), "printed", true);
  }
}

/** Slope of the error's spread on the target's size. */
function sizes(quick: boolean, add: Add): void {
  for (const sizeExponent of [0, 1]) {
    const slopes: number[] = [];
    let held = 0;
    let seed = FIRST_SEED + 3000;
    const count = quick ? 2 : 60;
    for (let k = 0; k < count; k++) {
      const noise = { sizeExponent, sd: 5 };
      const steady = { sampleRateHz: 125, target: { scale: [0.5, 2] as const }, noise, catchUp: { deadZone: null } };
      const one = run({ seed: seed++, ...steady }, { resamples: 200 });
      const { slope } = one.found.bySize;
      if (!slope.ok) continue;
      slopes.push(slope.value);
      held += Number(slope.interval![0] <= sizeExponent && sizeExponent <= slope.interval![1]);
    }
    const error = mean(slopes) - sizeExponent;
    add(
      `slope of spread on size, truth ${sizeExponent}, mean error (n ${slopes.length})`,
      error,
      quick ? "printed" : "|.| <= 0.1",
      quick || Math.abs(error) <= 0.1,
    );
    add(`slope of spread on size, truth ${sizeExponent}, intervals that held it, %`, (100 * held) / slopes.length, "printed", true);
  }
}

/** How often intervals named 95 % hold the truth; a minute each, noise of 1 Hz. */
function coverage(quick: boolean, add: Add): void {
  const held: Record<string, [number, number]> = {};
  const check = (name: string, estimate: Pursuit["gain"], truth: number): void => {
    if (!estimate.ok || estimate.interval === undefined) return;
    const [low, high] = estimate.interval;
    held[name] ??= [0, 0];
    held[name][0] += Number(low <= truth && truth <= high);
    held[name][1]++;
  };
  for (const sd of [4, 12]) {
    for (let k = 0; k < (quick ? 3 : 150); k++) {
      const seed = FIRST_SEED + 4000 + 1000 * sd + k;
      const one = run(
        { seed, sampleRateHz: 125, follower: { delay: 0.14 }, noise: { sd }, catchUp: { deadZone: null }, target: { diameter: 90 } },
        { resamples: 300 },
      );
      const { found, options, truth, trial } = one;
      const name = (what: string): string => `${what}, noise ${sd} px`;
      check(name("lag by correlation"), found.lag.byCorrelation, options.follower.delay);
      check(name("gain"), found.gain, 1);
      check(name("RMS without lag"), found.lag.rmsWithoutLag, Math.SQRT2 * sd);
      const square = trial.lines.reduce(
        (sum, { hz, amplitude }) => sum + amplitude ** 2 * (1 - Math.cos(2 * Math.PI * hz * truth.delay)),
        0,
      );
      check(name("RMS error"), found.error.rms, Math.sqrt(square + 2 * sd * sd));
      check(name("mean error across"), found.error.acrossMotion.bias, 0);
      check(name("time on target"), found.onTarget.share, shareByTruth(one));
    }
  }
  for (const [name, [yes, all]] of Object.entries(held)) {
    const share = (100 * yes) / all;
    // that of the RMS error is too wide where most of it is the target's own doing, which differs from unit to unit and comes back with the pattern
    const bar = name.startsWith("RMS error") ? ">= 90" : "90 to 99.5";
    const ok = share >= 90 && (bar === ">= 90" || share <= 99.5);
    add(`intervals that held the ${name}, % (n ${all})`, share, quick ? "printed" : bar, quick || ok);
  }
}

function drivenLines(): { drivenHz: { x: number[]; y: number[] } } {
  return { drivenHz: { x: [0.2, 0.5, 0.9, 1.3], y: [0.3, 0.7, 1.1] } };
}

/** Lag and gain of a follower with a first-order lag on a multisine: the summit of the sum of a^2 w^2 |H| cos(w s + phase of H), and its height over the sum of a^2 w^2. */
function laggedTruth({ trial, options }: Run): { lag: number; gain: number } {
  const { delay, gain, timeConstant } = options.follower;
  const lines = trial.lines.map(({ hz, amplitude }) => {
    const w = 2 * Math.PI * hz;
    return {
      w,
      power: (amplitude * w) ** 2,
      size: gain / Math.sqrt(1 + (w * timeConstant) ** 2),
      late: w * delay + Math.atan(w * timeConstant),
    };
  });
  const heightAt = (s: number): number => lines.reduce((sum, { w, power, size, late }) => sum + power * size * Math.cos(w * s - late), 0);
  let best = 0;
  for (let s = 0; s < 0.6; s += 1e-5) if (heightAt(s) > heightAt(best)) best = s;
  return { lag: best, gain: heightAt(best) / lines.reduce((sum, { power }) => sum + power, 0) };
}

/** Share of the time on target, from the drawn sinusoids and fresh draws of the noise. */
function shareByTruth({ trial, truth, options, found }: Run): number {
  const random = createRandom(12345);
  const { gain } = options.follower;
  const { sd } = options.noise;
  const radius = found.motion.meanWidth / 2;
  const place = (axis: "x" | "y", t: number): number =>
    trial.lines.reduce(
      (sum, line) => sum + (line.axis === axis ? line.amplitude * Math.sin(2 * Math.PI * line.hz * t + line.phase) : 0),
      0,
    );
  const from = { x: place("x", 0), y: place("y", 0) };
  const error = (axis: "x" | "y", t: number): number => from[axis] + gain * (place(axis, t - truth.delay) - from[axis]) - place(axis, t);
  let inside = 0;
  const count = 20_000;
  const start = found.samples.from - trial.tStart;
  for (let k = 0; k < count; k++) {
    const t = start + ((k + 0.5) / count) * (found.samples.to - found.samples.from);
    inside += Number(length(error("x", t) + random.normal(0, sd), error("y", t) + random.normal(0, sd)) <= radius);
  }
  return inside / count;
}

function push(list: number[], value: number, truth: number): void {
  if (Number.isFinite(value)) list.push(1000 * (value - truth));
}

function given(estimate: Pursuit["gain"]): number {
  return estimate.ok ? estimate.value : Number.NaN;
}

function length(x: number, y: number): number {
  return Math.sqrt(x * x + y * y);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.length === 0 ? 0 : (sorted[(sorted.length - 1) >> 1]! + sorted[sorted.length >> 1]!) / 2;
}
