import { minimumJerkPosition } from "../../src/math/minimum-jerk.js";
import type { Random } from "../../src/math/random.js";
import type { Vector } from "../../src/simulate/index.js";
import { advance, displace, type HandAxis, type Ramp, STEP } from "./feedback-control-hand.js";
import type { FeedbackSettings } from "./feedback-control-options.js";

/** Steps without a press after which the target goes away. */
const TIME_LIMIT = 3000;
/** How much of the first stroke must have been seen before anything is made of it. */
const SEEN_SHARE = 0.85;
/** Speed (units/s) and distance (units) below which the hand is at rest. */
const STILL = 1e-3;
/** Steps over which a speed is seen. */
const SPEED_SPAN = 20;

/** The path so far on the steps, of the hand and of how far it is off what its commands should have done. */
export interface Path {
  readonly x: number[];
  readonly y: number[];
  readonly offX: number[];
  readonly offY: number[];
}

/** One acquisition, in steps. */
export interface Acquired {
  readonly seen: number;
  readonly command: number;
  readonly ramps: readonly Ramp[];
  readonly press?: number;
  readonly up: number;
  readonly end: number;
}

/** The hand and what drives it, and its forecast of itself without any error and what drives that. */
export interface Body {
  readonly hand: readonly [HandAxis, HandAxis];
  readonly forecast: readonly [HandAxis, HandAxis];
  readonly command: { x: number; y: number };
  readonly meant: { x: number; y: number };
  /** What the noise of the force is drawn from. */
  readonly unsteady: Random;
}

/** What is to be acquired and how it is seen; times in steps. */
export interface Task {
  readonly go: number;
  /** When the target is seen. */
  readonly shown: number;
  readonly centre: Vector;
  readonly width: number;
  /** Step that the light at a step comes from. */
  readonly lit: (k: number) => number;
  /** What looks and corrections are drawn from. */
  readonly sight: Random;
}

/**
 * Acquires the target at `centre`, shown at step `go`. The first stroke is open-loop. What is seen of it is old; the forecast bridges the delay:
 * predicted end = all that was asked for + deviation of the hand from the forecast as seen. While that misses by more than the dead zone, and not
 * sooner than the refractory time allows, a correction is sent off. The press follows when the hand is seen at rest on the target.
 */
export function acquire(random: Random, settings: FeedbackSettings, body: Body, path: Path, task: Task): Acquired {
  const { go, shown, centre, width, lit, sight } = task;
  const { primary, correction, stopAndPress, nextTarget, noise } = settings;
  const steps = (seconds: number): number => Math.max(1, Math.round(seconds / STEP));
  const response = Math.max(0.02, random.normal(nextTarget.mu, nextTarget.sigma) + random.exponential(nextTarget.tau));
  const commandAt = shown + steps(response);
  const start = { x: body.hand[0].position, y: body.hand[1].position };
  const way = { x: centre.x - start.x, y: centre.y - start.y };
  const amplitude = Math.sqrt(way.x * way.x + way.y * way.y);
  const along = random.normal(primary.alongBias, primary.alongSd);
  const across = random.normal(0, primary.acrossSd);
  const pace = Math.exp(random.normal(0, primary.rampSd));
  const first = rampOf(
    commandAt,
    steps((primary.rampIntercept + primary.rampSlope * Math.log2(amplitude / width + 1)) * pace),
    way,
    along,
    across,
  );
  const sightSd = noise.sightShare * width + noise.sight;
  const glance = (): Vector => ({ x: sight.normal(0, sightSd), y: sight.normal(0, sightSd) });
  const dwell = steps(Math.max(STEP, random.normal(stopAndPress.dwell, stopAndPress.dwellSd)));
  const reaction = steps(correction.delay);
  const look = steps(stopAndPress.look);
  const refractory = steps(correction.refractory);

  const executed = [first];
  const asked: Ramp[] = [{ ...first, dx: way.x, dy: way.y }];
  const goal = { ...centre };
  const firstEnd = first.start + first.duration;
  let still = 0;
  let last = commandAt;
  // what has to be seen before the press: the hand after everything that was sent off
  let due = commandAt;
  let looked = glance();
  for (let k = go; k < go + TIME_LIMIT; k++) {
    obey(body.command, executed, k);
    obey(body.meant, asked, k);
    step(settings, body, path);
    const s = lit(k - reaction);
    if (s <= commandAt || k <= firstEnd) continue;
    const travelled = ((path.x[s]! - start.x) * way.x + (path.y[s]! - start.y) * way.y) / (amplitude * amplitude);
    const missX = goal.x + path.offX[s]! + looked.x - centre.x;
    const missY = goal.y + path.offY[s]! + looked.y - centre.y;
    const settled = travelled > SEEN_SHARE || speedSeen(path, s) < stopAndPress.stillSpeed;
    if (settled && k - last >= refractory && !within(missX, missY, correction.deadZone * width)) {
      const wanted = { x: -correction.gain * missX, y: -correction.gain * missY };
      const actual = Math.exp(sight.normal(0, correction.gainSd)) - 1;
      const ramp = rampOf(k, steps(correction.ramp), wanted, actual, sight.normal(0, correction.directionSd));
      executed.push(ramp);
      asked.push({ ...ramp, dx: wanted.x, dy: wanted.y });
      goal.x += wanted.x;
      goal.y += wanted.y;
      last = k;
      due = k + ramp.duration;
      looked = glance();
    }
    const p = lit(k - look);
    const seenX = path.x[p]! + looked.x - centre.x;
    const seenY = path.y[p]! + looked.y - centre.y;
    const ready = p > due && speedSeen(path, p) < stopAndPress.stillSpeed && within(seenX, seenY, stopAndPress.errorShare * width);
    still = ready ? still + 1 : 0;
    if (still < dwell) continue;
    return { seen: shown, command: commandAt, ramps: executed, press: k, up: press(random, settings, body, path), end: k };
  }
  return { seen: shown, command: commandAt, ramps: executed, up: go + TIME_LIMIT - 1, end: go + TIME_LIMIT - 1 };
}

