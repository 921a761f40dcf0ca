import type { SpeedSegment } from "../../trace/condition/speed-segment.js";
import type { Submovement } from "../types.js";
import { FALL, fallAfter, RISE, riseBefore } from "./onset.js";
import { findPeaks } from "./peaks.js";

/** What the detector needs beside the profile; all resolved by its callers. */
export interface DetectorSettings {
  /** Noise of one velocity component, unit per second. */
  readonly noise: number;
  /** Step of the position readings, in the space's unit. */
  readonly quantum: number;
  /** Up to the end of the primary submovement a peak must stand out by this share of the largest speed. */
  readonly prominenceShare: number;
  /** Peaks closer than this are one, seconds. */
  readonly minSpacing: number;
}

/** Which samples to look at, and which peaks to report. */
export interface Range {
  readonly start: number;
  /** Exclusive. */
  readonly end: number;
  /** First sample whose peak counts. */
  readonly from: number;
  /** Last sample whose peak counts. */
  readonly until: number;
}

/** Submovements in time order, and which of them is the primary one. */
export interface Found {
  readonly submovements: Submovement[];
  /** Index of the submovement with the largest speed, -1 when there is none. */
  readonly primary: number;
}

/** Speed is movement, and before the end of the primary a peak stands out of noise, by this many standard deviations. */
export const NOISE_LEVELS = 4;
/** After it a lower bar serves, because the displacement rule guards against noise there. */
const NOISE_LEVELS_AFTER = 2;
/** A movement or a correction must move the pointer by more than this many quanta: tremor that toggles a reading moves it by one or two. */
export const QUANTA_MOVED = 2.5;

/**
 * Speed bells of a profile. Their shapes are read off the samples `[range.start, range.end)`; only bells that peak within
 * `[range.from, range.until]` are returned, those about them belong to what came before or comes next.
 */
export function findSubmovements(profile: SpeedSegment, range: Range, settings: DetectorSettings): Found {
  const { speed } = profile;
  const { noise, quantum, prominenceShare, minSpacing } = settings;
  const { index, prominence } = findPeaks(speed, range.start, range.end);
  let top = -1;
  for (let k = 0; k < index.length; k++) {
    const counts = index[k]! >= range.from && index[k]! <= range.until;
    if (counts && (top < 0 || speed[index[k]!]! > speed[index[top]!]!)) top = k;
  }
  if (top < 0 || prominence[top]! < NOISE_LEVELS * noise) return { submovements: [], primary: -1 };
  const summit = index[top]!;
  const before = Math.max(prominenceShare * speed[summit]!, NOISE_LEVELS * noise);
  const standOut = index.filter((at, k) => prominence[k]! >= (at <= summit ? before : NOISE_LEVELS_AFTER * noise));
  const spaced = keepApart(speed, standOut, minSpacing * profile.sampleRateHz);
  const bells = toBells(profile, spaced, range, NOISE_LEVELS * noise);
  const least = (QUANTA_MOVED * quantum) ** 2;
  const submovements: Submovement[] = [];
  let primary = -1;
  for (const [k, at] of spaced.entries()) {
    const bell = bells[k]!;
    if (at < range.from || at > range.until) continue;
    if (at > summit && !(bell.dx * bell.dx + bell.dy * bell.dy > least)) continue;
    if (at === summit) primary = submovements.length;
    submovements.push(bell);
  }
  return { submovements, primary };
}

/** Of peaks closer than `spacing` samples the faster one stays. */
function keepApart(speed: Float64Array, peaks: readonly number[], spacing: number): number[] {
  const byHeight = [...peaks].sort((a, b) => speed[b]! - speed[a]! || a - b);
  const kept: number[] = [];
  for (const at of byHeight) if (kept.every((other) => Math.abs(other - at) >= spacing)) kept.push(at);
  return kept.sort((a, b) => a - b);
}

/** Turns peaks into bells: they meet at the minimum between them, or leave a rest between them when that minimum is one. */
function toBells(profile: SpeedSegment, peaks: readonly number[], range: Range, rest: number): Submovement[] {
  const { speed } = profile;
  const last = range.end - 1;
  const valleys = peaks.slice(1).map((at, k) => lowestAt(speed, peaks[k]!, at));
  return peaks.map((at, k) => {
    // outside the first and the last peak the range may begin or end within another movement, on the far side of a rest
    const left = valleys[k - 1] ?? lowestAt(speed, range.start, at);
    const right = valleys[k] ?? lowestAt(speed, at, last);
    const earliest = valleys[k - 1] ?? range.start;
    const latest = valleys[k] ?? last;
    const rise = riseBefore(speed, at, earliest, RISE[0], RISE[1]);
    const fall = fallAfter(speed, at, latest + 1, FALL[0], FALL[1]);
    const level = Math.max(0.05 * speed[at]!, rest / 2);
    // where the valley is no rest the bells meet in it
    const from = speed[left]! > level ? left : Math.max(earliest, Math.min(rise.extrapolated, rise.crossing));
    const to = speed[right]! > level ? right : Math.min(latest, Math.max(fall.extrapolated, fall.crossing));
    return describe(profile, from, at, to);
  });
}

function describe(profile: SpeedSegment, from: number, at: number, to: number): Submovement {
  const time = (i: number): number => profile.t0 + i / profile.sampleRateHz;
  return {
    start: time(from),
    peak: time(at),
    end: time(to),
    peakSpeed: profile.speed[at]!,
    dx: valueAt(profile.x, to) - valueAt(profile.x, from),
    dy: valueAt(profile.y, to) - valueAt(profile.y, from),
  };
}

/** Index of the smallest value between two indices, both included. */
export function lowestAt(series: Float64Array, from: number, to: number): number {
  let low = from;
  let least = series[from]!;
  for (let i = from + 1; i <= to; i++) {
    const value = series[i]!;
    if (value >= least) continue;
    least = value;
    low = i;
  }
  return low;
}

/** Index of the largest value between two indices, both included. */
export function highestAt(series: Float64Array, from: number, to: number): number {
  let high = from;
  let largest = series[from]!;
  for (let i = from + 1; i <= to; i++) {
    const value = series[i]!;
    if (value <= largest) continue;
    largest = value;
    high = i;
  }
  return high;
}

/** A series at a fractional index, on the straight line between its neighbours. */
export function valueAt(series: Float64Array, index: number): number {
  const i = Math.min(Math.max(Math.floor(index), 0), series.length - 2);
  return series.length === 1 ? series[0]! : series[i]! + (index - i) * (series[i + 1]! - series[i]!);
}
