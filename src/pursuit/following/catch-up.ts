import { medianInPlace } from "../../math/median.js";
import { medianEstimate } from "../../math/median-estimate.js";
import { findPeaks } from "../../movement/bell/peaks.js";
import type { CatchUp, CatchUpSummary } from "../types.js";
import type { ErrorColumns } from "./error-of.js";
import { shiftBack } from "./shifted.js";
import type { Piece, Stretch } from "./stretch.js";
import { ratioOverUnits, sumUp } from "./units.js";

/** A bell stands out by this many noise floors of the device, */
const NOISE_LEVELS = 4;
/** and by this many medians of the speed beside steady following, most of which is the person's own noise. */
const MEDIANS = 3;
/** It must move the pointer by more than this many quanta. */
const QUANTA_MOVED = 2.5;
/** Bells closer than this are one, seconds. */
const SPACING = 0.06;
/** A bell begins and ends at this share of its height above what lies about it. */
const EDGE = 0.1;

/** What the detector needs beside the stretch. */
export interface CatchUpSettings {
  /** Noise of one velocity component, unit/s, and step of the readings. */
  readonly noise: number;
  readonly quantum: number;
  /** Samples by which the target is taken earlier. */
  readonly shift: number;
  readonly unit: string;
  readonly level: number;
}

/** Bells of speed beside steady following, which is the target `shift` samples earlier times a gain that bells hardly move: the weighted median of the ratios. */
export function catchUpSummary(stretch: Stretch, units: readonly Piece[], errors: ErrorColumns, settings: CatchUpSettings): CatchUpSummary {
  const { pieces, velocity, smooth, rate, t0 } = stretch;
  const { noise, quantum, shift, unit, level } = settings;
  const late = {
    vx: shiftBack(velocity.qx, pieces, shift),
    vy: shiftBack(velocity.qy, pieces, shift),
    x: shiftBack(smooth.qx, pieces, shift),
    y: shiftBack(smooth.qy, pieces, shift),
  };
  const { has } = late.x;
  const gain = steadyGain(stretch, late.vx.values, late.vy.values, has);
  const beside = (pointer: Float64Array, target: Float64Array): Float64Array => pointer.map((value, i) => value - gain * target[i]!);
  const restX = beside(smooth.px, late.x.values);
  const restY = beside(smooth.py, late.y.values);
  const ux = beside(velocity.px, late.vx.values);
  const uy = beside(velocity.py, late.vy.values);
  const speed = ux.map((value, i) => (has[i] === 1 ? Math.sqrt(value * value + uy[i]! * uy[i]!) : 0));
  const base = medianOf(speed, pieces, has);
  const least = Math.max(NOISE_LEVELS * noise, MEDIANS * base);
  const movements: CatchUp[] = [];
  const gaps: number[] = [];
  const path = new Float64Array(speed.length);
  let away = 0;
  for (const piece of pieces) {
    const from = firstWith(has, piece);
    const to = lastWith(has, piece);
    let before: number | undefined;
    for (const { start, peak, end } of bellsOf(speed, from, to, least, base, SPACING * rate)) {
      const dx = restX[end]! - restX[start]!;
      const dy = restY[end]! - restY[start]!;
      if (!(dx * dx + dy * dy > (QUANTA_MOVED * quantum) ** 2)) continue;
      // toward where the target was, that is against the error that could be seen
      const seenX = smooth.px[start]! - late.x.values[start]!;
      const seenY = smooth.py[start]! - late.y.values[start]!;
      if (dx * seenX + dy * seenY >= 0) {
        away++;
        continue;
      }
      const time = (i: number): number => t0 + i / rate;
      const error = Math.sqrt(errors.x[start]! ** 2 + errors.y[start]! ** 2);
      movements.push({ start: time(start), peak: time(peak), end: time(end), dx: dx + 0, dy: dy + 0, error });
      for (let i = start; i < end; i++) path[i] = speed[i]!;
      if (before !== undefined) gaps.push((start - before) / rate);
      before = start;
    }
  }
  const known = (i: number): boolean => has[i] === 1;
  const starts = new Uint8Array(speed.length);
  for (const { peak } of movements) starts[Math.round((peak - t0) * rate)] = 1;
  return {
    movements,
    away,
    rate: ratioOverUnits(
      sumUp(stretch, units, (i) => starts[i]! * rate, known),
      undefined,
      "positive",
      "1/s",
      level,
    ),
    amplitude: medianEstimate(
      movements.map(({ dx, dy }) => Math.sqrt(dx * dx + dy * dy)),
      unit,
      level,
    ),
    errorAtStart: medianEstimate(
      movements.map(({ error }) => error),
      unit,
      level,
    ),
    interval: medianEstimate(gaps, "s", level),
    smoothShare: smoothShare(stretch, units, path, known, level),
  };
}

