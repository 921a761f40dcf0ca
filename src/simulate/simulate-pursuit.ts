import { createRandom } from "../math/random.js";
import type { Recording, Target, Trial } from "../trace/types.js";
import { type Following, follow, STEP, STEPS_PER_SECOND, type Steps } from "./pursuit/follow.js";
import type { PursuitSettings, SimulatePursuitOptions } from "./pursuit/options.js";
import { resolvePursuit } from "./pursuit/resolve-pursuit.js";
import { type PathPiece, steppedPath } from "./pursuit/stepped-path.js";
import { drawTargetPath, type TargetPath } from "./pursuit/target-path.js";
import { type TrialFrame, trialFrame } from "./pursuit/trial-frame.js";
import type { PursuitTruth, TruePursuit } from "./pursuit/truth.js";
import { samplePath, toQuantum } from "./sample-path.js";

/** How long the recorder runs on after the last trial, seconds. */
const RUN_ON = 0.3;

/** A recording of following moving targets, and everything that was drawn to make it. */
export interface SimulatedPursuit {
  readonly recording: Recording;
  readonly truth: PursuitTruth;
}

/** One trial with all that belongs to it. */
interface DrawnPursuit {
  readonly tStart: number;
  readonly tEnd: number;
  readonly path: TargetPath;
  readonly scaleAt: (t: number) => number;
  readonly frame: TrialFrame;
  readonly following: Following;
}

/**
 * Simulates one person following moving targets, as a recorder would have written it down, together with the truth behind it.
 *
 * Each trial shows one target. The pointer reaches it, then follows: the target's path some time ago, times a gain, through a first-order lag. When
 * the error it sees exceeds a dead zone, and no catch-up movement began within the refractory time, a minimum-jerk bell takes the error off. Noise
 * of a low band comes on top, then time jitter, rounding and event-driven sampling. The track has the target's place once a frame.
 * Cost O(seconds + samples).
 *
 * @param options - see `SimulatePursuitOptions`; lengths in simulated units (pixels, or `degreesPerUnit` degrees in a view), times in seconds
 * @returns the recording, with trials of the kind `"pursue"`, and its `truth` as plain data: delay, gain, reversals, bells and noise
 * @throws TypeError or RangeError if an option has the wrong kind or lies outside its range, or a view's target leaves 80 degrees of elevation
 * @see intermittent pursuit with a dead zone and a refractory time after Miall, Weir and Stein 1993 (recalled)
 * @example
 * ```ts
 * const { recording, truth } = simulatePursuit({ seed: 3, duration: 20, target: { path: "randomWalk" } });
 * recording.trials[0]!.kind // => "pursue"
 * truth.trials[0]!.reversals.length // => 17
 * ```
 */
export function simulatePursuit(options: SimulatePursuitOptions = {}): SimulatedPursuit {
  const where = "simulatePursuit";
  const settings = resolvePursuit(where, options);
  const { seed, sampleRateHz, display, follower, recorder } = settings;
  const frameLag = display.hold ? 0.5 / display.frameHz : 0;
  const delay = follower.delay + display.latency + frameLag;
  const { trials: drawn, pieces, start } = drawTrials(where, settings, delay);
  const stamp = (t: number): number => toQuantum(t, recorder.timeQuantum);

  const end = drawn.at(-1)!.tEnd + RUN_ON;
  const { scale } = drawn[0]!.frame;
  const samples = samplePath(createRandom(seed, 1), steppedPath(pieces, start.x, start.y), end, {
    ...recorder,
    sampleRateHz,
    quantum: recorder.quantum * scale,
    limits: undefined,
  });
  const recording: Recording = {
    schema: 1,
    space: settings.space.kind === "plane" ? { kind: "plane", unit: "px" } : { kind: "view", unit: "deg" },
    device: "simulated pointer",
    trace: samples.trace,
    presses: [],
    targets: drawn.map((trial, i) => targetOf(trial, i, settings, stamp)),
    trials: drawn.map((trial, i) => trialOf(trial, i, stamp)),
    marks: samples.marks,
    frames: Float64Array.from({ length: Math.floor(end * display.frameHz) + 1 }, (_, k) => stamp(k / display.frameHz)),
  };
  return { recording, truth: { seed, options: settings, delay, frameLag, trials: drawn.map(truthOf) } };
}

