import type { Estimate } from "../../math/estimate.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import { crossingAfter } from "./crossing.js";
import { type ResponseLine, relativeError } from "./response-line.js";

/** Within the band, half of the pointer's power answers to the target and the power of the answer is between half of the target's and twice that. */
const LEAST_COHERENCE = 0.5;
const LEAST_GAIN = Math.SQRT1_2;
const MOST_GAIN = Math.SQRT2;
/** Lines on either side that are averaged with each, where lines lie close. */
const REACH = 2;
/** Coherences nearer to 1 are the same to any reader. */
const MOST_ROOT = 0.999999;

/** One frequency, smoothed over its neighbours: `root` is the inverse hyperbolic tangent of the root of the coherence, which errs evenly. */
interface Smoothed {
  readonly root: number;
  readonly logGain: number;
  /** Standard errors of the two. */
  readonly rootError: number;
  readonly gainError: number;
}

/**
 * Highest frequency with a coherence of at least 0.5 and a gain between 0.707 and 1.414, by a straight line to the first frequency beyond. Lines of segments are first
 * smoothed over two neighbours on either side: the highest of many noisy lines would lie too high. The interval runs between the frequencies up to which the
 * ends of the intervals of coherence and gain allow it; none where the highest line measured may still be in the band.
 */
export function bandwidth(
  lines: readonly ResponseLine[],
  segments: number,
  independent: number,
  linesPerIndependent: number,
  level: number,
): Estimate {
  if (!lines.some((line) => line.aboveChance)) return { ok: false, why: "notIdentified", unit: "Hz", n: segments };
  const hz = lines.map((line) => line.hz);
  const points = lines.map((_, i) => smooth(lines, i, independent, linesPerIndependent));
  const highest = (z: number): number | undefined => {
    const margins = points.map((point) => marginOf(point, z));
    let at = lines.length - 1;
    while (at >= 0 && margins[at]! < 0) at--;
    return at < 0 ? undefined : crossingAfter(hz, margins, at);
  };
  const value = highest(0);
  if (value === undefined) return { ok: false, why: "belowResolution", unit: "Hz", n: segments };
  const z = normalQuantile(0.5 + level / 2);
  const high = highest(z)!;
  if (high >= hz.at(-1)!) return { ok: true, value, unit: "Hz", n: segments };
  return { ok: true, value, unit: "Hz", n: segments, interval: [Math.min(highest(-z) ?? 0, value), Math.max(high, value)], level };
}

function smooth(lines: readonly ResponseLine[], i: number, independent: number, linesPerIndependent: number): Smoothed | undefined {
  // the same reach on either side, so that a slope is not taken for a level; lines of a multisine lie apart and stand for themselves
  const reach = linesPerIndependent > 1 ? Math.min(REACH, i, lines.length - 1 - i) : 0;
  const some = lines.slice(i - reach, i + reach + 1);
  if (some.some((line) => line.gain === 0)) return undefined;
  let root = 0;
  let logGain = 0;
  let variance = 0;
  for (const line of some) {
    root += Math.atanh(Math.min(MOST_ROOT, Math.sqrt(line.coherence))) / some.length;
    logGain += Math.log(line.gain) / some.length;
    variance += relativeError(line) ** 2 / some.length;
  }
  const share = Math.min(1, linesPerIndependent / some.length);
  // variance of the inverse hyperbolic tangent: 1 / (2 (L - 1)) (recalled)
  return { root, logGain, rootError: Math.sqrt(share / (2 * Math.max(1, independent - 1))), gainError: Math.sqrt(share * variance) };
}

/** At least 0 where the point, moved by `z` standard errors toward holding, holds. */
function marginOf(point: Smoothed | undefined, z: number): number {
  if (point === undefined) return -1;
  const gain = point.logGain;
  return Math.min(
    point.root + z * point.rootError - Math.atanh(Math.sqrt(LEAST_COHERENCE)),
    gain + z * point.gainError - Math.log(LEAST_GAIN),
    Math.log(MOST_GAIN) - gain + z * point.gainError,
  );
}
