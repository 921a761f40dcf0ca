import type { SpeedSegment } from "../../trace/condition/speed-segment.js";

/** The pointer leaves when its speed passes this share of the peak of the movement before and stays above it this long, seconds. */
const LEAVING_SHARE = 0.1;
const LEAVING_TIME = 0.02;

/**
 * When the pointer left for the next target, looked for in `[press, until]`: a press moves the pointer a little, a departure moves it as a movement does.
 * A pointer that is still on its way at the press has to slow down first. Near an onset speed grows with the square of time, so that it takes as long from a
 * quarter of a speed to all of it as from rest to the quarter.
 */
export function departureAfter(
  { speed, t0, sampleRateHz }: SpeedSegment,
  press: number,
  until: number,
  peakSpeed: number,
  noise: number,
): number | undefined {
  const leaving = Math.max(LEAVING_SHARE * peakSpeed, 4 * noise);
  const last = Math.min(speed.length - 1, Math.floor((until - t0) * sampleRateHz));
  const long = Math.ceil(LEAVING_TIME * sampleRateHz);
  let i = Math.max(0, Math.ceil((press - t0) * sampleRateHz));
  while (i <= last && speed[i]! > leaving) i++;
  let above = 0;
  for (; i <= last && above <= long; i++) above = speed[i]! > leaving ? above + 1 : 0;
  if (above === 0) return undefined;
  const crossed = crossingBefore(speed, i - above, leaving);
  const quarter = crossingBefore(speed, i - above, leaving / 4);
  return Math.max(press, t0 + (2 * quarter - crossed) / sampleRateHz);
}

/** Where, on the way back from sample `from`, speed first was `level` (or least, when it never was that low before), in samples. */
function crossingBefore(speed: Float64Array, from: number, level: number): number {
  let k = from;
  while (k > 0 && speed[k - 1]! > level && speed[k - 1]! <= speed[k]!) k--;
  const below = speed[k - 1];
  return below === undefined || below > level || speed[k]! === below ? k : k - (speed[k]! - level) / (speed[k]! - below);
}