/** Draws one trial after the other; the pointer rests in between where it was left, and at first in the middle of the field. */
function drawTrials(
  where: string,
  settings: PursuitSettings,
  delay: number,
): { trials: DrawnPursuit[]; pieces: PathPiece[]; start: { x: number; y: number } } {
  const { seed, target, duration } = settings;
  const draws = createRandom(seed, 0);
  const noise = createRandom(seed, 2);
  const bells = createRandom(seed, 3);
  const trials: DrawnPursuit[] = [];
  const pieces: PathPiece[] = [];
  const centre = { x: Float64Array.of(0), y: Float64Array.of(0), scale: Float64Array.of(1) };
  const start = trialFrame(where, settings, centre).toSpace(0, { x: 0, y: 0 });
  let rest = start;
  let now = 0;
  for (let i = 0; i < settings.trials; i++) {
    const startStep = Math.ceil((now + draws.uniform(...settings.pause)) * STEPS_PER_SECOND);
    const tStart = startStep * STEP;
    const path = drawTargetPath(draws, target, duration);
    const scaleAt = drawScale(draws.uniform(0, 2 * Math.PI), settings);
    const steps = onSteps(path, scaleAt, duration);
    const frame = trialFrame(where, settings, steps);
    const held = rest;
    const following = follow(steps, (k) => frame.toField(k, held), settings, delay, noise, bells);
    const n = following.x.length;
    const x = new Float64Array(n);
    const y = new Float64Array(n);
    for (let k = 0; k < n; k++) {
      const place = frame.toSpace(k, { x: following.x[k]!, y: following.y[k]! });
      x[k] = place.x;
      y[k] = place.y;
    }
    pieces.push({ start: startStep, x, y });
    rest = { x: x[n - 1]!, y: y[n - 1]! };
    now = tStart + duration;
    trials.push({ tStart, tEnd: now, path, scaleAt, frame, following });
  }
  return { trials, pieces, start };
}

/** The factor on the target's size: its logarithm goes to and fro as a sinusoid. */
function drawScale(phase: number, { target: { scale, scaleHz } }: PursuitSettings): (t: number) => number {
  const [low, high] = scale;
  const middle = Math.sqrt(low * high);
  const swing = Math.log(high / low) / 2;
  return (t) => middle * Math.exp(swing * Math.sin(2 * Math.PI * scaleHz * t + phase));
}

function onSteps(path: TargetPath, scaleAt: (t: number) => number, duration: number): Steps {
  const n = Math.round(duration * STEPS_PER_SECOND) + 1;
  const steps = { x: new Float64Array(n), y: new Float64Array(n), scale: new Float64Array(n) };
  for (let k = 0; k < n; k++) {
    const place = path.at(k * STEP);
    steps.x[k] = place.x;
    steps.y[k] = place.y;
    steps.scale[k] = scaleAt(k * STEP);
  }
  return steps;
}

function targetOf(trial: DrawnPursuit, i: number, { target, display }: PursuitSettings, stamp: (t: number) => number): Target {
  const { tStart, tEnd, path, scaleAt, frame } = trial;
  const { frameHz } = display;
  // from the last frame before the trial to the first one after it
  const first = Math.floor(tStart * frameHz);
  const n = Math.ceil(tEnd * frameHz) - first + 1;
  const t = new Float64Array(n);
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const scale = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const time = Math.min(Math.max((first + k) / frameHz, tStart), tEnd);
    const inside = (time - tStart) * STEPS_PER_SECOND;
    const step = Math.floor(inside);
    const place = frame.targetAt(step, inside - step, path.at(time - tStart));
    t[k] = stamp(time);
    x[k] = place.x;
    y[k] = place.y;
    scale[k] = scaleAt(time - tStart);
  }
  const fixed = target.scale[0] === target.scale[1] && target.scale[0] === 1;
  return {
    id: `target-${i + 1}`,
    tShown: stamp(tStart),
    tGone: stamp(tEnd),
    shape: { kind: "circle", diameter: frame.scale * target.diameter },
    at: { t, x, y, ...(fixed ? {} : { scale }) },
  };
}

function trialOf({ tStart, tEnd }: DrawnPursuit, i: number, stamp: (t: number) => number): Trial {
  return {
    id: `trial-${i + 1}`,
    kind: "pursue",
    tStart: stamp(tStart),
    tEnd: stamp(tEnd),
    goals: [`target-${i + 1}`],
    block: "1",
    condition: {},
  };
}

function truthOf({ tStart, tEnd, path, frame, following }: DrawnPursuit, i: number): TruePursuit {
  const { scale } = frame;
  const { legs, lines } = path;
  return {
    trial: `trial-${i + 1}`,
    target: `target-${i + 1}`,
    tStart,
    tEnd,
    reachStart: tStart + following.reachStart,
    reachEnd: tStart + following.reachEnd,
    lines: lines.map((line) => ({ ...line, amplitude: scale * line.amplitude })),
    reversals: legs.slice(1).map(({ t, vx, vy }, k) => ({
      t: tStart + t,
      before: { x: scale * legs[k]!.vx, y: scale * legs[k]!.vy },
      after: { x: scale * vx, y: scale * vy },
    })),
    catchUps: following.bells.map(({ onset, duration, displacement, error }) => ({
      onset: tStart + onset,
      duration,
      dx: scale * displacement.x,
      dy: scale * displacement.y,
      error: scale * Math.sqrt(error.x * error.x + error.y * error.y),
    })),
    noiseSd: scale * following.noiseSd,
  };
}
