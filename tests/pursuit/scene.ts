// Recordings of one pursuit written down by formula, without noise or rounding.
import type { Recording, Shape } from "../../src/trace/types.js";

interface Scene {
  readonly seconds: number;
  readonly target: (t: number) => { x: number; y: number; scale?: number };
  readonly pointer: (t: number) => { x: number; y: number };
  readonly rate?: number;
  /** Times besides the regular ones at which the track has a sample. */
  readonly corners?: readonly number[];
  readonly diameter?: number;
  readonly shape?: Shape;
  readonly start?: number;
  readonly space?: Recording["space"];
}

/** A trial of `seconds` with one target, every `1 / rate` seconds a sample of pointer and track. */
export function recordingOf(scene: Scene): Recording {
  const { seconds, target, pointer, rate = 200, corners = [], diameter = 60, start = 0, space = { kind: "plane", unit: "px" } } = scene;
  const n = Math.round(seconds * rate) + 1;
  const t = Float64Array.from({ length: n }, (_, k) => k / rate);
  const times = Float64Array.from(new Set([...t, ...corners])).sort();
  const scaled = target(0).scale !== undefined;
  const column = (from: Float64Array, value: (time: number) => number): Float64Array => from.map(value);
  return {
    schema: 1,
    space,
    device: "formula",
    trace: { t: column(t, (time) => time + start), x: column(t, (time) => pointer(time).x), y: column(t, (time) => pointer(time).y) },
    presses: [],
    targets: [
      {
        id: "moving",
        tShown: start,
        tGone: start + seconds,
        shape: scene.shape ?? { kind: "circle", diameter },
        at: {
          t: column(times, (time) => time + start),
          x: column(times, (time) => target(time).x),
          y: column(times, (time) => target(time).y),
          ...(scaled && { scale: column(times, (time) => target(time).scale!) }),
        },
      },
    ],
    trials: [{ id: "pursuit", kind: "pursue", tStart: start, tEnd: start + seconds, goals: ["moving"], block: "1", condition: {} }],
    marks: [],
  };
}
