import type { WeightedProfile } from "./fit-bells.js";

/** Expected error of a fitted bell as a share of the speed of the moment: no bell is the true shape, and time stamps err in proportion to speed. */
const SHAPE_ERROR = 0.02;
/** Without a noise floor: expected noise as a share of the largest speed. */
const DEFAULT_NOISE_SHARE = 0.005;
/** Exact data get at least this, so that samples at rest do not count without limit. */
const LEAST_NOISE_SHARE = 0.001;
/** Samples kept per period of the cutoff; more carry no information, because the profile has been filtered. */
const SAMPLES_PER_PERIOD = 6;
/** What the filter's slope lets through beyond its cutoff, taken out again below; found by simulation, 0.65 to 1 recover nearly alike. */
const IN_BAND = 0.8;
/** Central differences give at least this share of a derivative at the cutoff; sampled any slower, nothing can be said. */
const LEAST_RESPONSE = 0.4;

/** An even velocity profile: sample `i` lies at `t0 + i / sampleRateHz`, seconds. Velocities in any one unit per second. */
export interface VelocityProfile {
  readonly t0: number;
  readonly sampleRateHz: number;
  readonly vx: Float64Array;
  readonly vy: Float64Array;
}

/** What the weights depend on; all resolved by the caller. */
export interface WeighingSettings {
  readonly cutoffHz: number;
  readonly noiseFloor: number | undefined;
  readonly minDuration: number;
  readonly maxDuration: number;
}

/** Thins a profile to what its bandwidth needs, and divides it by the error expected of each sample: noise, and a share of its speed. */
export function weighProfile(profile: VelocityProfile, settings: WeighingSettings): WeightedProfile {
  const { sampleRateHz } = profile;
  const { cutoffHz, noiseFloor, minDuration, maxDuration } = settings;
  const stride = Math.max(1, Math.floor(sampleRateHz / (SAMPLES_PER_PERIOD * cutoffHz)));
  const n = Math.ceil(profile.vx.length / stride);
  const vx = new Float64Array(n);
  const vy = new Float64Array(n);
  const speed = new Float64Array(n);
  const weights = new Float64Array(n);
  let top = 0;
  for (let i = 0; i < n; i++) {
    vx[i] = profile.vx[i * stride]!;
    vy[i] = profile.vy[i * stride]!;
    speed[i] = Math.sqrt(vx[i]! * vx[i]! + vy[i]! * vy[i]!);
    top = Math.max(top, speed[i]!);
  }
  const given = noiseFloor === undefined ? DEFAULT_NOISE_SHARE * top : noiseInBand(noiseFloor, sampleRateHz, cutoffHz);
  const noise = Math.max(given, LEAST_NOISE_SHARE * top);
  for (let i = 0; i < n; i++) {
    const shape = SHAPE_ERROR * speed[i]!;
    // all zero: nothing to weigh
    const weight = noise === 0 ? 1 : 1 / Math.sqrt(noise * noise + shape * shape);
    weights[i] = weight;
    vx[i]! *= weight;
    vy[i]! *= weight;
    speed[i]! *= weight;
  }
  return { step: stride / sampleRateHz, weights, vx, vy, speed, minDuration, maxDuration };
}

/**
 * A noise floor is stated for rounding errors that are white up to half the sampling rate. Those of a slow pointer change slowly and lie within
 * the filter's pass band instead, which raises their part in the velocity by the root of (sampling rate / 2 cutoffs), the same at every rate once
 * the response of central differences at the cutoff, sin(w)/w, is taken out.
 */
function noiseInBand(noiseFloor: number, sampleRateHz: number, cutoffHz: number): number {
  const w = (2 * Math.PI * cutoffHz) / sampleRateHz;
  const response = Math.max(LEAST_RESPONSE, Math.sin(w) / w);
  return (IN_BAND * noiseFloor * Math.sqrt(Math.max(1, sampleRateHz / (2 * cutoffHz)))) / response;
}
