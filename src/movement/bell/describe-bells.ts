import { lognormalPeakTime, lognormalSpeed } from "../../math/lognormal-bell.js";
import { minimumJerkSpeed } from "../../math/minimum-jerk.js";
import { type BellFit, offsetOf } from "./fit-bells.js";

/** The primary submovement covers at least this share of the net displacement. */
const PRIMARY_SHARE = 0.5;

/** One component. Its bell may reach beyond the profile at either end. */
export interface SubmovementComponent {
  /** Seconds, on the profile's clock. */
  readonly onset: number;
  /** Seconds. */
  readonly duration: number;
  /** Displacement, to the right and downward, in the space's unit. */
  readonly dx: number;
  readonly dy: number;
  /** Length of the displacement. */
  readonly amplitude: number;
  /** Largest speed of this component alone, unit per second, and its time, seconds. */
  readonly peakSpeed: number;
  readonly peakTime: number;
  /** Shape, when the component is a lognormal: mu below 0 peaks early, above 0 late; smaller sigma is narrower. */
  readonly mu?: number;
  readonly sigma?: number;
}

/** The components of a fit in order of onset, on the profile's clock. Those without any displacement are left out. */
export function describeBells(fit: BellFit, t0: number): SubmovementComponent[] {
  const components = fit.kinds.map((kind, k): SubmovementComponent => {
    const at = offsetOf(fit.kinds, k);
    const onset = fit.parameters[at]!;
    const duration = fit.parameters[at + 1]!;
    // adding 0 turns a negative zero, which JSON cannot carry, into 0
    const dx = fit.dx[k]! + 0;
    const dy = fit.dy[k]! + 0;
    const amplitude = Math.sqrt(dx * dx + dy * dy);
    const mu = fit.parameters[at + 2]!;
    const sigma = fit.parameters[at + 3]!;
    const skewed = kind === "lognormal";
    const peak = skewed ? lognormalPeakTime(mu, sigma) : 0.5;
    const speed = skewed ? lognormalSpeed(peak, mu, sigma) : minimumJerkSpeed(peak);
    const times = { onset: t0 + onset, peakTime: t0 + onset + peak * duration };
    return { ...times, duration, dx, dy, amplitude, peakSpeed: (amplitude * speed) / duration, ...(skewed ? { mu, sigma } : {}) };
  });
  return components.filter((c) => c.amplitude > 0).sort((a, b) => a.onset - b.onset);
}

/** Index of the first component that covers half of the net displacement, else of the largest. */
export function primaryOf(components: readonly SubmovementComponent[]): number {
  let x = 0;
  let y = 0;
  let largest = 0;
  components.forEach((c, k) => {
    x += c.dx;
    y += c.dy;
    if (c.amplitude > components[largest]!.amplitude) largest = k;
  });
  const share = PRIMARY_SHARE * Math.sqrt(x * x + y * y);
  const first = components.findIndex((c) => c.amplitude >= share);
  return first < 0 ? largest : first;
}
