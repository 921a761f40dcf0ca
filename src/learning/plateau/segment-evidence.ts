import { meanAndSd } from "../../math/mean-and-sd.js";
import { brokenStick } from "../trend/broken-stick.js";
import { changePoints } from "../trend/change-points.js";
import { effectiveCount } from "../trend/effective-count.js";
import type { ImprovementScale } from "./scale.js";
import type { SegmentEvidence } from "./types.js";

/** Beyond this a criterion is strong (Kass and Raftery 1995, recalled). */
const STRONG = 6;
/** Fewest sessions between two steps. */
const SHORTEST = 4;
/** Fitted numbers, scatter aside: of the exponential curve, of one level, and of a line that bends to a level. */
const CURVE = 3;
const LEVEL = 1;
const STICK = 3;

/**
 * Steps and levels of the sessions on the present equipment, of which the first is number `since` of the series; the recent stretch begins at their `from`.
 * `curveSum` is what the exponential curve leaves of all values (squares summed), absent without a fit. Steps of the worthwhile size are sought within the
 * recent stretch.
 */
export function segmentEvidence(
  day: Float64Array,
  value: Float64Array,
  from: number,
  since: number,
  autocorrelation: number,
  curveSum: number | undefined,
  scale: ImprovementScale,
): SegmentEvidence {
  const steps = worthwhileSteps(value.subarray(from), scale).map((at) => since + from + at);
  const { levelOverCurve, levelSince } = levelAgainstCurve(day, value, autocorrelation, curveSum);
  // a curve that fits better than a level is no evidence against a plateau: it flattens, too
  const supports = levelOverCurve !== null && levelOverCurve > STRONG;
  return { speaks: steps.length > 0 ? "against" : supports ? "for" : "silent", levelOverCurve, levelSince, steps };
}

// a level all along, or a line that gets better and then bends to a level, whichever the criterion prefers, beside the curve
function levelAgainstCurve(
  day: Float64Array,
  value: Float64Array,
  autocorrelation: number,
  curveSum: number | undefined,
): Pick<SegmentEvidence, "levelOverCurve" | "levelSince"> {
  const none = { levelOverCurve: null, levelSince: null };
  const n = value.length;
  if (curveSum === undefined || !(curveSum > 0)) return none;
  const count = effectiveCount(n, autocorrelation);
  const criterion = (sum: number, fitted: number): number => count * Math.log(sum) + fitted * Math.log(count);
  const level = criterion((n - 1) * meanAndSd(value).sd ** 2, LEVEL);
  const stick = brokenStick(day, value, "level", SHORTEST);
  const bent = stick !== undefined && stick.slopeBefore > 0 ? criterion(stick.residualSum, STICK) : Number.POSITIVE_INFINITY;
  const levelOverCurve = criterion(curveSum, CURVE) - Math.min(level, bent);
  if (!Number.isFinite(levelOverCurve)) return none;
  return { levelOverCurve, levelSince: bent < level && levelOverCurve > STRONG ? stick!.bend : null };
}

// with sessions that resemble their neighbours small steps are found where there are none
function worthwhileSteps(value: Float64Array, scale: ImprovementScale): number[] {
  if (value.length < 2 * SHORTEST) return [];
  const { at } = changePoints(value, SHORTEST);
  const starts = [0, ...at];
  const levels = starts.map((start, k) => meanAndSd(value.subarray(start, starts[k + 1] ?? value.length)).mean);
  return at.filter((_, k) => {
    const change = levels[k + 1]! - levels[k]!;
    return change >= scale.gain || change <= -scale.loss;
  });
}
