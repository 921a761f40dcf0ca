// Movements of the office-remote recordings that are fine enough to show any. There are no targets: what needs one is not measured.
import { detectSubmovements } from "../../src/movement/detect-submovements.js";
import { logDimensionlessJerk } from "../../src/movement/log-dimensionless-jerk.js";
import { type Movement, type Segmentation, segmentMovements } from "../../src/movement/segment-movements.js";
import { spectralArcLength } from "../../src/movement/spectral-arc-length.js";
import { kinematics } from "../../src/trace/kinematics.js";
import type { KinematicSegment } from "../../src/trace/uniform.js";
import { convertOfficeRemote, officeRemoteNames } from "../data/convert-office-remote.js";
import type { Measure } from "./measure.js";

/** A shorter way has no straightness to speak of, px. */
const STRAIGHT_FROM = 50;
/** Fewer samples have no smoothness to speak of. */
const LEAST_SAMPLES = 20;
/** Profile about a movement that its detector may look at, seconds. */
const AROUND = 0.05;

/** A movement with its own stretch of the filtered profile. */
export interface OfficeMovement {
  readonly movement: Movement;
  readonly displacement: number;
  readonly pathLength: number;
  readonly submovements: number;
  readonly spectralArcLength?: number;
  readonly logDimensionlessJerk?: number;
}

/** A recording that is fine enough. */
export interface OfficeRecording {
  readonly name: string;
  readonly segmentation: Segmentation;
  readonly movements: readonly OfficeMovement[];
}

/** The recordings whose rate allows movements to be found; none when the data are absent. */
export function officeRecordings(): OfficeRecording[] {
  return officeRemoteNames().flatMap((name) => {
    const { trace } = convertOfficeRemote(name);
    const segmentation = segmentMovements(trace);
    if (segmentation.status !== "ok") return [];
    const { segments, noiseFloor, quantum } = kinematics(trace);
    const movements = segmentation.movements.map((movement) => describe(segments, movement, noiseFloor.speed, quantum));
    return [{ name, segmentation, movements }];
  });
}

function describe(segments: readonly KinematicSegment[], movement: Movement, noiseFloor: number, quantum: number): OfficeMovement {
  const { onset, end, from, to } = movement;
  const segment = segments.find(
    ({ t0, x, sampleRateHz }) => t0 <= movement.peakTime && movement.peakTime <= t0 + (x.length - 1) / sampleRateHz,
  )!;
  const own = within(segment, onset, end);
  const around = within(segment, onset - AROUND, end + AROUND);
  const { sampleRateHz, speed, vx, vy, x, y } = own;
  let pathLength = 0;
  for (let i = 1; i < x.length; i++) pathLength += Math.hypot(x[i]! - x[i - 1]!, y[i]! - y[i - 1]!);
  const long = speed.length >= LEAST_SAMPLES;
  const arc = long ? spectralArcLength(speed, { sampleRateHz }) : undefined;
  const jerk = long ? logDimensionlessJerk({ x: vx, y: vy }, { sampleRateHz }) : undefined;
  return {
    movement,
    displacement: Math.hypot(to.x - from.x, to.y - from.y),
    pathLength,
    submovements: detectSubmovements(around, { noiseFloor, quantum }).submovements.length,
    ...(arc?.ok && { spectralArcLength: arc.value }),
    ...(jerk?.ok && { logDimensionlessJerk: jerk.value }),
  };
}

/** The samples of a profile within `[from, to]`. */
function within(segment: KinematicSegment, from: number, to: number): KinematicSegment {
  const { t0, sampleRateHz, x } = segment;
  const start = Math.max(0, Math.ceil((from - t0) * sampleRateHz));
  const end = Math.min(x.length, Math.floor((to - t0) * sampleRateHz) + 1);
  const cut = (column: Float64Array): Float64Array => column.slice(start, end);
  return {
    ...segment,
    t0: t0 + start / sampleRateHz,
    x: cut(x),
    y: cut(segment.y),
    vx: cut(segment.vx),
    vy: cut(segment.vy),
    speed: cut(segment.speed),
  };
}

/** What can be said of a movement without a target. */
export function officeMeasures(name: string): readonly Measure<OfficeMovement>[] {
  const measure = (what: string, unit: string, of: Measure<OfficeMovement>["of"], known?: string): Measure<OfficeMovement> => ({
    name: what.replace("/", `/office-remote ${name} `),
    unit,
    of,
    ...(known !== undefined && { known }),
  });
  return [
    measure("movement/duration", "s", ({ movement }) => movement.end - movement.onset),
    measure("movement/peak speed", "px/s", ({ movement }) => movement.peakSpeed),
    measure("corrections/submovements per movement", "1", (m) => m.submovements, "2 to 3 in mouse pointing (from memory)"),
    measure(
      "stopping/deceleration share",
      "1",
      ({ movement }) => (movement.end - movement.peakTime) / (movement.end - movement.onset),
      "0.5 for minimum jerk, 0.5 to 0.7 in aimed movements (from memory)",
    ),
    measure("economy/path efficiency from 50 px", "1", ({ displacement, pathLength }) =>
      displacement >= STRAIGHT_FROM && pathLength > 0 ? displacement / pathLength : undefined,
    ),
    measure("economy/spectral arc length", "1", (m) => m.spectralArcLength, "-1.41 for one minimum-jerk stroke (computed)"),
    measure("economy/log dimensionless jerk", "1", (m) => m.logDimensionlessJerk, "-5.32 for minimum jerk (closed form)"),
  ];
}
