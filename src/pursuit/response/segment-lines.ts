import { chanceCoherence, coherence, independentSegments, relativeGainError } from "../../math/coherence.js";
import { crossDensity } from "../../math/cross-density.js";
import { spectralWindow } from "../../math/spectral-window.js";
import { lagByPhase, wrapAngle } from "./lag-by-phase.js";
import type { ResponseLine, ResponseLines } from "./response-line.js";

/** Settings of one measurement by segments. */
export interface SegmentSettings {
  readonly sampleRateHz: number;
  /** Samples per segment, and samples that neighbours share. */
  readonly segment: number;
  readonly overlap: number;
  readonly window: "hann" | "boxcar";
  readonly maxHz: number;
  readonly level: number;
  /** Whether the pointer is moved back by its delay first. */
  readonly align: boolean;
}

/** A frequency at which the target has less than this share of its highest density is not driven: what is there has leaked from elsewhere. */
const LEAST_DRIVE = 1e-8;

/**
 * Frequencies above 0 by averaging over windowed segments. With `align` the delay is looked for first, in segments side by side, and the pointer moved back by
 * it in whole samples: where a segment of the pointer answers to another stretch of the target than its own, gain and coherence come out low.
 */
export function segmentLines(target: Float64Array, pointer: Float64Array, settings: SegmentSettings): ResponseLines {
  const shift = settings.align ? shiftOf(target, pointer, settings) : 0;
  return linesAt(target, pointer, settings, shift);
}

/** Samples by which the pointer comes later; 0 where nothing tells. */
function shiftOf(target: Float64Array, pointer: Float64Array, settings: SegmentSettings): number {
  const { lines } = linesAt(target, pointer, { ...settings, overlap: 0 }, 0);
  const lag = lagByPhase(lines.filter((line) => line.aboveChance));
  return lag === undefined || lag.ambiguous ? 0 : Math.round(lag.delay * settings.sampleRateHz);
}

function linesAt(target: Float64Array, pointer: Float64Array, settings: SegmentSettings, shift: number): ResponseLines {
  const { sampleRateHz, segment, overlap, window, maxHz, level } = settings;
  const cross = crossDensity(target, pointer, { sampleRateHz, segment, overlap, window, shift });
  const shares = coherence(cross);
  const independent = independentSegments(cross.segments, window, segment, segment - overlap);
  const chanceLevel = chanceCoherence(independent, level);
  // half-way to rounding: a bin counts that was meant to lie at maxHz
  const last = cross.hz.filter((hz) => hz <= maxHz * (1 + 1e-9)).length - 1;
  const strongest = cross.first.subarray(1).reduce((most, power) => Math.max(most, power), 0);
  const lines = Array.from({ length: Math.max(0, last) }, (_, i): ResponseLine => {
    const j = i + 1;
    const power = cross.first[j]!;
    const share = shares[j]!;
    const driven = power > LEAST_DRIVE * strongest;
    const hz = cross.hz[j]!;
    const size = Math.sqrt(cross.re[j]! * cross.re[j]! + cross.im[j]! * cross.im[j]!);
    const gain = driven ? size / power : 0;
    return {
      hz,
      gain,
      phase: wrapAngle(Math.atan2(cross.im[j]!, cross.re[j]!) - (2 * Math.PI * hz * shift) / sampleRateHz),
      coherence: share,
      chanceLevel,
      aboveChance: driven && share > chanceLevel,
      // one segment's worth is spent on the gain itself
      error: driven && share > 0 ? gain * relativeGainError(share, independent - 1) : Number.POSITIVE_INFINITY,
      df: 2 * (independent - 1),
    };
  });
  return {
    lines,
    segments: cross.segments,
    independent,
    linesPerIndependent: linesPerIndependent(settings),
    segment: segment / sampleRateHz,
  };
}

/**
 * Neighbouring lines err together, since a window spreads each frequency over its neighbours: what n lines know counts as much as n over this number
 * (closed form: sum over all lines and segments of the squared share that two windowed segments have in common, over the same within one line).
 */
function linesPerIndependent({ window, segment, overlap }: SegmentSettings): number {
  const weights = spectralWindow(window, segment);
  let within = 0;
  let across = 0;
  for (let lag = 0; lag < segment; lag += segment - overlap) {
    let sum = 0;
    let squares = 0;
    for (let k = lag; k < segment; k++) {
      const both = weights[k]! * weights[k - lag]!;
      sum += both;
      squares += both * both;
    }
    const sides = lag === 0 ? 1 : 2;
    within += sides * sum * sum;
    across += sides * segment * squares;
  }
  return across / within;
}