/** Share of the pointer's path that is not made by bells. */
function smoothShare(stretch: Stretch, units: readonly Piece[], bells: Float64Array, known: (i: number) => boolean, level: number) {
  const { px, py } = stretch.velocity;
  const pathAt = (i: number): number => Math.sqrt(px[i]! * px[i]! + py[i]! * py[i]!);
  const whole = sumUp(stretch, units, pathAt, known);
  const smooth = sumUp(stretch, units, (i) => Math.max(0, pathAt(i) - bells[i]!), known);
  return ratioOverUnits(smooth, whole, "share", "1", level);
}

interface Bell {
  readonly start: number;
  readonly peak: number;
  readonly end: number;
}

/** Peaks of `[from, to)` that stand out by `least`, the higher of two too close to each other; they meet in the lowest point between them. */
export function bellsOf(speed: Float64Array, from: number, to: number, least: number, base: number, spacing: number): Bell[] {
  const { index, prominence } = findPeaks(speed, from, to);
  const kept: number[] = [];
  for (let k = 0; k < index.length; k++) {
    if (prominence[k]! < least) continue;
    const last = kept.at(-1);
    if (last === undefined || index[k]! - last >= spacing) kept.push(index[k]!);
    else if (speed[index[k]!]! > speed[last]!) kept[kept.length - 1] = index[k]!;
  }
  const valleys = kept.slice(1).map((at, k) => lowest(speed, kept[k]!, at));
  return kept.map((peak, k) => {
    const level = base + EDGE * (speed[peak]! - base);
    let start = peak;
    while (start > (valleys[k - 1] ?? from) && speed[start]! > level) start--;
    let end = peak;
    while (end < (valleys[k] ?? to - 1) && speed[end]! > level) end++;
    return { start, peak, end };
  });
}

function lowest(series: Float64Array, from: number, to: number): number {
  let low = from;
  for (let i = from + 1; i <= to; i++) if (series[i]! < series[low]!) low = i;
  return low;
}

/** Weighted median of pointer velocity over delayed target velocity along the latter, weights the target's speed. */
function steadyGain({ velocity, pieces }: Stretch, qx: Float64Array, qy: Float64Array, has: Uint8Array): number {
  const ratios: { ratio: number; weight: number }[] = [];
  let whole = 0;
  for (const { start, end } of pieces) {
    for (let i = start; i < end; i++) {
      const square = qx[i]! * qx[i]! + qy[i]! * qy[i]!;
      if (has[i] === 0 || square === 0) continue;
      const weight = Math.sqrt(square);
      ratios.push({ ratio: (velocity.px[i]! * qx[i]! + velocity.py[i]! * qy[i]!) / square, weight });
      whole += weight;
    }
  }
  ratios.sort((a, b) => a.ratio - b.ratio);
  let sum = 0;
  for (const { ratio, weight } of ratios) {
    sum += weight;
    if (sum >= whole / 2) return ratio;
  }
  return 1;
}

function medianOf(values: Float64Array, pieces: readonly Piece[], has: Uint8Array): number {
  const kept: number[] = [];
  for (const { start, end } of pieces) for (let i = start; i < end; i++) if (has[i] === 1) kept.push(values[i]!);
  return kept.length === 0 ? 0 : medianInPlace(Float64Array.from(kept));
}

function firstWith(has: Uint8Array, { start, end }: Piece): number {
  let i = start;
  while (i < end && has[i] === 0) i++;
  return i;
}

function lastWith(has: Uint8Array, { start, end }: Piece): number {
  let i = end;
  while (i > start && has[i - 1] === 0) i--;
  return i;
}
