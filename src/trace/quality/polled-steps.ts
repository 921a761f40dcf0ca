import type { Trace } from "../types.js";

/** Report rates of common devices, Hz (common practice, no source). */
const DEVICE_RATES: readonly number[] = [125, 250, 500, 1000];
/** Polling is looked for up to this rate: programs rarely ask more often, and device clocks beside it are too near. */
const FASTEST_POLL = 300;
/** Reports per step: beyond, one more or less is lost in the changes of the movement itself. */
const MOST_PER_STEP = 5;
/** Where all steps hold about the same number of reports there is nothing to see. */
const WHOLE = 0.025;
/** Places of a report within its interval that are tried. */
const PHASES = 24;
/** Quanta that five neighbouring steps cover together at the least: below, rounding decides. */
const LEAST_QUANTA = 25;
/** Intervals that break a stretch. */
const BREAK = 2.6;
/** Steps of a stretch, and in all, below which nothing is said; and the most that are looked at, a bound on the work. */
const SHORTEST = 8;
const LEAST_STEPS = 100;
const MOST_STEPS = 1500;
/** Around the arrival of a report, this share of its interval on either side, a sample may hold the report before or after. */
const ARRIVAL = 0.04;
/** Positions this much off their neighbours' curve, as a share of a step, are even enough: no report more or less is among them. */
const EVEN = 0.03;
/** Unevenness left with the times of the reports, as a share of that with the times of the samples. Of recordings at the device's own rate none came below 1.4. */
const LEFT = 0.7;

/** Rate of the device whose reports were asked for at another rate, Hz. */
export interface PolledSteps {
  readonly deviceHz: number;
}

/**
 * A program that asks for the position at a rate of its own gets the last report: steps then hold one report more or less by turns. They become even when each sample takes the time of the
 * report it repeats. Unevenness is the squared distance of each position from the cubic through its four neighbours; each stretch of motion takes the phase that suits it, so that two
 * clocks may drift. `undefined` where no common device rate makes the steps more even. Cost O(n) plus a bounded search.
 */
export function polledSteps(trace: Trace, rate: number, quantum: number): PolledSteps | undefined {
  if (rate > FASTEST_POLL) return undefined;
  const stretches = steadyStretches(trace, rate, quantum);
  const steps = stretches.reduce((sum, [from, to]) => sum + to - from, 0);
  const before = stretches.map(([from, to]) => unevenness(trace, from, to, undefined, 0));
  const total = before.reduce((sum, one) => sum + one, 0);
  if (steps < LEAST_STEPS || total < (EVEN * meanStep(trace, stretches)) ** 2 * stretches.length) return undefined;
  let least = LEFT;
  let found: PolledSteps | undefined;
  for (const deviceHz of DEVICE_RATES) {
    const perStep = deviceHz / rate;
    if (perStep > MOST_PER_STEP || Math.abs(perStep - Math.round(perStep)) < WHOLE * perStep) continue;
    // a stretch that holds few reports has no curve
    const long = stretches.flatMap(([from, to], i) => ((to - from) * Math.min(1, perStep) >= SHORTEST ? [i] : []));
    const had = long.reduce((sum, i) => sum + before[i]!, 0);
    const left = long.reduce((sum, i) => sum + leastUnevenness(trace, stretches[i]![0], stretches[i]![1], deviceHz), 0);
    if (2 * long.length < stretches.length || left >= least * had) continue;
    least = left / had;
    found = { deviceHz };
  }
  return found;
}

type Stretch = readonly [from: number, to: number];

function stepOf({ x, y }: Trace, i: number): number {
  const dx = x[i + 1]! - x[i]!;
  const dy = y[i + 1]! - y[i]!;
  return Math.sqrt(dx * dx + dy * dy);
}

/** Stretches of unbroken motion that is fast beside the quantum, up to a number of steps in all. */
function steadyStretches(trace: Trace, rate: number, quantum: number): Stretch[] {
  const { t } = trace;
  const stretches: Stretch[] = [];
  let from = -1;
  let steps = 0;
  let about = stepOf(trace, 0) + stepOf(trace, 1);
  for (let i = 0; i < t.length - 1 && steps < MOST_STEPS; i++) {
    if (i + 2 < t.length - 1) about += stepOf(trace, i + 2);
    if (i > 2) about -= stepOf(trace, i - 3);
    if (about >= LEAST_QUANTA * quantum && t[i + 1]! - t[i]! < BREAK / rate) {
      if (from < 0) from = i;
      continue;
    }
    if (from >= 0 && i - from >= SHORTEST) {
      stretches.push([from, i]);
      steps += i - from;
    }
    from = -1;
  }
  return stretches;
}

function meanStep(trace: Trace, stretches: readonly Stretch[]): number {
  let [sum, n] = [0, 0];
  for (const [from, to] of stretches) for (let i = from; i < to; i++, n++) sum += stepOf(trace, i);
  return sum / n;
}

function leastUnevenness(trace: Trace, from: number, to: number, deviceHz: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let phase = 0; phase < PHASES; phase++) least = Math.min(least, unevenness(trace, from, to, deviceHz, phase / PHASES));
  return least;
}

/**
 * Mean squared distance of the positions of a stretch from the curve of their neighbours; with `deviceHz` at the times of the reports before them. Samples of one report are one point, and
 * what they differ by counts in full.
 */
function unevenness({ t, x, y }: Trace, from: number, to: number, deviceHz: number | undefined, phase: number): number {
  const times: number[] = [];
  const places: number[] = [];
  let sum = 0;
  let report = Number.NEGATIVE_INFINITY;
  for (let i = from; i <= to; i++) {
    const moved = i === from || x[i] !== x[i - 1] || y[i] !== y[i - 1];
    const before = report;
    report = deviceHz === undefined ? i : reportHeld(t[i]! * deviceHz - phase, before, moved);
    const time = deviceHz === undefined ? t[i]! : (report + phase) / deviceHz;
    const last = times.length - 1;
    if (last >= 0 && (report === before || time <= times[last]!)) {
      const [dx, dy] = [x[i]! - x[places[last]!]!, y[i]! - y[places[last]!]!];
      sum += dx * dx + dy * dy;
      places[last] = i;
    } else {
      times.push(time);
      places.push(i);
    }
  }
  const points = times.length - 4;
  if (points < 3) return Number.POSITIVE_INFINITY;
  for (let k = 2; k < points + 2; k++) sum += squaredMiss(times, places, x, y, k);
  return sum / points;
}

/** The report that a sample holds, by its time in reports; beside an arrival, by whether it differs from the sample before. */
function reportHeld(time: number, before: number, moved: boolean): number {
  const report = Math.floor(time);
  if (report === before && moved && time - report > 1 - ARRIVAL) return report + 1;
  if (report === before + 1 && !moved && time - report < ARRIVAL) return before;
  // one that was taken early has arrived by now
  return Math.max(report, before);
}

/** Squared distance of point `k` from the cubic through the two before and the two after it (Lagrange). */
function squaredMiss(times: readonly number[], places: readonly number[], x: Float64Array, y: Float64Array, k: number): number {
  let [missX, missY] = [-x[places[k]!]!, -y[places[k]!]!];
  for (let i = k - 2; i <= k + 2; i++) {
    if (i === k) continue;
    let weight = 1;
    for (let j = k - 2; j <= k + 2; j++) if (j !== k && j !== i) weight *= (times[k]! - times[j]!) / (times[i]! - times[j]!);
    missX += weight * x[places[i]!]!;
    missY += weight * y[places[i]!]!;
  }
  return missX * missX + missY * missY;
}
