import { type DecayData, type DecayPoint, lookAt } from "./decay-point.js";

/** A step of Newton's this short, as a share of c, leaves an error of about its square. */
const LAST_STEP = 3e-5;
/** Most looks; bisection alone would need fewer. */
export const MOST_LOOKS = 100;
/** From here on every second step halves the bracket. */
const PATIENCE = 15;
/** Longest step, as a factor. */
const LEAP = 4;

/**
 * Follows the residual sum downhill in c from `start` to where its slope is 0, or to a bound: Newton steps kept within
 * a bracket. Leaves the result in `point` and `basis`; returns the number of looks.
 */
export function refineDecay(
  data: DecayData,
  start: number,
  lower: Float64Array,
  upper: Float64Array,
  basis: Float64Array,
  point: DecayPoint,
): number {
  const least = lower[2]!;
  const most = upper[2]!;
  let low = least;
  let high = most;
  // a bound that was not looked at yet may itself be the place
  let lowOpen = true;
  let highOpen = true;
  let c = Math.min(Math.max(start, least), most);
  lookAt(data, c, lower, upper, basis, point);
  let looks = 1;
  for (; looks < MOST_LOOKS; looks++) {
    const { slope } = point;
    if (slope === 0 || (c <= least && slope > 0) || (c >= most && slope < 0)) return looks;
    if (slope < 0) {
      low = c;
      lowOpen = false;
    } else {
      high = c;
      highOpen = false;
    }
    const { curvature } = point;
    let next = curvature > 0 ? c - slope / curvature : slope < 0 ? most : least;
    if (slope < 0) next = Math.min(next, Math.max(LEAP * c, c + (high - c) * 1e-3));
    else next = Math.max(next, c / LEAP);
    next = Math.min(Math.max(next, low), high);
    const halve = looks > PATIENCE && looks % 2 === 0;
    if (halve || (next === low && !lowOpen) || (next === high && !highOpen)) {
      next = low > 0 ? Math.sqrt(low) * Math.sqrt(high) : high > 1e-3 * most ? high / LEAP : 0;
      if (!(next > low || next === least) || !(next < high)) next = low + (high - low) / 2;
    }
    const step = Math.abs(next - c);
    if (!(step > 1e-15 * c)) return looks;
    c = next;
    lookAt(data, c, lower, upper, basis, point);
    if (!halve && step <= LAST_STEP * c) return looks + 1;
  }
  return looks;
}
