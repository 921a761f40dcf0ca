import type { KinematicSegment, UniformSegment } from "../uniform.js";
import type { Section } from "./butterworth.js";
import { filterPair } from "./filter-pair.js";

/** Filtered positions with speed alone on the same even grid. */
export interface SpeedSegment extends UniformSegment {
  readonly speed: Float64Array;
}

/**
 * Filters the positions in place and adds their speed: the norm of central differences, one-sided at the ends. `turning` shortens steps of
 * azimuth by the cosine of the elevation, degrees. `behind` is told of samples `from`..`to` (exclusive) whose neighbours have their final positions.
 */
export function toSpeedSegment(
  even: UniformSegment,
  section: Section,
  padding: number,
  turning: boolean,
  behind: (from: number, to: number) => void = () => {},
): SpeedSegment {
  const { x, y, sampleRateHz } = even;
  const n = x.length;
  const speed = new Float64Array(n);
  // block by block behind the filter's way back; the sample before a block has to wait for the next one
  filterPair(x, y, section, padding, (from, to) => {
    const end = Math.min(to + 1, n - 1);
    fillSpeed(x, y, sampleRateHz / 2, turning, from + 1, end, speed);
    behind(from + 1, end);
  });
  fillEnds(x, y, sampleRateHz, turning, speed);
  return { ...even, speed };
}

/** As `toSpeedSegment`, with the velocities; in a view `vx` stays the rate of azimuth. */
export function toKinematicSegment(even: UniformSegment, section: Section, padding: number, turning: boolean): KinematicSegment {
  const { x, y, sampleRateHz } = even;
  const vx = new Float64Array(x.length);
  const vy = new Float64Array(x.length);
  const { speed } = toSpeedSegment(even, section, padding, turning, (from, to) => {
    fillSlope(x, sampleRateHz / 2, from, to, vx);
    fillSlope(y, sampleRateHz / 2, from, to, vy);
  });
  fillEndSlopes(x, sampleRateHz, vx);
  fillEndSlopes(y, sampleRateHz, vy);
  return { ...even, vx, vy, speed };
}

/** Speed of even positions, as `toSpeedSegment` gives it. */
export function speedOf(x: Float64Array, y: Float64Array, sampleRateHz: number): Float64Array {
  const speed = new Float64Array(x.length);
  fillSpeed(x, y, sampleRateHz / 2, false, 1, x.length - 1, speed);
  fillEnds(x, y, sampleRateHz, false, speed);
  return speed;
}

function fillEnds(x: Float64Array, y: Float64Array, sampleRateHz: number, turning: boolean, speed: Float64Array): void {
  const last = speed.length - 1;
  speed[0] = speedBetween(x, y, 0, 1, sampleRateHz, turning, 0);
  speed[last] = speedBetween(x, y, last - 1, last, sampleRateHz, turning, last);
}

/** Central differences at `from`..`to` (exclusive); `scale` is half the sampling rate. */
function fillSlope(column: Float64Array, scale: number, from: number, to: number, slope: Float64Array): void {
  for (let i = from; i < to; i++) slope[i] = (column[i + 1]! - column[i - 1]!) * scale;
}

function fillEndSlopes(column: Float64Array, sampleRateHz: number, slope: Float64Array): void {
  const last = slope.length - 1;
  slope[0] = (column[1]! - column[0]!) * sampleRateHz;
  slope[last] = (column[last]! - column[last - 1]!) * sampleRateHz;
}

/** Norm of the central differences at `from`..`to` (exclusive); `scale` is half the sampling rate. */
function fillSpeed(x: Float64Array, y: Float64Array, scale: number, turning: boolean, from: number, to: number, speed: Float64Array): void {
  if (turning) {
    for (let i = from; i < to; i++) speed[i] = speedBetween(x, y, i - 1, i + 1, scale, turning, i);
    return;
  }
  for (let i = from; i < to; i++) {
    const dx = (x[i + 1]! - x[i - 1]!) * scale;
    const dy = (y[i + 1]! - y[i - 1]!) * scale;
    speed[i] = Math.sqrt(dx * dx + dy * dy);
  }
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
  const dx = (x[after]! - x[before]!) * scale * (turning ? Math.cos((y[at]! * Math.PI) / 180) : 1);
  const dy = (y[after]! - y[before]!) * scale;
  return Math.sqrt(dx * dx + dy * dy);
}
