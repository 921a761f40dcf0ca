import type { KinematicSegment, UniformSegment } from "../uniform.js";
import { BLOCK } from "./block.js";
import type { Section } from "./butterworth.js";
import { centralDifferences } from "./central-differences.js";
import { filterForth, type PairState, runPair } from "./filter-pair.js";

/** Filtered positions with speed alone on the same even grid. */
export interface SpeedSegment extends UniformSegment {
  readonly speed: Float64Array;
}

/**
 * Filters the positions in place and adds their speed: the norm of central differences, one-sided at the ends. `turning` shortens steps of
 * azimuth by the cosine of the elevation, degrees.
 */
export function toSpeedSegment(even: UniformSegment, section: Section, padding: number, turning: boolean): SpeedSegment {
  const { x, y, sampleRateHz } = even;
  const speed = new Float64Array(x.length);
  const state = filterForth(x, y, section, padding);
  const inner = x.length - 2;
  runPair(x, y, inner + 1, inner - 1, -1, section, state);
  for (let to = inner; to > 0; to -= BLOCK) {
    runBack(x, y, to - 1, Math.max(0, to - BLOCK) - 1, section, state, sampleRateHz / 2, turning, speed);
  }
  fillEnds(x, y, sampleRateHz, turning, speed);
  return { ...even, speed };
}

/** As `toSpeedSegment`, with the velocities; in a view `vx` stays the rate of azimuth. */
export function toKinematicSegment(even: UniformSegment, section: Section, padding: number, turning: boolean): KinematicSegment {
  const { x, y, speed, sampleRateHz } = toSpeedSegment(even, section, padding, turning);
  return { ...even, vx: slopeOf(x, sampleRateHz), vy: slopeOf(y, sampleRateHz), speed };
}

/** Speed of even positions, as `toSpeedSegment` gives it. */
export function speedOf(x: Float64Array, y: Float64Array, sampleRateHz: number): Float64Array {
  const speed = new Float64Array(x.length);
  for (let i = 1; i < x.length - 1; i++) speed[i] = speedBetween(x, y, i - 1, i + 1, sampleRateHz / 2, false, i);
  fillEnds(x, y, sampleRateHz, false, speed);
  return speed;
}

/**
 * As `runPair` backward, and fills the speed of each sample as soon as the one before it is final: in a loop of its own that takes twice
 * as long. The two samples after `from` are final; `scale` is half the sampling rate.
 */
function runBack(
  x: Float64Array,
  y: Float64Array,
  from: number,
  to: number,
  section: Section,
  state: PairState,
  scale: number,
  turning: boolean,
  speed: Float64Array,
): void {
  const { b0, b1, b2, a1, a2 } = section;
  const c1 = b1 - a1 * b0;
  const c2 = b2 - a2 * b0;
  let p1 = state[0]!;
  let p2 = state[1]!;
  let q1 = state[2]!;
  let q2 = state[3]!;
  let hereX = x[from + 1]!;
  let hereY = y[from + 1]!;
  let afterX = x[from + 2]!;
  let afterY = y[from + 2]!;
  for (let i = from; i > to; i--) {
    const u = x[i]!;
    const v = y[i]!;
    const beforeX = b0 * u + p1;
    const beforeY = b0 * v + q1;
    x[i] = beforeX;
    y[i] = beforeY;
    const p = c1 * u + p2 - a1 * p1;
    const q = c1 * v + q2 - a1 * q1;
    p2 = c2 * u - a2 * p1;
    q2 = c2 * v - a2 * q1;
    p1 = p;
    q1 = q;
    const dx = (afterX - beforeX) * scale;
    const dy = (afterY - beforeY) * scale;
    const across = turning ? dx * cosineOf(hereY) : dx;
    speed[i + 1] = Math.sqrt(across * across + dy * dy);
    afterX = hereX;
    afterY = hereY;
    hereX = beforeX;
    hereY = beforeY;
  }
  state[0] = p1;
  state[1] = p2;
  state[2] = q1;
  state[3] = q2;
}

function fillEnds(x: Float64Array, y: Float64Array, sampleRateHz: number, turning: boolean, speed: Float64Array): void {
  const last = speed.length - 1;
  speed[0] = speedBetween(x, y, 0, 1, sampleRateHz, turning, 0);
  speed[last] = speedBetween(x, y, last - 1, last, sampleRateHz, turning, last);
}

/** Central differences, one-sided at the ends. */
function slopeOf(column: Float64Array, sampleRateHz: number): Float64Array {
  const slope = centralDifferences(column, sampleRateHz);
  const last = column.length - 1;
  slope[0] = (column[1]! - column[0]!) * sampleRateHz;
  slope[last] = (column[last]! - column[last - 1]!) * sampleRateHz;
  return slope;
}

function speedBetween(
  x: Float64Array,
  y: Float64Array,
  before: number,
  after: number,
  scale: number,
  turning: boolean,
  at: number,
): number {
  const dx = (x[after]! - x[before]!) * scale * (turning ? cosineOf(y[at]!) : 1);
  const dy = (y[after]! - y[before]!) * scale;
  return Math.sqrt(dx * dx + dy * dy);
}

/** Cosine of an elevation in degrees. */
function cosineOf(elevation: number): number {
  return Math.cos((elevation * Math.PI) / 180);
}
