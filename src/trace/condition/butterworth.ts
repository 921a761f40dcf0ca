/** Keeps 99.9 % of the peak speed of a movement of 0.15 s and more of longer ones; lower cutoffs flatten fast movements. */
export const DEFAULT_CUTOFF = 20;
/** The filter has forgotten what lies further away than this many periods of its cutoff. */
export const MEMORY_PERIODS = 3;

/** One second-order (or, with b2 = a2 = 0, first-order) step of a filter; a0 is 1. */
export interface Section {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

/**
 * The design cutoff, as tan(pi f / fs), of one pass out of `passes` such that all passes together are 3 dB down at `cutoffHz`.
 * Each pass multiplies the attenuation, so that uncorrected passes would cut lower than asked.
 * The factor belongs on the warped frequency; put on the frequency itself it is wrong near the top of the band.
 */
export function warpedCutoff(cutoffHz: number, sampleRateHz: number, order: number, passes: number): number {
  const correction = (2 ** (1 / passes) - 1) ** (1 / (2 * order));
  return Math.tan((Math.PI * cutoffHz) / sampleRateHz) / correction;
}

/** Butterworth low-pass of one pass as a cascade, by the bilinear transform; `warped` is tan(pi f / fs) of its 3 dB point. Each section passes 0 Hz unchanged. */
export function butterworthSections(order: number, warped: number): Section[] {
  const sections: Section[] = [];
  for (let k = 0; k < order >> 1; k++) {
    const damping = 2 * Math.sin((Math.PI * (2 * k + 1)) / (2 * order));
    const scale = 1 / (1 + damping * warped + warped * warped);
    const b0 = warped * warped * scale;
    const a1 = 2 * (warped * warped - 1) * scale;
    sections.push({ b0, b1: 2 * b0, b2: b0, a1, a2: (1 - damping * warped + warped * warped) * scale });
  }
  if (order % 2 === 1) {
    const b0 = warped / (1 + warped);
    sections.push({ b0, b1: b0, b2: 0, a1: (warped - 1) / (warped + 1), a2: 0 });
  }
  return sections;
}

/** State of a section that has seen the value 1 for ever, so that a filter started with it does not ring. */
export function settledState(section: Section): [number, number] {
  const second = section.b2 - section.a2;
  return [section.b1 - section.a1 + second, second];
}

/** Runs one section over a column in place, first to last or last to first, from a given state. */
export function runSection(series: Float64Array, section: Section, backward: boolean, state: readonly [number, number]): void {
  const { b0, b1, b2, a1, a2 } = section;
  // the output put into the state update: two multiplications from one state to the next instead of a longer chain
  const c1 = b1 - a1 * b0;
  const c2 = b2 - a2 * b0;
  let [s1, s2] = state;
  const n = series.length;
  const step = backward ? -1 : 1;
  for (let i = backward ? n - 1 : 0; i >= 0 && i < n; i += step) {
    const value = series[i]!;
    series[i] = b0 * value + s1;
    const next = c1 * value + s2 - a1 * s1;
    s2 = c2 * value - a2 * s1;
    s1 = next;
  }
}

/** Runs a cascade forward and back over a column in place; each pass starts settled on the first value that it meets. */
export function filterBothWays(series: Float64Array, sections: readonly Section[]): void {
  if (series.length === 0) return;
  for (const backward of [false, true]) {
    for (const section of sections) {
      const first = series[backward ? series.length - 1 : 0]!;
      const [s1, s2] = settledState(section);
      runSection(series, section, backward, [s1 * first, s2 * first]);
    }
  }
}
