import type { Estimate } from "../../math/estimate.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import type { Equipment } from "../../trace/types.js";

/**
 * Frames from what happens to what is seen, where only the refresh rate is known: half a frame of waiting at the least; half a frame of scan-out and one queued
 * frame at the most. Both displays are taken to be run the same way, somewhere between.
 */
const FEWEST_FRAMES = 0.5;
const MOST_FRAMES = 2;
/** Standard error of a latency that somebody measured end to end, seconds: a camera at 240 frames a second resolves 4 ms, a dozen readings half of that. A choice. */
const MEASURED_ERROR = 0.002;
/** Standard error for what no field tells of (processing and pixels of another display), seconds, where the name of the equipment changed. A choice. */
const UNTOLD_ERROR = 0.005;

interface Difference {
  readonly value: number;
  readonly variance: number;
}

/** Mean delay of `after` less that of `before`, seconds. A latency measured end to end holds everything; else refresh and report rates tell a part of it each. */
export function delayDifference(before: Equipment, after: Equipment, level: number): Estimate {
  const found = measured(before, after) ?? fromRates(before, after);
  if (found === undefined) return { ok: false, why: "mixedEquipment", unit: "s", n: 2 };
  const half = found.variance === 0 ? 0 : normalQuantile((1 + level) / 2) * Math.sqrt(found.variance);
  return { ok: true, value: found.value, unit: "s", n: 2, interval: [found.value - half, found.value + half], level };
}

/** Both measured. One measured and one not cannot be set against each other. */
function measured(before: Equipment, after: Equipment): Difference | undefined {
  if (before.latency === undefined || after.latency === undefined) return undefined;
  // the same figure twice is one measurement of one thing, unless the display differs, too
  const same = before.latency === after.latency && framesPerSecond(before) === framesPerSecond(after);
  return { value: after.latency - before.latency, variance: same ? 0 : 2 * MEASURED_ERROR ** 2 };
}

function fromRates(before: Equipment, after: Equipment): Difference | undefined {
  const sameName = before.id === after.id;
  const [first, second] = [framesPerSecond(before), framesPerSecond(after)];
  // one display of unknown rate has the same rate twice
  if ((first === undefined || second === undefined) && !(sameName && first === second)) return undefined;
  const frame = first === undefined || second === undefined ? 0 : 1 / second - 1 / first;
  const report = before.reportHz === undefined || after.reportHz === undefined ? 0 : (1 / after.reportHz - 1 / before.reportHz) / 2;
  const width = (MOST_FRAMES - FEWEST_FRAMES) * frame;
  return {
    value: ((FEWEST_FRAMES + MOST_FRAMES) / 2) * frame + report,
    variance: (width * width) / 12 + (sameName ? 0 : UNTOLD_ERROR ** 2),
  };
}

/** Frames that are made, at most as many as are shown. */
function framesPerSecond({ refreshHz, frameCapHz }: Equipment): number | undefined {
  if (refreshHz === undefined) return undefined;
  return Math.min(refreshHz, frameCapHz ?? refreshHz);
}
