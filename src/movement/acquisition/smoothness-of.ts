import type { SpeedSegment } from "../../trace/condition/speed-segment.js";
import type { Economy } from "../row-parts.js";
import { arcLength } from "../smoothness/arc-length.js";
import { logJerk } from "../smoothness/log-jerk.js";
import { samplesWithin } from "./motion.js";

/** The settings of `spectralArcLength` by default. */
const ARC = { maxHz: 20, threshold: 0.05, padLevel: 4 } as const;
/** A shorter movement has no spectrum to speak of: seconds, and samples. */
const SHORTEST = 0.1;
const LEAST_SAMPLES = 20;

/** Smoothness of a movement from `from` to `to`, where it is long enough. */
export function smoothnessOf(segment: SpeedSegment, from: number, to: number): Pick<Economy, "spectralArcLength" | "logDimensionlessJerk"> {
  const { x, y, speed, sampleRateHz } = segment;
  const within = samplesWithin(segment, from, to);
  const start = Math.max(1, within.start);
  const end = Math.min(x.length - 1, within.end);
  if (end - start < LEAST_SAMPLES || to - from < SHORTEST) return {};
  const arc = arcLength(speed, start, end, { ...ARC, sampleRateHz });
  const jerk = logJerk(
    velocity(x, start, end, sampleRateHz),
    velocity(y, start, end, sampleRateHz),
    0,
    end - start,
    sampleRateHz,
    "velocity",
  );
  return { ...(arc !== undefined && { spectralArcLength: arc }), ...(jerk !== undefined && { logDimensionlessJerk: jerk }) };
}

function velocity(position: Float64Array, start: number, end: number, sampleRateHz: number): Float64Array {
  const v = new Float64Array(end - start);
  for (let i = 0; i < v.length; i++) v[i] = ((position[start + i + 1]! - position[start + i - 1]!) * sampleRateHz) / 2;
  return v;
}
