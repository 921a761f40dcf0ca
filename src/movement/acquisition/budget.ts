import type { Budget, Times } from "../types.js";
import { overlap, type Stretch } from "./clutch.js";

/** Parts of the time from go to end; their sum telescopes to `end - go`. */
export function budgetOf(times: Times, until: number, pressedInMotion: boolean, clutches: readonly Stretch[]): Budget {
  const { go, end, onset, primaryEnd, stop } = times;
  const recovery = end - until;
  if (onset === undefined || primaryEnd === undefined || stop === undefined) {
    // pressed without moving: all of it went into the decision to press; never moved nor pressed: the response never came
    const pressed = times.press !== undefined;
    return { latency: pressed ? 0 : until - go, primary: 0, correction: 0, clutch: 0, verification: pressed ? until - go : 0, recovery };
  }
  const stopped = pressedInMotion ? until : Math.min(stop, until);
  const landed = Math.min(primaryEnd, stopped);
  const clutchBefore = overlap(clutches, onset, landed);
  const clutchAfter = overlap(clutches, landed, stopped);
  return {
    latency: onset - go,
    primary: landed - onset - clutchBefore,
    correction: stopped - landed - clutchAfter,
    clutch: clutchBefore + clutchAfter,
    verification: until - stopped,
    recovery,
  };
}
