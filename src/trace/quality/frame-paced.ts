import type { SamplingSteps } from "./sampling-steps.js";

/** Refresh rates of common displays, Hz (common practice, no source). */
const REFRESH_RATES: readonly number[] = [60, 75, 90, 120, 144, 165, 180, 240, 360];
/** Report rates of common devices, Hz (common practice, no source); a recording at one of them is not taken for frames at a rate nearby. */
const DEVICE_RATES: readonly number[] = [125, 250, 500, 1000];
const AT_DEVICE_RATE = 0.01;
/** Intervals this close to the median, as a share of it, are taken for one frame. */
const ONE_FRAME = 0.25;
/** The mean of those must match a frame this closely: device rates (125, 250, 500, 1000 Hz) lie farther from every rate above. */
const MATCH = 0.02;
/** Share of the intervals in motion that must last one frame. */
const MOST = 0.5;

/**
 * Whether the samples come once per frame of a display. The mean of the intervals near the median is compared with a frame, so that
 * coarse time stamps (16 and 17 ms for 16.7) do no harm. A known `refreshHz` replaces the list of common rates.
 */
export function framePaced(steps: SamplingSteps, interval: number, refreshHz?: number): { suspected: boolean; refreshHz?: number } {
  let total = 0;
  let n = 0;
  for (const dt of steps.moving) {
    if (Math.abs(dt / interval - 1) > ONE_FRAME) continue;
    total += dt;
    n++;
  }
  if (n === 0 || n < MOST * steps.moving.length) return { suspected: false };
  if (refreshHz === undefined && DEVICE_RATES.some((rate) => Math.abs(interval * rate - 1) <= AT_DEVICE_RATE)) return { suspected: false };
  const rates = refreshHz === undefined ? REFRESH_RATES : [refreshHz];
  let best: number | undefined;
  const mismatch = (rate: number): number => Math.abs((total / n) * rate - 1);
  for (const rate of rates) if (mismatch(rate) <= MATCH && (best === undefined || mismatch(rate) < mismatch(best))) best = rate;
  return best === undefined ? { suspected: false } : { suspected: true, refreshHz: best };
}
