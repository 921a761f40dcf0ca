import type { Estimate } from "../../math/estimate.js";
import type { Equipment } from "../../trace/types.js";
import type { EquipmentEffect } from "../types.js";

const REASON = "frames and reports put an even spread on the times, T/sqrt(12) each; a press timed ahead does not wait for a frame";

/**
 * What other frames and reports do to the spread of the press about the stop: sqrt(s^2 + v) of the one less that of the other, v = report^2/12 at each of the two ends, and frame^2/12 where
 * the press waits to see the stop. The interval spans no such press and every one; the value lies in the middle.
 */
export function timingEffect(before: Equipment, after: Equipment, sd: number, same: boolean): EquipmentEffect {
  const effect = (change: Estimate): EquipmentEffect => ({ measure: "pressTimingSd", change, reason: REASON });
  if (same) return effect({ ok: true, value: 0, unit: "s", n: 2, interval: [0, 0] });
  const [first, second] = [intervalsOf(before), intervalsOf(after)];
  if (first === undefined || second === undefined) return effect({ ok: false, why: "mixedEquipment", unit: "s", n: 2 });
  const widened = ({ frame, report }: Intervals, seeing: number): number =>
    Math.sqrt(sd * sd + (2 * report * report + seeing * frame * frame) / 12);
  const ends = [0, 1].map((seeing) => widened(second, seeing) - widened(first, seeing)) as [number, number];
  const [low, high] = ends[0] <= ends[1] ? ends : [ends[1], ends[0]];
  return effect({ ok: true, value: (low + high) / 2, unit: "s", n: 2, interval: [low, high] });
}

interface Intervals {
  readonly frame: number;
  readonly report: number;
}

/** Seconds from frame to frame and from report to report; both are needed. */
function intervalsOf({ refreshHz, frameCapHz, reportHz }: Equipment): Intervals | undefined {
  if (refreshHz === undefined || reportHz === undefined) return undefined;
  return { frame: 1 / Math.min(refreshHz, frameCapHz ?? refreshHz), report: 1 / reportHz };
}
