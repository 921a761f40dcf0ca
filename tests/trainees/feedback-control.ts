// A second kind of invented trainee, for judging what is measured by something other than the bells the detectors were made with. The hand is a
// point mass on a damped spring whose rest the command moves through two muscle filters. The first command is sent off blindly, with an error of
// its own; what is seen of the hand is old by the visual delay and the display; a forecast of the hand's own motion bridges the delay, and
// corrections follow while the end it predicts misses. The button is pressed once the hand is seen at rest on the target.
// Recalled: equilibrium-point control after Feldman, intermittent visual correction after Craik, bridging a delay with a forecast after Smith.
import { createRandom } from "../../src/math/random.js";
import type { Vector } from "../../src/simulate/index.js";
import { type Disc, placeTarget } from "../../src/simulate/place-target.js";
import { steppedPath } from "../../src/simulate/pursuit/stepped-path.js";
import { samplePath, toQuantum } from "../../src/simulate/sample-path.js";
import { sightOf } from "../../src/simulate/sight.js";
import type { Press, Recording, Target, Trial } from "../../src/trace/types.js";
import { type Acquired, acquire, type Body, type Path, rest } from "./feedback-control-acquire.js";
import { restingAt, STEP } from "./feedback-control-hand.js";
import { type FeedbackOptions, type FeedbackSettings, resolveFeedback } from "./feedback-control-options.js";

export type { FeedbackOptions, FeedbackSettings } from "./feedback-control-options.js";

const QUANTUM = 1;
const TIME_JITTER = 0.0005;
/** Streams of a seed: 0 plans, 1 records, 3 is the display's; looks have one for each movement, so that more of them leave the next movement as it is. */
const FORCE_STREAM = 4;
const FIRST_SIGHT_STREAM = 100;
/** Steps before the first target and after the last release. */
const BEFORE = 500;
const RUN_ON = 300;

/** One acquisition as it came about; seconds and units. */
export interface FeedbackMovement {
  readonly trial: string;
  readonly target: string;
  readonly go: number;
  /** When the target was seen, and when the first command was sent off; the hand follows 0.02 to 0.04 s after that. */
  readonly seen: number;
  readonly command: number;
  readonly corrections: readonly { readonly t: number; readonly dx: number; readonly dy: number }[];
  /** Error of the first command's end, in the frame of the movement (across: to the left of travel on a y-down screen). */
  readonly primaryError: { readonly along: number; readonly across: number };
  /** Absent when time ran out. */
  readonly press?: number;
  readonly tUp?: number;
  readonly outcome: "hit" | "miss" | "timeout";
  readonly amplitude: number;
  readonly width: number;
}

export interface SimulatedFeedback {
  readonly recording: Recording;
  readonly truth: { readonly seed: number; readonly options: FeedbackSettings; readonly movements: readonly FeedbackMovement[] };
}

