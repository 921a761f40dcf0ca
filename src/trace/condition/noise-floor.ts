import { warpedCutoff } from "./butterworth.js";
import type { Conditioned } from "./condition-trace.js";

/** Points per unit of decay at which the sum below has converged to rounding: exp(-40) is below a double's resolution of 1. */
const DECAYS = 40;

/** What the rounding of positions alone puts into each series, as standard deviations of one component. */
export interface NoiseFloor {
  readonly position: number;
  readonly speed: number;
  readonly acceleration: number;
  readonly jerk: number;
}

/**
 * Output noise of the whole chain for positions rounded to `quantum`: white noise of SD quantum / sqrt(12) on the grid, the second-order
 * Butterworth filter run both ways (none when `cutoffHz` is undefined), and central differences applied once, twice and three times.
 * Variance = (1/pi) integral over w = 0..pi of |B(w)|^4 (fs sin w)^(2k); the integrand is periodic and smooth, so that an even sum over w
 * converges faster than any power of its length. Unfiltered it is s^2 times 1, 1/(2 dt^2), 0.375/dt^4, 0.3125/dt^6.
 * Taken from the chain, not from stretches at rest: a device that reports changes only is silent there.
 */
export function noiseFloor(quantum: number, sampleRateHz: number, cutoffHz: number | undefined): NoiseFloor {
  const warped = cutoffHz === undefined ? Number.POSITIVE_INFINITY : warpedCutoff(cutoffHz, sampleRateHz, 2, 2);
  // the poles of the filter lie about sqrt(2) * warped off the real axis of w, which sets how fine the sum must be
  const points = Math.ceil(Math.min(1e5, Math.max(16, DECAYS / Math.min(1, Math.SQRT2 * warped))));
  let m0 = 0;
  let m1 = 0;
  let m2 = 0;
  let m3 = 0;
  for (let i = 0; i < points; i++) {
    const half = (Math.PI * (i + 0.5)) / (2 * points);
    const sine = Math.sin(half);
    const cosine = Math.cos(half);
    const ratio = sine / cosine / warped;
    const pass = 1 / (1 + ratio * ratio * ratio * ratio);
    const gain = 4 * sine * sine * cosine * cosine;
    const power = pass * pass;
    m0 += power;
    m1 += power * gain;
    m2 += power * gain * gain;
    m3 += power * gain * gain * gain;
  }
  const sd = quantum / Math.sqrt(12 * points);
  return {
    position: sd * Math.sqrt(m0),
    speed: sd * Math.sqrt(m1) * sampleRateHz,
    acceleration: sd * Math.sqrt(m2) * sampleRateHz ** 2,
    jerk: sd * Math.sqrt(m3) * sampleRateHz ** 3,
  };
}

/** The noise floor of a conditioned recording: none where no rate could be told, unfiltered where it was too slow for the filter. */
export function noiseFloorOf(chain: Conditioned<unknown>): NoiseFloor {
  const { status, quantum, sampleRateHz, cutoffHz } = chain;
  if (sampleRateHz === 0) return { position: 0, speed: 0, acceleration: 0, jerk: 0 };
  return noiseFloor(quantum, sampleRateHz, status === "belowResolution" ? undefined : cutoffHz);
}
