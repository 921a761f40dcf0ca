// The chain from samples to speed written out by its definitions, slow and without tricks: a second opinion on the loops of src/trace.
import { fc } from "@fast-check/vitest";
import type { Trace } from "../../src/trace/types.js";

/** Sums from the first entry to each. */
export function runningTotals(steps: readonly number[]): number[] {
  let total = 0;
  return steps.map((step) => {
    total += step;
    return total;
  });
}

/** Rows of time and position from steps of milliseconds and quanta. */
export function rowsFrom(steps: readonly (readonly [dt: number, dx: number, dy: number])[], perSecond = 1000): [number, number, number][] {
  const [ms, x, y] = ([0, 1, 2] as const).map((k) => runningTotals(steps.map((step) => step[k])));
  return steps.map((_, i) => [ms![i]! / perSecond, x![i]!, y![i]!]);
}

/** Straight lines between samples, each read by looking through all of them; of samples with one time the last counts. */
export function plainLinear(t: readonly number[], values: readonly number[], at: readonly number[]): number[] {
  const knots = t.map((time, i) => [time, values[i]!] as const).filter(([time], i) => t[i + 1] !== time);
  return at.map((time) => {
    const after = knots.findIndex(([knot]) => knot > time);
    if (after === -1) return knots[knots.length - 1]![1];
    if (after === 0) return knots[0]![1];
    const [[t0, from], [t1, to]] = [knots[after - 1]!, knots[after]!];
    const share = (time - t0) / (t1 - t0);
    return from * (1 - share) + to * share;
  });
}

/**
 * Second-order Butterworth filter forward and back: the analogue prototype wc^2 / (s^2 + sqrt(2) wc s + wc^2) with s = k (1 - 1/z) / (1 + 1/z), run in
 * direct form 1 over the series extended by `pad` samples of odd reflection, as if its first value had lasted for ever.
 */
export function plainLowpass(series: readonly number[], sampleRateHz: number, designHz: number, pad: number): number[] {
  const k = 2 * sampleRateHz;
  const wc = k * Math.tan((Math.PI * designHz) / sampleRateHz);
  const a0 = k * k + Math.SQRT2 * wc * k + wc * wc;
  const a1 = (2 * wc * wc - 2 * k * k) / a0;
  const a2 = (k * k - Math.SQRT2 * wc * k + wc * wc) / a0;
  const b = (wc * wc) / a0;
  const n = series.length;
  const at = (i: number): number => {
    if (i < 0) return 2 * series[0]! - series[-i]!;
    return i < n ? series[i]! : 2 * series[n - 1]! - series[2 * n - 2 - i]!;
  };
  let values = Array.from({ length: n + 2 * pad }, (_, i) => at(i - pad));
  for (let pass = 0; pass < 2; pass++) {
    const out: number[] = [];
    const first = values[0]!;
    for (let i = 0; i < values.length; i++) {
      const x = (j: number): number => (j < 0 ? first : values[j]!);
      const y = (j: number): number => (j < 0 ? first : out[j]!);
      out.push(b * (x(i) + 2 * x(i - 1) + x(i - 2)) - a1 * y(i - 1) - a2 * y(i - 2));
    }
    values = out.reverse();
  }
  return values.slice(pad, pad + n);
}

/** Frequency to design one of two passes for, so that both together are 3 dB down at `cutoffHz`. */
export function designFor(cutoffHz: number, sampleRateHz: number): number {
  return (sampleRateHz / Math.PI) * Math.atan(Math.tan((Math.PI * cutoffHz) / sampleRateHz) / (Math.SQRT2 - 1) ** 0.25);
}

/** Central differences, one-sided at the ends. */
export function plainGradient(series: readonly number[], sampleRateHz: number): number[] {
  return series.map((_, i) => {
    const before = Math.max(0, i - 1);
    const after = Math.min(series.length - 1, i + 1);
    return ((series[after]! - series[before]!) * sampleRateHz) / (after - before);
  });
}

/** Rows as a trace. */
export const columns = (rows: readonly (readonly [number, number, number])[]): Trace => ({
  t: Float64Array.from(rows, ([t]) => t),
  x: Float64Array.from(rows, ([, x]) => x),
  y: Float64Array.from(rows, ([, , y]) => y),
});
/** Short rows on a fine grid of time, in small whole steps. */
export const rowsArb = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 1500 }), fc.integer({ min: -2, max: 2 }), fc.integer({ min: -2, max: 2 })), { maxLength: 40 })
  .map((steps) => rowsFrom(steps, 1024));
