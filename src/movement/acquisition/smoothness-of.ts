import type { SpeedSegment } from "../../trace/condition/speed-segment.js";
import type { Economy } from "../row-parts.js";
import { arcLength } from "../smoothness/arc-length.js";
import { logJerk } from "../smoothness/log-jerk.js";
import { samplesWithin } from "./motion.js";

/** The settings of `spectralArcLength` by default. */
const ARC = { maxHz: 20, threshold: 0.05, padLevel: 4 } as const;
/** A longer row is no single movement but a target left standing, and its padded spectrum takes seconds to draw: seconds. */
const LONGEST = 60;
/** A shorter movement has no spectrum to speak of: seconds, and samples. */
const SHORTEST = 0.1;
const LEAST_SAMPLES = 20;
/** Faster grids are thinned to no less than this, Hz: behind the filter nothing is left to lose, and devices are compared on the same footing. */
const ENOUGH_HZ = 250;

/** Smoothness of a movement from `from` to `to`, where it is long enough. */
export function smoothnessOf(segment: SpeedSegment, from: number, to: number): Pick<Economy, "spectralArcLength" | "logDimensionlessJerk"> {
  const { x, y, speed, sampleRateHz } = segment;
  const within = samplesWithin(segment, from, to);
  const start = Math.max(1, within.start);
  const end = Math.min(x.length - 1, within.end);
  if (end - start < LEAST_SAMPLES || to - from < SHORTEST) return {};
  const every = Math.max(1, Math.floor(sampleRateHz / ENOUGH_HZ));
  const n = Math.ceil((end - start) / every);
  const rate = sampleRateHz / every;
  const thinned = new Float64Array(n);
  const vx = new Float64Array(n);
  const vy = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const i = start + k * every;
    thinned[k] = speed[i]!;
    vx[k] = ((x[i + 1]! - x[i - 1]!) * sampleRateHz) / 2;
    vy[k] = ((y[i + 1]! - y[i - 1]!) * sampleRateHz) / 2;
  }
  const arc = to - from > LONGEST ? undefined : arcLength(thinned, 0, n, { ...ARC, sampleRateHz: rate });
  const jerk = logJerk(vx, vy, 0, n, rate, "velocity");
  return { ...(arc !== undefined && { spectralArcLength: arc }), ...(jerk !== undefined && { logDimensionlessJerk: jerk }) };
}
