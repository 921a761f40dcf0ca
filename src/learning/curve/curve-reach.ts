import type { Estimate } from "../../math/estimate.js";
import type { CurveParameter } from "./curve-types.js";
import { type FittedCurve, varianceAlong } from "./fitted-curve.js";

/** How often the distance ahead doubles in the search for a value: to a million ranges of practice. */
const DOUBLINGS = 20;
const FARTHEST = 2 ** DOUBLINGS;
/** Looks within each doubling. */
const LOOKS = 16;
const WIDEST = 1e12;

/** The practice, from the first value on, at which the law has `target`; the first practice where it starts beyond it already. */
export function reachOf(curve: FittedCurve, asymptote: CurveParameter | undefined, target: number, unit: string): Estimate {
  const { columns, model, solution, reach, level } = curve;
  const { n, practice } = columns;
  const { parameters } = solution;
  const first = practice[0]!;
  const range = practice[n - 1]! - first;
  const gap = (at: number): number => model.value(at, parameters) - target;
  const start = gap(first);
  if (start === 0) return { ok: true, value: first, unit, n };
  const end = gap(first + range * FARTHEST);
  // on the far side of where the law is heading from the start: passed before the series began
  if (Math.abs(end) > Math.abs(start) && start * end > 0) return { ok: true, value: first, unit, n };
  let low = first;
  let high = Number.NaN;
  for (let k = 1; k <= LOOKS * DOUBLINGS; k++) {
    const away = range * (2 ** (k / LOOKS) - 1);
    if (gap(first + away) * start <= 0) {
      high = first + away;
      break;
    }
    low = first + away;
  }
  if (Number.isNaN(high)) return { ok: false, why: "outOfReach", unit, n };
  for (let i = 0; i < 200 && high - low > 1e-15 * Math.abs(high); i++) {
    const middle = low + (high - low) / 2;
    if (gap(middle) * start > 0) low = middle;
    else high = middle;
  }
  const value = low + (high - low) / 2;
  // a value that the law may never reach, as far as the data tell, has no date
  if (asymptote !== undefined && mayEndBefore(asymptote, target, start)) return { ok: false, why: "notIdentified", unit, n };
  const gradient = new Float64Array(model.letters.length);
  model.gradient(value, parameters, gradient);
  const step = Math.max(1e-6 * range, 1e-9 * Math.abs(value));
  const slope = (gap(value + step) - gap(value - step)) / (2 * step);
  const half = Math.exp((reach * Math.sqrt(varianceAlong(curve, gradient))) / Math.abs(slope * value));
  if (!(value > 0) || !(half < WIDEST)) return { ok: false, why: "notIdentified", unit, n };
  return { ok: true, value, unit, n, interval: [value / half, value * half], level };
}

// `start` tells from which side the law comes
function mayEndBefore(asymptote: CurveParameter, target: number, start: number): boolean {
  const ends = asymptote.ok ? asymptote.interval : asymptote.ends;
  const near = start > 0 ? ends?.[1] : ends?.[0];
  if (near === undefined) return !asymptote.ok;
  if (near === null) return true;
  return start > 0 ? near >= target : near <= target;
}
