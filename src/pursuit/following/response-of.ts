import type { Estimate } from "../../math/estimate.js";
import { type FrequencyResponse, frequencyResponse } from "../frequency-response.js";
import { wholePeriods } from "../response/driven-lines.js";
import { longestPiece, type Stretch } from "./stretch.js";

/** Frequencies of a multisine target's axes, Hz. */
export interface DrivenAxes {
  readonly x?: readonly number[];
  readonly y?: readonly number[];
}

/** Highest frequency looked at, Hz. */
const MAX_HZ = 5;

/** Frequency responses of both axes over the longest piece; none where the target's velocity does not vary, because a straight line has no frequency. */
export function responseOf(
  { smooth, pieces, rate }: Stretch,
  driven: DrivenAxes,
  constant: boolean,
  level: number,
): { x: FrequencyResponse; y: FrequencyResponse; noWholePeriods: boolean } {
  const longest = longestPiece(pieces) ?? { start: 0, end: 0 };
  const length = longest.end - longest.start;
  let noWholePeriods = false;
  const axis = (q: Float64Array, p: Float64Array, lines: readonly number[] | undefined): FrequencyResponse => {
    const target = constant ? new Float64Array(length) : q.subarray(longest.start, longest.end);
    const pointer = p.subarray(longest.start, longest.end);
    const options = { sampleRateHz: rate, level };
    if (lines !== undefined && lines.length > 0) {
      if (lines.at(-1)! < rate / 2 && wholePeriods(length, rate, lines) !== undefined)
        return frequencyResponse(target, pointer, { ...options, drivenHz: lines });
      noWholePeriods = true;
    }
    return frequencyResponse(target, pointer, { ...options, maxHz: Math.min(MAX_HZ, rate / 2) });
  };
  const x = axis(smooth.qx, smooth.px, driven.x);
  const y = axis(smooth.qy, smooth.py, driven.y);
  return { x, y, noWholePeriods };
}

/** The delays of both axes in one, each weighted by what it is known to. */
export function commonDelay(delays: readonly Estimate[]): Estimate {
  let weights = 0;
  let sum = 0;
  let n = 0;
  let reason: Estimate = { ok: false, why: "notIdentified", unit: "s", n: 0 };
  let factor = 0;
  let level = 0.95;
  for (const delay of delays) {
    if (!delay.ok || delay.interval === undefined) {
      if (!delay.ok && reason.n === 0) reason = delay;
      continue;
    }
    const half = (delay.interval[1] - delay.interval[0]) / 2;
    const weight = 1 / Math.max(half, 1e-9) ** 2;
    weights += weight;
    sum += weight * delay.value;
    n += delay.n;
    factor = 1 / Math.sqrt(weights);
    level = delay.level ?? level;
  }
  if (n === 0) return reason;
  const value = sum / weights + 0;
  return { ok: true, value, unit: "s", n, interval: [value - factor, value + factor], level };
}
