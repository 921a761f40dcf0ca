import type { Random } from "../math/random.js";
import type { Mark, Trace } from "../trace/types.js";
import type { PathCursor } from "./compose-movement.js";
import { clamp, type Limits } from "./frame.js";

/** Stays at the border that are closer than this are one stay, seconds. */
const EDGE_PAUSE = 0.05;

/** How a path is recorded; lengths in the space's unit. */
export interface Recorder {
  readonly sampleRateHz: number;
  readonly timeJitterSd: number;
  readonly timeQuantum: number;
  readonly quantum: number;
  readonly eventsOnly: boolean;
  readonly dropShare: number;
  readonly mergeShare: number;
  readonly limits: Limits | undefined;
}

/** The samples, and a mark for every stay at the border. */
export interface Samples {
  readonly trace: Trace;
  readonly marks: Mark[];
}

/** Records `path` from time 0 to `end`. Cost O(samples); nothing is allocated per sample but the columns. */
export function samplePath(random: Random, path: PathCursor, end: number, recorder: Recorder): Samples {
  const { sampleRateHz, timeJitterSd, timeQuantum, quantum, limits } = recorder;
  const count = Math.floor(end * sampleRateHz) + 1;
  const t = new Float64Array(count);
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const marks: Mark[] = [];
  let rows = 0;
  let time = 0;
  let seenX = Number.NaN;
  let seenY = Number.NaN;
  let swallowed = false;
  for (let k = 0; k < count; k++) {
    time = Math.max(time, k / sampleRateHz + (timeJitterSd > 0 ? random.normal(0, timeJitterSd) : 0));
    path.moveTo(time);
    const heldX = limits === undefined ? path.x : clamp(path.x, limits.left, limits.right);
    const heldY = limits === undefined ? path.y : clamp(path.y, limits.top, limits.bottom);
    const stamp = toQuantum(time, timeQuantum);
    if (heldX !== path.x || heldY !== path.y) extendMark(marks, stamp);
    const sampleX = toQuantum(heldX, quantum);
    const sampleY = toQuantum(heldY, quantum);
    if (recorder.eventsOnly && sampleX === seenX && sampleY === seenY) continue;
    seenX = sampleX;
    seenY = sampleY;
    if (rows > 0 && recorder.dropShare > 0 && random.uniform() < recorder.dropShare) continue;
    // the row before is lost if it was to be merged and this one follows soon enough to be merged with
    if (swallowed && time - t[rows - 1]! < 2 / sampleRateHz) rows--;
    t[rows] = stamp;
    x[rows] = sampleX;
    y[rows] = sampleY;
    rows++;
    swallowed = rows > 1 && recorder.mergeShare > 0 && random.uniform() < recorder.mergeShare;
  }
  return { trace: { t: t.slice(0, rows), x: x.slice(0, rows), y: y.slice(0, rows) }, marks };
}

/** `value` rounded to a multiple of `quantum`; 0 leaves it. Never a negative zero, which text forms cannot carry. */
export function toQuantum(value: number, quantum: number): number {
  return quantum > 0 ? Math.round(value / quantum) * quantum + 0 : value;
}

function extendMark(marks: Mark[], t: number): void {
  const last = marks[marks.length - 1];
  if (last !== undefined && t - last.tEnd! <= EDGE_PAUSE) marks[marks.length - 1] = { ...last, tEnd: t };
  else marks.push({ t, tEnd: t, kind: "edge" });
}