/** Presses the button, which moves the hand a little, and gives the step of the release. */
function press(random: Random, settings: FeedbackSettings, body: Body, path: Path): number {
  const { duration, durationSd, slipSd } = settings.stopAndPress;
  const held = Math.round(Math.max(0.02, random.normal(duration, durationSd)) / STEP);
  const slip = [random.normal(0, slipSd), random.normal(0, slipSd)] as const;
  let done = 0;
  for (let j = 1; j <= held; j++) {
    const share = minimumJerkPosition(j / held) - done;
    done += share;
    body.command.x += share * slip[0];
    body.command.y += share * slip[1];
    displace(body.hand[0], share * slip[0]);
    displace(body.hand[1], share * slip[1]);
    step(settings, body, path);
  }
  return path.x.length - 1;
}

/** Adds rest up to step `until`; once all has settled nothing has to be reckoned. */
export function rest(settings: FeedbackSettings, body: Body, path: Path, until: number): void {
  const { hand, forecast } = body;
  while (path.x.length < until) {
    if (hand.every(atRest) && forecast.every(atRest)) hold(path, until);
    else step(settings, body, path);
  }
}

function atRest({ position, velocity, excitation, activation }: HandAxis): boolean {
  return Math.abs(velocity) < STILL && Math.abs(activation - position) < STILL && Math.abs(excitation - position) < STILL;
}

function hold({ x, y, offX, offY }: Path, until: number): void {
  for (const column of [x, y, offX, offY]) {
    const value = column[column.length - 1] ?? 0;
    while (column.length < until) column.push(value);
  }
}

/** One step of hand and forecast under the commands as they are, added to the path. */
function step({ noise, stopAndPress }: FeedbackSettings, { hand, forecast, command, meant, unsteady }: Body, path: Path): void {
  advance(hand[0], command.x, stopAndPress.damping, unsteady.uniform(-noise.force, noise.force));
  advance(hand[1], command.y, stopAndPress.damping, unsteady.uniform(-noise.force, noise.force));
  advance(forecast[0], meant.x, stopAndPress.damping, 0);
  advance(forecast[1], meant.y, stopAndPress.damping, 0);
  path.x.push(hand[0].position);
  path.y.push(hand[1].position);
  path.offX.push(hand[0].position - forecast[0].position);
  path.offY.push(hand[1].position - forecast[1].position);
}

/** Moves `command` by what `ramps` add in step `k`. */
function obey(command: { x: number; y: number }, ramps: readonly Ramp[], k: number): void {
  for (const { start, duration, dx, dy } of ramps) {
    if (k <= start || k > start + duration) continue;
    const share = (Math.cos((Math.PI * (k - 1 - start)) / duration) - Math.cos((Math.PI * (k - start)) / duration)) / 2;
    command.x += share * dx;
    command.y += share * dy;
  }
}

function speedSeen({ x, y }: Path, k: number): number {
  const past = Math.max(0, k - SPEED_SPAN);
  return Math.sqrt((x[k]! - x[past]!) ** 2 + (y[k]! - y[past]!) ** 2) / (SPEED_SPAN * STEP);
}

function within(x: number, y: number, radius: number): boolean {
  return x * x + y * y <= radius * radius;
}

function rampOf(start: number, duration: number, way: Vector, along: number, across: number): Ramp {
  return { start, duration, dx: (1 + along) * way.x + across * way.y, dy: (1 + along) * way.y - across * way.x };
}
