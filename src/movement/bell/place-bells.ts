import { fillBell } from "./bell-columns.js";
import { type BellFit, offsetOf, type WeightedProfile } from "./fit-bells.js";

/** Each duration tried is longer than the one before by this factor. */
const DURATION_RATIO = 1.28;
/** Onsets tried per duration. */
const ONSETS_PER_DURATION = 8;
/** Two places nearer than this are one, seconds between their middles, unless their durations differ by the factor below. */
const NEAR = 0.03;
const ALIKE = 1.5;
/** A bell of which less than this share is its own, the rest being covered by the components there are, is no new place. */
const OWN_SHARE = 1e-3;

/** Where one more component could begin, and how long it could last; seconds from the first sample. */
export interface Place {
  readonly onset: number;
  readonly duration: number;
}

/**
 * The places where one more minimum-jerk bell would lower the squared error most, best first, when onset and duration are taken from a
 * coarse grid and the displacements of all components are fitted anew. With `fit` undefined: places for the first component.
 */
export function placeBells(profile: WeightedProfile, fit: BellFit | undefined, count: number): Place[] {
  const { step, weights } = profile;
  const n = weights.length;
  const span = (n - 1) * step;
  const restX = profile.vx.slice();
  const restY = profile.vy.slice();
  const taken = fit === undefined ? [] : unitBells(profile, fit);
  for (const unit of taken) {
    takeOut(restX, unit);
    takeOut(restY, unit);
  }
  const bell = new Float64Array(n);
  const parameters = new Float64Array(2);
  const places: (Place & { gain: number })[] = [];
  for (let duration = profile.minDuration; duration <= Math.min(profile.maxDuration, 2 * span); duration *= DURATION_RATIO) {
    const hop = duration / ONSETS_PER_DURATION;
    let before = 0;
    let here = 0;
    for (let onset = -duration / 2; onset < span; onset += hop) {
      parameters[0] = onset;
      parameters[1] = duration;
      fillBell("minimumJerk", parameters, 0, profile, bell);
      const from = Math.max(0, Math.floor(onset / step));
      const to = Math.min(n, Math.ceil((onset + duration) / step));
      const next = gainOf(bell, from, to, restX, restY, taken);
      // only the best of neighbouring onsets is a place
      if (here > 0 && here > before && here >= next) places.push({ onset: onset - hop, duration, gain: here });
      before = here;
      here = next;
    }
  }
  places.sort((a, b) => b.gain - a.gain);
  const kept: Place[] = [];
  for (const place of places) {
    if (kept.length >= count) break;
    if (!kept.some((other) => alike(place, other))) kept.push({ onset: place.onset, duration: place.duration });
  }
  return kept;
}

/** By how much the squared error falls when `bell`, nonzero in [from, to), joins the unit bells `taken`. */
function gainOf(
  bell: Float64Array,
  from: number,
  to: number,
  restX: Float64Array,
  restY: Float64Array,
  taken: readonly Float64Array[],
): number {
  let whole = 0;
  let alongX = 0;
  let alongY = 0;
  for (let i = from; i < to; i++) {
    whole += bell[i]! * bell[i]!;
    alongX += bell[i]! * restX[i]!;
    alongY += bell[i]! * restY[i]!;
  }
  let own = whole;
  for (const unit of taken) {
    let dot = 0;
    for (let i = from; i < to; i++) dot += bell[i]! * unit[i]!;
    own -= dot * dot;
  }
  return own > OWN_SHARE * whole ? (alongX * alongX + alongY * alongY) / own : 0;
}

/** The fitted bells made orthonormal, one after another. */
function unitBells(profile: WeightedProfile, fit: BellFit): Float64Array[] {
  const units: Float64Array[] = [];
  for (let k = 0; k < fit.kinds.length; k++) {
    const bell = new Float64Array(profile.weights.length);
    fillBell(fit.kinds[k]!, fit.parameters, offsetOf(fit.kinds, k), profile, bell);
    for (const unit of units) takeOut(bell, unit);
    let square = 0;
    for (let i = 0; i < bell.length; i++) square += bell[i]! * bell[i]!;
    if (square === 0) continue;
    const length = Math.sqrt(square);
    for (let i = 0; i < bell.length; i++) bell[i]! /= length;
    units.push(bell);
  }
  return units;
}

function takeOut(series: Float64Array, unit: Float64Array): void {
  let dot = 0;
  for (let i = 0; i < series.length; i++) dot += series[i]! * unit[i]!;
  for (let i = 0; i < series.length; i++) series[i]! -= dot * unit[i]!;
}

function alike(a: Place, b: Place): boolean {
  const apart = Math.abs(a.onset + a.duration / 2 - b.onset - b.duration / 2);
  return apart <= NEAR && a.duration <= ALIKE * b.duration && b.duration <= ALIKE * a.duration;
}