/** One person acquiring standing targets under delayed feedback control, recorded as `simulateRecording` does, and the truth of it. */
export function simulateFeedbackRecording(options: FeedbackOptions = {}): SimulatedFeedback {
  const settings = resolveFeedback(options);
  const { seed, movements, targets, pause, display } = settings;
  const random = createRandom(seed, 0);
  const sight = sightOf(seed, display);
  const shownAt = (k: number): number => k + Math.ceil(sight.delayAt(k * STEP) / STEP);
  const lit = lightSource(sight.delayAt, display);
  const middle = { x: targets.bounds.width / 2, y: targets.bounds.height / 2 };
  const body: Body = {
    hand: [restingAt(middle.x), restingAt(middle.y)],
    forecast: [restingAt(middle.x), restingAt(middle.y)],
    command: { ...middle },
    meant: { ...middle },
    unsteady: createRandom(seed, FORCE_STREAM),
  };
  const path: Path = { x: [middle.x], y: [middle.y], offX: [0], offY: [0] };

  const drawn: { go: number; start: Vector; disc: Disc; acquired: Acquired }[] = [];
  rest(settings, body, path, BEFORE);
  for (let i = 0; i < movements; i++) {
    const go = path.x.length;
    const start = { x: body.hand[0].position, y: body.hand[1].position };
    const place = placeTarget("simulateFeedbackRecording", random, targets, { x: start.x - middle.x, y: start.y - middle.y }, []);
    const disc = { ...place, x: place.x + middle.x, y: place.y + middle.y };
    Object.assign(body.meant, body.command);
    for (const axis of [0, 1] as const) Object.assign(body.forecast[axis], body.hand[axis]);
    const acquired = acquire(random, settings, body, path, {
      go,
      shown: shownAt(go),
      centre: disc,
      width: disc.width,
      lit,
      sight: createRandom(seed, FIRST_SIGHT_STREAM + i),
    });
    drawn.push({ go, start, disc, acquired });
    rest(settings, body, path, acquired.up + Math.round(random.uniform(pause[0], pause[1]) / STEP));
  }
  rest(settings, body, path, path.x.length + RUN_ON);

  const pieces = [{ start: 0, x: new Float64Array(path.x), y: new Float64Array(path.y) }];
  const end = (path.x.length - 1) * STEP;
  const { trace } = samplePath(createRandom(seed, 1), steppedPath(pieces, middle.x, middle.y), end, {
    sampleRateHz: settings.sampleRateHz,
    timeJitterSd: TIME_JITTER,
    timeQuantum: 0,
    quantum: QUANTUM,
    eventsOnly: true,
    dropShare: 0,
    mergeShare: 0,
    limits: undefined,
  });
  const frames = sight.framesUntil(end, 0);
  const presses: Press[] = [];
  const truth = drawn.map(({ go, start, disc, acquired }, i): FeedbackMovement => {
    const outcome = pressOf(path, disc, acquired, targetId(i), presses);
    return tellMovement(i, go, start, disc, acquired, outcome);
  });
  const recording: Recording = {
    schema: 1,
    space: { kind: "plane", unit: "px" },
    device: "simulated pointer",
    trace,
    presses,
    targets: drawn.map(
      ({ go, disc, acquired }, i): Target => ({
        id: targetId(i),
        tShown: go * STEP,
        tGone: acquired.end * STEP,
        shape: { kind: "circle", diameter: disc.width },
        at: { x: disc.x, y: disc.y },
      }),
    ),
    trials: drawn.map(
      ({ go, disc, acquired }, i): Trial => ({
        id: trialId(i),
        kind: "acquire",
        tStart: go * STEP,
        tEnd: acquired.up * STEP,
        goals: [targetId(i)],
        block: "1",
        condition: { width: disc.width },
      }),
    ),
    marks: [],
    ...(frames !== undefined && { frames }),
  };
  return { recording, truth: { seed, options: settings, movements: truth } };
}

/** For every step the step whose picture is in the eye by then: that of the last frame whose light has arrived. */
function lightSource(delayAt: (t: number) => number, { refreshHz, latency }: FeedbackSettings["display"]): (k: number) => number {
  if (refreshHz === null) return (k) => k - Math.round(latency / STEP);
  const phase = delayAt(0) - latency;
  return (k) => {
    const frame = Math.floor((k * STEP - latency - phase) * refreshHz);
    return Math.floor((phase + frame / refreshHz) / STEP + 1e-6);
  };
}

/** Adds the press, judged by the recorded position. */
function pressOf(
  path: Path,
  { x, y, width }: Disc,
  { press, up }: Acquired,
  target: string,
  presses: Press[],
): FeedbackMovement["outcome"] {
  if (press === undefined) return "timeout";
  const at = { x: toQuantum(path.x[press]!, QUANTUM), y: toQuantum(path.y[press]!, QUANTUM) };
  const inside = Math.sqrt((at.x - x) ** 2 + (at.y - y) ** 2) <= width / 2;
  presses.push({ t: press * STEP, tUp: up * STEP, by: "button", ...at, credited: inside ? target : null });
  return inside ? "hit" : "miss";
}

function tellMovement(
  i: number,
  go: number,
  start: Vector,
  { x, y, width }: Disc,
  { seen, command, ramps, press, up }: Acquired,
  outcome: FeedbackMovement["outcome"],
): FeedbackMovement {
  const way = { x: x - start.x, y: y - start.y };
  const amplitude = Math.sqrt(way.x * way.x + way.y * way.y);
  const miss = { x: ramps[0]!.dx - way.x, y: ramps[0]!.dy - way.y };
  return {
    trial: trialId(i),
    target: targetId(i),
    go: go * STEP,
    seen: seen * STEP,
    command: command * STEP,
    corrections: ramps.slice(1).map((ramp) => ({ t: ramp.start * STEP, dx: ramp.dx, dy: ramp.dy })),
    primaryError: { along: (miss.x * way.x + miss.y * way.y) / amplitude, across: (miss.x * way.y - miss.y * way.x) / amplitude },
    ...(press !== undefined && { press: press * STEP, tUp: up * STEP }),
    outcome,
    amplitude,
    width,
  };
}

function trialId(i: number): string {
  return `trial-${i + 1}`;
}

function targetId(i: number): string {
  return `target-${i + 1}`;
}
