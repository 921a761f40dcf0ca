import type { SpeedSegment } from "../../trace/condition/speed-segment.js";

/** Where speed rises (`sign` 1) or falls (-1) fastest within `[from, to]`, and how fast, unit/s^2; at least one sample within the profile. */
export function steepest(
  { speed, t0, sampleRateHz }: Pick<SpeedSegment, "speed" | "t0" | "sampleRateHz">,
  from: number,
  to: number,
  sign: 1 | -1,
): { readonly t: number; readonly slope: number } {
  const first = Math.min(Math.max(1, Math.ceil((from - t0) * sampleRateHz)), speed.length - 2);
  const last = Math.min(speed.length - 2, Math.floor((to - t0) * sampleRateHz));
  let best = first;
  for (let i = first; i <= last; i++) {
    if (sign * (speed[i + 1]! - speed[i - 1]!) > sign * (speed[best + 1]! - speed[best - 1]!)) best = i;
  }
  return { t: t0 + best / sampleRateHz, slope: ((speed[best + 1]! - speed[best - 1]!) * sampleRateHz) / 2 };
}
