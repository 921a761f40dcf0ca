/** Physiological tremor of the hand lies here, Hz. */
const LOW_HZ = 6;
const HIGH_HZ = 12;
/** Rates are measured, so that a bin meant for an end of the band misses it by a little: bins count up to this share of their spacing outside. */
const SLACK = 0.25;

/** What a spectrum holds between 6 and 12 Hz. */
export interface TremorBand {
  /** Root of the power in the band, both axes together. */
  readonly rms: number;
  /** That power over all of it, 0 Hz left out. */
  readonly share: number;
  /** Where the density in the band is highest, by a parabola through three logarithms; `undefined` when it is highest at an end of the band: then it has no peak there. */
  readonly peakHz: number | undefined;
  /** Mean frequency of the power in the band. */
  readonly meanHz: number;
}

/** Reads the band off a density in even bins. */
export function tremorBand(hz: Float64Array, density: Float64Array): TremorBand {
  const width = hz[1]!;
  let all = 0;
  let inside = 0;
  let moment = 0;
  let top = -1;
  for (let j = 1; j < hz.length; j++) {
    all += density[j]!;
    if (hz[j]! < LOW_HZ - SLACK * width || hz[j]! > HIGH_HZ + SLACK * width) continue;
    inside += density[j]!;
    moment += density[j]! * hz[j]!;
    if (top < 0 || density[j]! > density[top]!) top = j;
  }
  return {
    rms: Math.sqrt(inside * width),
    share: all > 0 ? inside / all : 0,
    peakHz: top < 0 || !(inside > 0) ? undefined : summit(hz, density, top),
    meanHz: inside > 0 ? moment / inside : 0,
  };
}

function summit(hz: Float64Array, density: Float64Array, top: number): number | undefined {
  const [below, here, above] = [density[top - 1]!, density[top]!, density[top + 1] ?? 0];
  if (!(here > below && here >= above && below > 0 && above > 0)) return undefined;
  const [a, b, c] = [Math.log(below), Math.log(here), Math.log(above)];
  return hz[top]! + ((a - c) / (2 * (a - 2 * b + c))) * hz[1]!;
}
