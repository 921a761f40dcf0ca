import type { Estimate } from "../math/estimate.js";
import { medianInPlace } from "../math/median.js";
import { requireLevel } from "../math/require.js";
import { evenSegments } from "../trace/condition/even-grid.js";
import { planGrid } from "../trace/condition/grid-plan.js";
import type { KinematicsOptions } from "../trace/kinematics.js";
import { requireTrace } from "../trace/require-trace.js";
import type { Recording, Space, Trace } from "../trace/types.js";
import type { UniformSegment } from "../trace/uniform.js";
import { shrinkAt } from "./acquisition/local-frame.js";
import { requireRows } from "./require-rows.js";
import { holdSpans, type Span } from "./tremor/hold-spans.js";
import { pooledSpectrum } from "./tremor/pooled-spectrum.js";
import { type StillPiece, stillPieces } from "./tremor/still-pieces.js";
import { tremorBand } from "./tremor/tremor-band.js";
import { tremorEstimates, withoutTremor } from "./tremor/tremor-estimates.js";
import type { Acquisition } from "./types.js";

/** Options of `holdTremor`. */
export interface HoldTremorOptions extends Pick<KinematicsOptions, "sampleRateHz" | "nominalRateHz" | "maxGap" | "quantum"> {
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/** Shaking of the hand at rest. */
export interface HoldTremor {
  /** Root mean square of what lies between 6 and 12 Hz, x and y together, in the space's unit. */
  readonly rms: Estimate;
  /** Where the spectrum is highest in the band, Hz; `notIdentified` when it has no peak within. */
  readonly peakHz: Estimate;
  /** Mean frequency of the power in the band, Hz. */
  readonly meanHz: Estimate;
  /** Share of the power in the band, of all but the drift that a line takes out. */
  readonly bandShare: Estimate;
  /** Holds used, how long they are together, and how long the windows of the spectrum are, seconds. */
  readonly holds: number;
  readonly seconds: number;
  readonly windowSeconds: number;
  /** Samples per second that the holds in fact have, and the step of the positions. */
  readonly sampleRateHz: number;
  readonly quantum: number;
  /** The pooled spectrum up to 25 Hz: frequencies, and squared unit per Hz, x and y together; empty without estimates. */
  readonly hz: readonly number[];
  readonly density: readonly number[];
}

/** Least total of holds, seconds. */
const LEAST_SECONDS = 10;
/** Windows tried, longest first: the first of which the holds fill ten seconds is used, seconds. */
const WINDOWS: readonly number[] = [1, 0.5, 0.25];
/** Slower sampling than 60 Hz does not show a tremor of 12 Hz with its shape; a device of that rate may lose a report now and then, Hz. */
const LEAST_RATE = 57;
/** Between movements the hand still moves when its slow path is faster than this share of the movements' median peak speed. */
const MOVING_SHARE = 0.02;
const SHOWN_HZ = 25;

/**
 * How much, and how fast, the pointer trembles while it is held still.
 *
 * With rows, holds are the stretches between movements and presses (0.1 s kept clear of each) in which the path below 3 Hz stays slower than 2 % of the median peak speed; without rows
 * the whole recording is one hold. Spectra of half-overlapping Hann windows (1 s where the holds allow it, else 0.5 or 0.25 s), each less its line,
 * are averaged over all holds and both axes (Welch); nothing is low-pass filtered. Most mice send nothing at rest or round to steps
 * larger than tremor: then the answer is `belowResolution`, which does not mean that there is none.
 *
 * @param recording - positions at 60 Hz or more
 * @param rows - its acquisitions; leave out for a recording of nothing but holding still
 * @param options - see `HoldTremorOptions`
 * @returns estimates with jackknife intervals over groups of windows; `tooFew` under 10 s of holds, `belowResolution` under 60 samples per second of hold or with a position step above `rms`
 * @throws TypeError or RangeError if the trace or an option is not as described
 * @see band: physiological tremor of the hand, 6-12 Hz (recalled); Welch 1967 (recalled)
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 2, movements: 20, pause: [1.5, 2], recorder: { quantum: 0.01, eventsOnly: false } });
 * const { rms } = holdTremor(recording, analyze(recording));
 * rms.ok && Math.round(rms.value * 10) / 10; // => 0.3
 * ```
 */
export function holdTremor(recording: Recording, rows?: readonly Acquisition[], options: HoldTremorOptions = {}): HoldTremor {
  const { level = 0.95, ...grid } = options;
  requireRows("holdTremor", recording, rows ?? []);
  const { trace, space } = recording;
  requireTrace("holdTremor", "recording.trace", trace);
  requireLevel("holdTremor", level);
  const spans = holdSpans(recording, rows);
  const plan = planGrid("holdTremor", trace, grid, "linear");
  const none = { holds: 0, seconds: 0, windowSeconds: 0, sampleRateHz: 0, quantum: plan?.quantum ?? 0, hz: [], density: [] };
  if (plan === undefined) {
    // nothing ever moved: a device that is silent at rest
    const silent = spans.reduce((sum, { from, to }) => sum + to - from, 0) >= LEAST_SECONDS;
    return { ...withoutTremor(silent ? "belowResolution" : "tooFew", space.unit, 0), ...none };
  }
  const segments = evenSegments("holdTremor", trace, plan).map((segment) => flatten(segment, space));
  const { pieces, window, seconds } = holdsIn(segments, spans, slowLimit(rows), plan.sampleRateHz);
  const sampleRateHz = seconds > 0 ? samplesWithin(trace, pieces, plan.sampleRateHz) / seconds : 0;
  const found = { holds: pieces.length, seconds, windowSeconds: window, sampleRateHz, quantum: plan.quantum, hz: [], density: [] };
  if (seconds < LEAST_SECONDS) return { ...withoutTremor("tooFew", space.unit, pieces.length), ...found };
  const spectrum = pooledSpectrum(pieces, Math.round(window * plan.sampleRateHz), plan.sampleRateHz);
  const whole = tremorBand(spectrum.hz, spectrum.density);
  if (sampleRateHz < LEAST_RATE || !(plan.quantum <= whole.rms)) {
    return { ...withoutTremor("belowResolution", space.unit, spectrum.windows), ...found };
  }
  const shown = spectrum.hz.filter((hz) => hz <= SHOWN_HZ).length;
  return {
    ...tremorEstimates(spectrum, space.unit, level),
    ...found,
    hz: [...spectrum.hz.subarray(0, shown)],
    density: [...spectrum.density.subarray(0, shown)],
  };
}

/** In a view a step of azimuth counts less away from the horizon. */
function flatten(segment: UniformSegment, space: Space): UniformSegment {
  if (space.kind !== "view") return segment;
  return { ...segment, x: segment.x.map((x, i) => x * shrinkAt(space, segment.y[i]!)) };
}

function slowLimit(rows: readonly Acquisition[] | undefined): number {
  const peaks = Float64Array.from((rows ?? []).flatMap((row) => row.peakSpeed ?? []));
  return peaks.length > 0 ? MOVING_SHARE * medianInPlace(peaks) : Number.POSITIVE_INFINITY;
}

/** The holds that fill the longest window for ten seconds, or those of the shortest one. */
function holdsIn(segments: readonly UniformSegment[], spans: readonly Span[], limit: number, rate: number) {
  let found = { pieces: [] as StillPiece[], window: 0, seconds: 0 };
  for (const window of WINDOWS) {
    const pieces = stillPieces(segments, spans, window, limit);
    found = { pieces, window, seconds: pieces.reduce((sum, { x }) => sum + x.length / rate, 0) };
    if (found.seconds >= LEAST_SECONDS) break;
  }
  return found;
}

/** Samples of the recording itself in the pieces, which are in time order. */
function samplesWithin({ t }: Trace, pieces: readonly StillPiece[], rate: number): number {
  let count = 0;
  let i = 0;
  for (const { from, x } of pieces) {
    const to = from + x.length / rate;
    while (i < t.length && t[i]! < from) i++;
    const first = i;
    while (i < t.length && t[i]! < to) i++;
    count += i - first;
  }
  return count;
}
