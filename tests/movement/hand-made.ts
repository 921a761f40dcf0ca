// Small recordings made by hand, with every instant known: minimum-jerk strokes, circles, presses.
import type { Press, Recording, Target, Trace, Trial } from "../../src/trace/types.js";

/** A displacement along a minimum-jerk bell. */
export interface Stroke {
  readonly onset: number;
  readonly duration: number;
  readonly dx: number;
  readonly dy?: number;
}

/** Share of a minimum-jerk stroke's way at the share `s` of its time (closed form, Flash and Hogan 1985, from memory). */
export function share(s: number): number {
  if (s <= 0) return 0;
  return s >= 1 ? 1 : s ** 3 * (10 + s * (6 * s - 15));
}

export interface TraceOptions {
  /** Time of the last sample, seconds; default 2. */
  readonly until?: number;
  /** Default 1000. */
  readonly rateHz?: number;
  /** Positions are rounded to multiples of it; default 0: exact. */
  readonly quantum?: number;
  readonly from?: { readonly x: number; readonly y: number };
}

/** An evenly sampled path of strokes that begins at rest. */
export function traceOf(
  strokes: readonly Stroke[],
  { until = 2, rateHz = 1000, quantum = 0, from = { x: 0, y: 0 } }: TraceOptions = {},
): Trace {
  const t = Float64Array.from({ length: Math.round(until * rateHz) + 1 }, (_, k) => k / rateHz);
  const round = (value: number): number => (quantum > 0 ? Math.round(value / quantum) * quantum : value);
  const along = (key: "dx" | "dy", start: number): Float64Array =>
    t.map((time) =>
      round(strokes.reduce((sum, stroke) => sum + (stroke[key] ?? 0) * share((time - stroke.onset) / stroke.duration), start)),
    );
  return { t, x: along("dx", from.x), y: along("dy", from.y) };
}

/** A press of 0.08 s. */
export function press(t: number, more: Partial<Press> = {}): Press {
  return { t, tUp: t + 0.08, by: "button", ...more };
}

/** A standing circle. */
export function circle(id: string, x: number, y: number, diameter: number, more: Partial<Target> = {}): Target {
  return { id, tShown: 0, shape: { kind: "circle", diameter }, at: { x, y }, ...more };
}

/** A trial with these goals. */
export function trial(goals: readonly string[], tStart: number, tEnd: number | undefined, more: Partial<Trial> = {}): Trial {
  const end = tEnd === undefined ? {} : { tEnd };
  return { id: "trial", kind: goals.length > 1 ? "sequence" : "acquire", tStart, ...end, goals, block: "1", condition: {}, ...more };
}

/** A recording in a plane unless said otherwise. */
export function recordingOf(parts: Partial<Recording>): Recording {
  const empty = { t: new Float64Array(0), x: new Float64Array(0), y: new Float64Array(0) };
  const space = { kind: "plane", unit: "px" } as const;
  return { schema: 1, space, device: "by hand", trace: empty, presses: [], targets: [], trials: [], marks: [], ...parts };
}

/** One movement of 300 px to the right to a circle of 30 px shown at 0.2 s: latency 0.25 s, movement 0.3 s, press 0.1 s after it. */
export const REACH: Recording = recordingOf({
  trace: traceOf([{ onset: 0.45, duration: 0.3, dx: 300 }]),
  presses: [press(0.85)],
  targets: [circle("a", 300, 0, 30, { tShown: 0.2 })],
  trials: [trial(["a"], 0.2, 1.5)],
});
