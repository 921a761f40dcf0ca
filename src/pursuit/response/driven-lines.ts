import { fourierPlan, type Spectrum } from "../../math/fourier.js";
import type { ResponseLine, ResponseLines } from "./response-line.js";

/** How far a line may be from a whole number of periods in the record, in periods: its neighbours then hold less than a ten-thousandth of it. */
const WHOLE = 1e-4;
/** Undriven neighbours read on either side of a line, and how far they may lie. */
const NEIGHBOURS = 8;
const FARTHEST = 16;
/** Fewer neighbours than this in all do not tell the noise. */
const FEWEST_NEIGHBOURS = 4;
/** A line with a smaller share of the largest line's size is not in the target. */
const LEAST_DRIVE = 1e-6;

/**
 * The longest stretch, in samples, not above `length` that holds a whole number of periods of every line, with the number of times the whole pattern
 * repeats in it; `undefined` when there is none.
 */
export function wholePeriods(
  length: number,
  sampleRateHz: number,
  drivenHz: readonly number[],
): { readonly size: number; readonly cycles: readonly number[]; readonly periods: number } | undefined {
  const lowest = Math.min(...drivenHz);
  for (let size = length; size * lowest > sampleRateHz * (1 - WHOLE); size--) {
    const cycles = drivenHz.map((hz) => (hz * size) / sampleRateHz);
    if (cycles.some((cycle) => Math.abs(cycle - Math.round(cycle)) > WHOLE)) continue;
    const whole = cycles.map(Math.round);
    return { size, cycles: whole, periods: whole.reduce(greatestDivisor) };
  }
  return undefined;
}

/**
 * The driven lines over whole periods at the end of the record. A known target has no error of its own; what the pointer does beside it is read at
 * the neighbouring frequencies that are not driven.
 */
export function drivenLines(
  target: Float64Array,
  pointer: Float64Array,
  sampleRateHz: number,
  whole: NonNullable<ReturnType<typeof wholePeriods>>,
  level: number,
): ResponseLines {
  const { size, cycles, periods } = whole;
  const plan = fourierPlan(size);
  const q = plan(centred(target.subarray(target.length - size)));
  const p = plan(centred(pointer.subarray(pointer.length - size)));
  const driven = new Set(cycles);
  const largest = Math.max(...cycles.map((m) => powerAt(q, m)));
  const lines = cycles.map((m): ResponseLine => {
    const noise = besides(p, m, driven);
    const drive = powerAt(q, m);
    const answer = powerAt(p, m);
    const isDriven = drive > LEAST_DRIVE * LEAST_DRIVE * largest;
    const told = noise.count >= FEWEST_NEIGHBOURS;
    const coherence = told ? shareOf(answer / noise.mean, periods) : 0;
    const chanceLevel = told ? shareOf(chanceRatio(noise.count, level), periods) : 1;
    return {
      hz: (m * sampleRateHz) / size,
      gain: isDriven ? Math.sqrt(answer / drive) : 0,
      phase: Math.atan2(p.im[m]! * q.re[m]! - p.re[m]! * q.im[m]!, p.re[m]! * q.re[m]! + p.im[m]! * q.im[m]!),
      coherence,
      chanceLevel,
      aboveChance: isDriven && coherence > chanceLevel,
      error: isDriven && told ? Math.sqrt(noise.mean / drive / 2) : Number.POSITIVE_INFINITY,
      df: 2 * noise.count,
    };
  });
  return { lines, segments: periods, independent: periods, linesPerIndependent: 1, segment: size / periods / sampleRateHz };
}

/**
 * Coherence that segments of one period would show, from the power of the answer over that of the noise in all periods together: what answers adds up over
 * the periods by size, noise by power. It so does not depend on how long the record is.
 */
function shareOf(ratio: number, periods: number): number {
  if (ratio === Number.POSITIVE_INFINITY) return 1;
  const above = Math.max(0, ratio - 1);
  return above / (above + periods);
}

/** What answer over noise stays below by chance: Fisher's F with 2 and 2 count degrees of freedom, whose tail is a power. */
function chanceRatio(count: number, level: number): number {
  return count * ((1 - level) ** (-1 / count) - 1);
}

/** Mean power of the undriven neighbours of a line. */
function besides(spectrum: Spectrum, line: number, driven: ReadonlySet<number>): { mean: number; count: number } {
  let sum = 0;
  let count = 0;
  for (const side of [-1, 1]) {
    let taken = 0;
    for (let away = 1; away <= FARTHEST && taken < NEIGHBOURS; away++) {
      const at = line + side * away;
      // half the sampling rate has one part only
      if (at < 1 || at > spectrum.re.length - 2 || driven.has(at)) continue;
      sum += powerAt(spectrum, at);
      taken++;
    }
    count += taken;
  }
  return { mean: count > 0 ? sum / count : 0, count };
}

function powerAt({ re, im }: Spectrum, bin: number): number {
  return re[bin]! * re[bin]! + im[bin]! * im[bin]!;
}

function centred(values: Float64Array): Float64Array {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return values.map((value) => value - mean);
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}
