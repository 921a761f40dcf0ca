import { show } from "../math/require.js";
import type { Press, Target, Trial } from "../trace/types.js";
import { isInside } from "./target-shape.js";
import { targetAt } from "./target-position.js";
import type { Acquisition } from "./types.js";

/** Two clock readings of one instant may differ by rounding. */
const SAME_INSTANT = 1e-9;

/** One target acquired, missed or given up, before its movement is looked at. */
export interface Attempt {
  readonly trial: Trial;
  readonly target: Target;
  readonly go: number;
  readonly end: number;
  readonly outcome: Acquisition["outcome"];
  /** Presses from the first miss to the deciding one; empty when nobody pressed. */
  readonly presses: readonly Press[];
}

/** How far a trial has come. */
export interface TrialProgress {
  readonly trial: Trial;
  /** Ids of the goals not yet acquired. */
  readonly remaining: readonly string[];
}

/** What the decision needs to know of the world. */
export interface World {
  readonly targets: ReadonlyMap<string, Target>;
  /** Presses not used yet, in time order. */
  readonly presses: readonly Press[];
  /** Where the pointer was at `t`, local unit of the space; `undefined` when nothing was recorded by then. */
  readonly pointerAt: (t: number) => { x: number; y: number } | undefined;
  /** Factor on horizontal distances near an elevation: 1 in the plane, its cosine in view space. */
  readonly shrink: (y: number) => number;
  /** End of the last attempt: the next one cannot begin before. */
  readonly busyUntil: number;
  /** Everything up to here is known and will not change. */
  readonly known: number;
  /** When the trial is over, `undefined` while nobody knows. */
  readonly close: number | undefined;
}

/** The decision: an attempt and how many presses it used up, `"over"` when the trial holds no more, `"wait"` when more must be known. */
export type Decision = { readonly attempt: Attempt; readonly used: number; readonly next: TrialProgress } | "over" | "wait";

/** Decides the next attempt of a trial. It looks only at what happened up to `known`, so that it does not matter how the recording was cut. */
export function nextAttempt(progress: TrialProgress, world: World): Decision {
  if (progress.remaining.length === 0) return "over";
  const { trial } = progress;
  const goals = progress.remaining.map((id) => requireTarget(world.targets, id, trial));
  const shown = Math.min(...goals.map((goal) => goal.tShown));
  if (shown > world.known) return world.close !== undefined && world.close <= world.known ? "over" : "wait";
  const go = Math.max(shown, trial.tStart, world.busyUntil);
  const close = closingTime(goals, world.close, go);
  const misses: Press[] = [];
  for (const [index, press] of world.presses.entries()) {
    if (press.t > world.known) return "wait";
    if (press.t < go - SAME_INSTANT) continue;
    if (world.close !== undefined && press.t > world.close + SAME_INSTANT) break;
    const hit = goals.find((goal) => isHit(goal, press, world, close));
    if (hit === undefined) {
      if (close === undefined || press.t <= close + SAME_INSTANT) misses.push(press);
      continue;
    }
    const presses = [...misses, press];
    const outcome = misses.length === 0 ? "hit" : "recovered";
    const remaining = progress.remaining.filter((id) => id !== hit.id);
    return { attempt: { trial, target: hit, go, end: press.t, outcome, presses }, used: index + 1, next: { trial, remaining } };
  }
  if (close === undefined || close > world.known) return "wait";
  const last = misses[misses.length - 1];
  const target = last === undefined ? goals[0]! : nearest(goals, last, world);
  const gone = goals.every((goal) => goal.tGone !== undefined && goal.tGone <= close + SAME_INSTANT);
  const attempt: Attempt = {
    trial,
    target,
    go,
    end: last?.t ?? close,
    outcome: last !== undefined ? "miss" : gone ? "timeout" : "abandoned",
    presses: misses,
  };
  const used = last === undefined ? 0 : world.presses.indexOf(last) + 1;
  return { attempt, used, next: { trial, remaining: [] } };
}

/** The attempt is over when the trial is closed, or earlier when all its goals have gone; never before it began. */
function closingTime(goals: readonly Target[], close: number | undefined, go: number): number | undefined {
  const over = Math.min(close ?? Number.POSITIVE_INFINITY, Math.max(...goals.map((goal) => goal.tGone ?? Number.POSITIVE_INFINITY)));
  return over === Number.POSITIVE_INFINITY ? undefined : Math.max(over, go);
}

/** Whether a press acquires this goal: by the recording tool's own word where it gave one, else by geometry while the goal was there. */
function isHit(goal: Target, press: Press, world: World, close: number | undefined): boolean {
  if (press.credited !== undefined) return press.credited === goal.id;
  const there = press.t >= goal.tShown - SAME_INSTANT && press.t <= Math.min(goal.tGone ?? Number.POSITIVE_INFINITY, close ?? Number.POSITIVE_INFINITY) + SAME_INSTANT;
  const offset = there ? offsetAtPress(goal, press, world) : undefined;
  return offset !== undefined && isInside(goal.shape, offset.dx, offset.dy, offset.scale);
}

/** The press relative to a target's centre, or `undefined` when nothing tells where the pointer was. */
function offsetAtPress(target: Target, press: Press, world: World): { dx: number; dy: number; scale: number } | undefined {
  const pointer = press.x !== undefined && press.y !== undefined ? { x: press.x, y: press.y } : world.pointerAt(press.t);
  if (pointer === undefined) return undefined;
  const centre = targetAt(target, press.t);
  return { dx: (pointer.x - centre.x) * world.shrink(centre.y), dy: pointer.y - centre.y, scale: centre.scale };
}

/** The goal whose centre lies nearest to a press that hit none: the one it was probably meant for. */
function nearest(goals: readonly Target[], press: Press, world: World): Target {
  const distance = (goal: Target): number => {
    const offset = offsetAtPress(goal, press, world);
    return offset === undefined ? 0 : Math.hypot(offset.dx, offset.dy);
  };
  return goals.reduce((best, goal) => (distance(goal) < distance(best) ? goal : best));
}

function requireTarget(targets: ReadonlyMap<string, Target>, id: string, trial: Trial): Target {
  const target = targets.get(id);
  if (target !== undefined) return target;
  throw new RangeError(`createAnalyzer: trial ${show(trial.id)} must name targets that were given, got ${show(id)}`);
}
