// Simulated recordings with everything out of the ordinary switched on, and recordings moved about, for property tests of the rows.
import { fc } from "@fast-check/vitest";
import type { Acquisition } from "../../src/movement/types.js";
import { type SimulateRecordingOptions, simulateRecording } from "../../src/simulate/index.js";
import type { Mark, Press, Recording, Shape, Target, Trace, Track, Trial } from "../../src/trace/types.js";

/** Options of the simulator: any rate, plane and view, standing and moving targets, sequences, every case, drops, merges and edges. */
const optionsArb: fc.Arbitrary<SimulateRecordingOptions> = fc
  .record({
    seed: fc.integer({ min: 1, max: 1_000_000 }),
    sampleRateHz: fc.constantFrom(60, 125, 250, 500, 1000),
    view: fc.constantFrom("plane", 0, 35),
    sequence: fc.constantFrom(0, 0, 3),
    moving: fc.boolean(),
    recorder: fc.record({
      dropShare: fc.constantFrom(0, 0.05),
      mergeShare: fc.constantFrom(0, 0.2),
      timeQuantum: fc.constantFrom(0, 0.001),
      edges: fc.constantFrom(null, { width: 2400, height: 1400 }),
      eventsOnly: fc.boolean(),
    }),
    pause: fc.constantFrom([0, 0] as const, [0.4, 0.8] as const),
  })
  .map(({ seed, sampleRateHz, view, sequence, moving, recorder, pause }): SimulateRecordingOptions => {
    // none of these is made with moving targets
    const plain = sequence === 0 && !moving;
    return {
      seed,
      movements: 8,
      sampleRateHz,
      sequence,
      pause,
      space: view === "plane" ? { kind: "plane" } : { kind: "view", elevation: view as number },
      targets: moving ? { speed: [50, 200], bounds: { width: 4000, height: 4000 } } : {},
      cases: { timeout: 0.1, noMovement: plain ? 0.1 : 0, anticipation: 0.15, clutch: moving ? 0 : 0.15, retry: moving ? 0 : 0.6 },
      press: { earlyShare: 0.15 },
      recorder: { ...recorder, edges: view === "plane" ? recorder.edges : null },
    };
  });

export const simulatedArb: fc.Arbitrary<ReturnType<typeof simulateRecording>> = optionsArb.map(simulateRecording);

/** How a recording is moved: every time, every point, every size. */
export interface Move {
  readonly time?: (t: number) => number;
  readonly point?: (x: number, y: number) => readonly [number, number];
  readonly size?: number;
}

/** The same recording elsewhere. Rectangles are not turned: the simulator makes circles. */
export function moved(recording: Recording, { time = (t) => t, point = (x, y) => [x, y], size = 1 }: Move): Recording {
  const trace = <T extends Trace | Track>(path: T): T => ({
    ...path,
    t: path.t.map(time),
    x: path.x.map((x, i) => point(x, path.y[i])[0]),
    y: path.y.map((y, i) => point(path.x[i], y)[1]),
  });
  const ends = <T extends Press | Target | Trial | Mark>(entry: T): T =>
    Object.fromEntries(
      Object.entries(entry).map(([key, value]) => [key, /^t([A-Z]|$)/.test(key) && typeof value === "number" ? time(value) : value]),
    ) as never;
  const place = (at: Target["at"]): Target["at"] => {
    if ("t" in at) return trace(at);
    const [x, y] = point(at.x, at.y);
    return { x, y };
  };
  const grown = (shape: Shape): Shape =>
    shape.kind === "circle"
      ? { ...shape, diameter: size * shape.diameter }
      : { ...shape, width: size * shape.width, height: size * shape.height };
  return {
    ...recording,
    trace: trace(recording.trace),
    presses: recording.presses.map((press) => {
      if (press.x === undefined || press.y === undefined) return ends(press);
      const [x, y] = point(press.x, press.y);
      return { ...ends(press), x, y };
    }),
    targets: recording.targets.map((target) => ({ ...ends(target), at: place(target.at), shape: grown(target.shape) })),
    trials: recording.trials.map(ends),
    marks: recording.marks.map(ends),
  };
}

/** Every number of a row by its path, for comparisons with a tolerance; the rest as it is. */
export function figuresOf(row: Acquisition): { numbers: Record<string, number>; rest: Record<string, unknown> } {
  const numbers: Record<string, number> = {};
  const rest: Record<string, unknown> = {};
  const walk = (value: unknown, path: string): void => {
    if (typeof value === "number") numbers[path] = value;
    else if (value === null || typeof value !== "object") rest[path] = value;
    else for (const [key, entry] of Object.entries(value)) walk(entry, path === "" ? key : `${path}.${key}`);
  };
  walk(row, "");
  return { numbers, rest };
}

/** Freezes an input as deep as it goes; columns cannot be frozen and are compared with `copyOf` it instead. */
export function deepFreeze<T>(value: T): T {
  if (value === null || typeof value !== "object" || ArrayBuffer.isView(value)) return value;
  for (const entry of Object.values(value)) deepFreeze(entry);
  return Object.freeze(value);
}
