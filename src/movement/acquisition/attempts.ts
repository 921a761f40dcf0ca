import { show } from "../../math/require.js";
import { isInside } from "../../trace/shape/target-shape.js";
import type { Press, Target, Trial } from "../../trace/types.js";
import type { Acquisition } from "../types.js";
import { targetAt } from "./target-position.js";

/** Two clock readings of one instant may differ by rounding: doubles near 1.7e9 s are 0.24 microseconds apart. */
const SAME_INSTANT = 1e-6;
/** A second press on the target just acquired, so soon after the first, answers nothing, seconds (common practice, no source). */
export const LONGEST_REPEAT = 0.5;

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
  /** In time order. */
  readonly presses: readonly Press[];
  /** The first press that no attempt has used. */
  readonly nextPress: number;
  /** Where the pointer was at `t`, in the space's unit; `undefined` when nothing was recorded by then. */
  readonly pointerAt: (t: number) => { x: number; y: number } | undefined;
  /** Factor on horizontal distances near an elevation: 1 in the plane, its cosine in view space. */
  readonly shrink: (y: number) => number;
  /** End of the last attempt: the next one cannot begin before. */
  readonly busyUntil: number;
  /** The target acquired last, and when. */
  readonly lastHit: { readonly target: Target; readonly t: number } | undefined;
  /** Whether everything up to `t` and a while after it has been given and will not change. */
  readonly isKnown: (t: number) => boolean;
  /** When the trial is over, `undefined` while nobody knows. */
  readonly close: number | undefined;
}

/**
 * The decision: an attempt and the first press it left unused, `"over"` when the trial holds no more, or the instant up to which all must be
 * known first; unless more is given, asking before is in vain.
 */
export type Decision =
  | { readonly attempt: Attempt; readonly nextPress: number; readonly next: TrialProgress }
  | { readonly waitsFor: number }
  | "over";

/** Decides the next attempt of a trial. It looks only at what is known at its end, so that it does not matter how the recording was cut. */
export function nextAttempt(progress: TrialProgress, world: World): Decision {
  const { trial, remaining } = progress;
  if (remaining.length === 0) return "over";
  const begin = Math.max(trial.tStart, world.busyUntil);
  const goals = goalsTogether(shownGoals(remaining, world), begin);
  if (goals.length === 0) {
    if (world.close === undefined || !world.isKnown(world.close)) return { waitsFor: world.close ?? Number.POSITIVE_INFINITY };
    requireShown(progress, world);
    return "over";
  }
  const go = Math.max(begin, Math.min(...goals.map((goal) => goal.tShown)));
  const over = Math.max(go, Math.min(world.close ?? Number.POSITIVE_INFINITY, Math.max(...goals.map(goneTime))));
  const misses: Press[] = [];
  let { nextPress } = world;
  // the goal that the last miss was probably meant for
  let meant: Target | undefined;
  for (let k = nextPress; k < world.presses.length; k++) {
    const press = world.presses[k]!;
    if (press.t > over + SAME_INSTANT || (meant !== undefined && isGone(meant, press.t))) break;
    if (!world.isKnown(press.t)) return { waitsFor: press.t };
    // nobody answers in no time: a press at go belongs to what came before
    if (press.t <= go + SAME_INSTANT) continue;
    const hit = goals.find((goal) => isHit(goal, press, world));
    if (isRepeat(press, hit, world)) continue;
    const presses = [...misses, press];
    if (hit !== undefined) {
      const outcome = misses.length === 0 ? "hit" : "recovered";
      const attempt = { trial, target: hit, go, end: press.t, outcome, presses } as const;
      return { attempt, nextPress: k + 1, next: { trial, remaining: without(remaining, hit.id) } };
    }
    misses.push(press);
    meant = meantFor(press, goals, world);
    nextPress = k + 1;
  }
  const end = Math.min(over, Math.max(go, meant === undefined ? over : goneTime(meant)));
  if (end === Number.POSITIVE_INFINITY || !world.isKnown(end)) return { waitsFor: end };
  const target = meant ?? goals[0]!;
  const givenUp = end < over ? [target] : goals;
  const attempt: Attempt = {
    trial,
    target,
    go,
    end: misses[misses.length - 1]?.t ?? end,
    outcome: misses.length > 0 ? "miss" : goals.every((goal) => goneTime(goal) <= over + SAME_INSTANT) ? "timeout" : "abandoned",
    presses: misses,
  };
  return { attempt, nextPress, next: { trial, remaining: remaining.filter((id) => !givenUp.some((goal) => goal.id === id)) } };
}

