import { show } from "../../math/require.js";
import type { Mark, Press, Target, Trial } from "../../trace/types.js";
import type { TrialProgress } from "./attempts.js";

// Presses, marks, targets and trials that were given and may still be needed. One given again completes or replaces the earlier one.

/** Adds presses in time order to those held; `clock` is up to where everything had been given before. */
export function addPresses(held: Press[], given: readonly Press[], clock: number): void {
  for (const press of given) {
    let after = held.length;
    while (after > 0 && held[after - 1]!.t > press.t) after--;
    let same = after - 1;
    while (same >= 0 && held[same]!.t === press.t && (held[same]!.by !== press.by || held[same]!.code !== press.code)) same--;
    if (held[same]?.t === press.t) held[same] = press;
    else if (press.t >= clock) held.splice(after, 0, press);
    // the release of a press that was used already tells nothing new
    else if (press.tUp === undefined || press.tUp < clock) {
      throw new RangeError(`createAnalyzer: a press must not come before what was given already (${clock}), got t ${press.t}`);
    }
  }
}

/** Adds marks to those held. */
export function addMarks(held: Mark[], given: readonly Mark[]): void {
  for (const mark of given) {
    const open = held.findIndex((other) => other.tEnd === undefined && other.t === mark.t && other.kind === mark.kind);
    if (open >= 0) held[open] = mark;
    else held.push(mark);
  }
}

/** When a mark ends: pointer and samples stay away until their return is told; anything else without an end is an instant. */
export function markEnd({ t, tEnd, kind }: Mark): number {
  return tEnd ?? (kind === "gap" || kind === "hidden" ? Number.POSITIVE_INFINITY : t);
}

/** Adds targets to those held. */
export function addTargets(held: Map<string, Target>, given: readonly Target[]): void {
  for (const target of given) {
    const before = held.get(target.id);
    if (before !== undefined && before.tShown !== target.tShown) {
      throw new RangeError(
        `createAnalyzer: target ${show(target.id)} must keep its tShown (${before.tShown}) when it is given again, got ${target.tShown}`,
      );
    }
    held.set(target.id, target);
  }
}

/** Lets go of targets that went away before `from` and that no trial in the queue names. */
export function forgetTargets(held: Map<string, Target>, { trials }: TrialQueue, from: number): void {
  for (const { id, tGone } of held.values()) {
    if (tGone !== undefined && tGone < from && !trials.some((progress) => progress.remaining.includes(id))) held.delete(id);
  }
}

/** So many trials whose end was not given are remembered: where nobody ever tells ends, their names would fill the memory. */
const MOST_ENDLESS = 1000;

/** Trials under way and to come, in order of their start. */
export interface TrialQueue {
  readonly trials: TrialProgress[];
  readonly ids: Set<string>;
  /** Trials that hold no more and whose end was not given when they left. */
  readonly endless: Set<string>;
}

/** Remembers a trial that left before its end was given. */
export function addEndless({ endless }: TrialQueue, id: string): void {
  endless.add(id);
  if (endless.size <= MOST_ENDLESS) return;
  for (const oldest of endless) {
    endless.delete(oldest);
    return;
  }
}

/** Puts trials in the queue, or replaces the same trials there. */
export function addTrials({ trials, ids, endless }: TrialQueue, given: readonly Trial[], clock: number): void {
  for (const trial of given) {
    if (ids.has(trial.id)) {
      const at = trials.findIndex((progress) => progress.trial.id === trial.id);
      const before = trials[at]!;
      if (before.trial.tStart !== trial.tStart) {
        throw new RangeError(
          `createAnalyzer: trial ${show(trial.id)} must keep its tStart (${before.trial.tStart}) when it is given again, got ${trial.tStart}`,
        );
      }
      trials[at] = { ...before, trial };
      continue;
    }
    // the end of a trial whose goals were all acquired before it
    if (endless.delete(trial.id)) continue;
    if (trial.tStart < clock) {
      throw new RangeError(
        `createAnalyzer: trial ${show(trial.id)} must not begin before what was given already (${clock}), got tStart ${trial.tStart}`,
      );
    }
    let after = trials.length;
    while (after > 0 && trials[after - 1]!.trial.tStart > trial.tStart) after--;
    trials.splice(after, 0, { trial, remaining: trial.goals });
    ids.add(trial.id);
  }
}
