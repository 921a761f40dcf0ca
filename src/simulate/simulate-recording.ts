import { createRandom } from "../math/random.js";
import type { Mark, Press, Recording, Target, Trial } from "../trace/types.js";
import { composeMovement } from "./compose-movement.js";
import { centreAt } from "./draw-acquisition.js";
import { drawSchedule } from "./draw-schedule.js";
import { judgePress } from "./judge-press.js";
import type { SimulateRecordingOptions } from "./options.js";
import { resolveSettings } from "./resolve-settings.js";
import { samplePath, toQuantum } from "./sample-path.js";
import type { DrawnTarget, DrawnTrial } from "./schedule.js";
import { tellTruth } from "./tell-truth.js";
import { withTremor } from "./tremor.js";
import type { TrueMovement, TrueSequence, Truth } from "./truth.js";

/** How long the recorder runs on after the last trial, seconds. */
const RUN_ON = 0.3;

/** A recording and everything that was drawn to make it. */
export interface SimulatedRecording {
  readonly recording: Recording;
  readonly truth: Truth;
}

/**
 * Simulates one person acquiring targets, as a recorder would have written it down, together with the truth behind it.
 *
 * Each movement is a primary bell toward the target, corrections of the error that is left, and a press after the stop with a little slip;
 * tremor, time jitter, rounding and event-driven sampling come on top; a slow display makes the person answer later. For testing detectors, for planning how much to record, and for
 * examples. Left alone, the options give one cell of the recovery study that the library's detectors are held to. Cost O(samples).
 *
 * @param options - see `SimulateRecordingOptions`; lengths in simulated units (pixels, or `degreesPerUnit` degrees in a view), times in seconds
 * @returns the recording, and its `truth` as plain data: the options, and per movement its times (s), components and errors (the space's unit)
 * @throws TypeError or RangeError if an option has the wrong kind, lies outside its range, or leaves no room for the targets
 * @see from memory: minimum-jerk bells after Flash and Hogan, ex-Gaussian latencies, durations after Fitts' law
 * @example
 * ```ts
 * const { recording, truth } = simulateRecording({ seed: 7, movements: 20, sampleRateHz: 250 });
 * recording.trials.length // => 20
 * truth.movements.every((m) => m.onset! > m.go && m.press! > m.onset!) // => true
 * ```
 */
export function simulateRecording(options: SimulateRecordingOptions = {}): SimulatedRecording {
  const where = "simulateRecording";
  const settings = resolveSettings(where, options);
  const { world, trials } = drawSchedule(where, createRandom(settings.seed, 0), settings);
  const { frame, strokes, spells } = world;
  const hand = () => composeMovement(strokes, frame.middle.x, frame.middle.y);
  const pointer = () => withTremor(hand(), spells, settings.tremorAmplitude * frame.scale);
  const quantum = settings.recorder.quantum * frame.scale;
  const stamp = (t: number): number => toQuantum(t, settings.recorder.timeQuantum);

  const end = trials[trials.length - 1]!.tEnd + RUN_ON;
  const { sampleRateHz } = settings;
  const samples = samplePath(createRandom(settings.seed, 1), pointer(), end, {
    ...settings.recorder,
    sampleRateHz,
    quantum,
    limits: frame.limits,
  });

  const presses: Press[] = [];
  const movements: TrueMovement[] = [];
  const cursors = [hand(), pointer()] as const;
  const held = stays(samples.marks);
  const displayed = settings.display.refreshHz !== null || settings.display.latency > 0;
  trials.forEach((trial, i) => {
    trial.movements.forEach((movement) => {
      const judged = movement.presses.map((press) => judgePress(press, movement.target, frame, cursors[0], cursors[1], quantum));
      const idOf = (one: DrawnTarget): string => targetId(i, trial.targets.indexOf(one));
      const target = idOf(movement.target);
      const { toward } = movement.approach;
      for (const { t, tUp, at, inside } of judged) {
        presses.push({ t: stamp(t), tUp: stamp(tUp), by: "button", ...at, credited: inside ? target : null });
      }
      const edge = held(movement.plan?.onset ?? movement.go, movement.end);
      movements.push(tellTruth(trialId(i), target, toward && idOf(toward), movement, judged, frame, edge, displayed));
    });
  });
  const frames = world.sight.framesUntil(end, settings.recorder.timeQuantum);
  const recording: Recording = {
    schema: 1,
    space: settings.space.kind === "plane" ? { kind: "plane", unit: "px" } : { kind: "view", unit: "deg" },
    device: "simulated pointer",
    trace: samples.trace,
    presses,
    targets: trials.flatMap((trial, i) => targetsOf(trial, i, stamp)),
    trials: trials.map((trial, i) => trialOf(trial, i, settings.sequence !== 0, stamp)),
    marks: [...liftsOf(movements, stamp), ...samples.marks].sort((a, b) => a.t - b.t),
    ...(frames !== undefined && { frames }),
  };
  return {
    recording,
    truth: { seed: settings.seed, options: settings, movements, sequences: settings.sequence === 0 ? [] : trials.map(sequenceOf) },
  };
}

function sequenceOf({ policy, order, layout }: DrawnTrial, i: number): TrueSequence {
  return { trial: trialId(i), policy, order: order.map((j) => targetId(i, j)), ...(layout !== undefined && { layout }) };
}

/** Tells whether one of `marks` overlaps a stretch of time; asked in order of the stretches' beginnings. */
function stays(marks: readonly Mark[]): (from: number, to: number) => boolean {
  let next = 0;
  return (from, to) => {
    while (next < marks.length && marks[next]!.tEnd! < from) next++;
    return next < marks.length && marks[next]!.t <= to;
  };
}

function trialId(i: number): string {
  return `trial-${i + 1}`;
}

function targetId(i: number, j: number): string {
  return `target-${i + 1}-${j + 1}`;
}

function trialOf(trial: DrawnTrial, i: number, sequence: boolean, stamp: (t: number) => number): Trial {
  return {
    id: trialId(i),
    kind: sequence ? "sequence" : "acquire",
    tStart: stamp(trial.tStart),
    tEnd: stamp(trial.tEnd),
    goals: trial.targets.map((_, j) => targetId(i, j)),
    block: "1",
    condition: sequence ? {} : { width: trial.targets[0]!.width },
  };
}

function targetsOf(trial: DrawnTrial, i: number, stamp: (t: number) => number): Target[] {
  return trial.targets.map((target, j) => {
    const gone = trial.movements.find((movement) => movement.target === target)?.end ?? trial.tEnd;
    return {
      id: targetId(i, j),
      tShown: stamp(target.shown),
      tGone: stamp(gone),
      shape: { kind: "circle", diameter: target.width },
      at: placeOf(target, gone, stamp),
    };
  });
}

function placeOf(target: DrawnTarget, gone: number, stamp: (t: number) => number): Target["at"] {
  if (target.velocity.x === 0 && target.velocity.y === 0) return target.centre;
  const times = [stamp(target.shown), stamp(gone)];
  const places = times.map((t) => centreAt(target, t));
  return { t: Float64Array.from(times), x: Float64Array.from(places, ({ x }) => x), y: Float64Array.from(places, ({ y }) => y) };
}

function liftsOf(movements: readonly TrueMovement[], stamp: (t: number) => number): Mark[] {
  return movements.flatMap(({ components }) => {
    const [first, second] = components;
    if (second?.role !== "reach") return [];
    return [{ t: stamp(first!.onset + first!.duration), tEnd: stamp(second.onset), kind: "lift" }];
  });
}