/** The goals that were given, and shown before the trial was over. */
function shownGoals(remaining: readonly string[], { targets, close }: World): Target[] {
  return remaining.flatMap((id) => {
    const goal = targets.get(id);
    return goal !== undefined && isShownBy(goal, close) ? [goal] : [];
  });
}

/** The first goals that are there together: one shown when all of them have gone is another attempt. */
function goalsTogether(shown: readonly Target[], begin: number): Target[] {
  const group = new Set<Target>();
  let gone = Number.NEGATIVE_INFINITY;
  for (const goal of [...shown].sort((a, b) => a.tShown - b.tShown)) {
    if (group.size > 0 && Math.max(goal.tShown, begin) >= gone - SAME_INSTANT) break;
    group.add(goal);
    gone = Math.max(gone, begin, goneTime(goal));
  }
  return shown.filter((goal) => group.has(goal));
}

/** Whether a press acquires this goal: by the recording tool's own word where it gave one, else by geometry while the goal was there. */
function isHit(goal: Target, press: Press, world: World): boolean {
  if (!isShownBy(goal, press.t)) return false;
  if (press.credited !== undefined) return press.credited === goal.id;
  return !isGone(goal, press.t) && isOn(goal, press, world);
}

/** Whether a press only repeats the one that acquired the target before. */
function isRepeat(press: Press, hit: Target | undefined, world: World): boolean {
  const { lastHit } = world;
  if (lastHit === undefined || press.t > lastHit.t + LONGEST_REPEAT) return false;
  if (hit !== undefined && (hit.id !== lastHit.target.id || press.credited === hit.id)) return false;
  return isOn(lastHit.target, press, world);
}

function isOn(target: Target, press: Press, world: World): boolean {
  const offset = offsetAtPress(target, press, world);
  return offset !== undefined && isInside(target.shape, offset.dx, offset.dy, offset.scale);
}

/** The press relative to a target's centre, or `undefined` when nothing tells where the pointer was. */
function offsetAtPress(target: Target, press: Press, world: World): { dx: number; dy: number; scale: number } | undefined {
  const pointer = press.x !== undefined && press.y !== undefined ? { x: press.x, y: press.y } : world.pointerAt(press.t);
  if (pointer === undefined) return undefined;
  const centre = targetAt(target, press.t);
  return { dx: (pointer.x - centre.x) * world.shrink(centre.y), dy: pointer.y - centre.y, scale: centre.scale };
}

/** The goal that a press which hit none was probably meant for: one that it made go away, else the nearest of those that were there. */
function meantFor(press: Press, goals: readonly Target[], world: World): Target {
  const there = goals.filter((goal) => isShownBy(goal, press.t) && !isGone(goal, press.t));
  const leaving = there.filter((goal) => goneTime(goal) <= press.t + SAME_INSTANT);
  const distance = (goal: Target): number => {
    const offset = offsetAtPress(goal, press, world);
    return offset === undefined ? 0 : Math.sqrt(offset.dx * offset.dx + offset.dy * offset.dy);
  };
  const candidates = [leaving, there, goals].find((some) => some.length > 0)!;
  return candidates.reduce((best, goal) => (distance(goal) < distance(best) ? goal : best));
}

function isShownBy(goal: Target, t: number | undefined): boolean {
  return t === undefined || goal.tShown <= t + SAME_INSTANT;
}

function isGone(goal: Target, t: number): boolean {
  return goneTime(goal) < t - SAME_INSTANT;
}

function goneTime(goal: Target): number {
  return goal.tGone ?? Number.POSITIVE_INFINITY;
}

/** A list without the first entry that equals `id`: a goal named twice is to be acquired twice. */
function without(ids: readonly string[], id: string): string[] {
  const at = ids.indexOf(id);
  return ids.filter((_, k) => k !== at);
}

/** A trial that was broken off may name targets still to be shown; one that has ended may not. */
function requireShown({ trial, remaining }: TrialProgress, { targets, close }: World): void {
  if (trial.tEnd === undefined) return;
  for (const id of remaining) {
    const target = targets.get(id);
    if (target !== undefined && isShownBy(target, close)) continue;
    throw new RangeError(`createAnalyzer: trial ${show(trial.id)} must name targets that were shown by its end, got ${show(id)}`);
  }
}
