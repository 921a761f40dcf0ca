import type { Estimate } from "../math/estimate.js";
import { meanEstimate } from "../math/mean-estimate.js";
import { medianInPlace } from "../math/median.js";
import { medianEstimate } from "../math/median-estimate.js";
import { proportionEstimate } from "../math/proportion-estimate.js";
import { requireLevel, requireNumber, requireObject } from "../math/require.js";
import { requireList } from "../math/require-list.js";
import { robustSd } from "../math/robust-sd.js";

const WHERE = "displayTiming";
/** Frames under which a share of one in a hundred says nothing. */
const LEAST_INTERVALS = 60;
/** A frame that stays longer than this many intervals was repeated: the next one was not ready. */
const LONG_FRAME = 1.5;
/** Shares and ratios beyond which the timing is no longer what the display promises. Choices. */
const MOST_LONG = 0.01;
const MOST_JITTER = 0.25;
const LEAST_RATE = 0.95;
const MOST_RATE = 1.05;
/** Intervals of this share of the median and up to `LONG_FRAME` last one frame. */
const SHORT_FRAME = 0.5;

/** Options of `displayTiming`. */
export interface DisplayTimingOptions {
  /** Refresh rate that the display is said to have, Hz, above 0. Default: none, and the frames are held against their own median. */
  readonly nominalHz?: number;
  /** Frame rate that the program was limited to, Hz, above 0. Default: none. */
  readonly capHz?: number;
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/** How evenly frames were shown. Seconds. */
export interface DisplayTiming {
  /** Frames, and the time from the first to the last. */
  readonly frames: number;
  readonly duration: number;
  /** Median time from frame to frame. */
  readonly interval: Estimate;
  /** One over the mean of the intervals of half to one and a half medians: right also where time stamps are coarse (16 and 17 ms at 60 Hz). */
  readonly rate: Estimate;
  /** That rate over the one it should have (the nominal or the capped one), less 1; `null` where none is given. */
  readonly rateDifference: number | null;
  /** Share of the frames that stayed longer than 1.5 intervals (of the nominal or capped rate where it is given, else the median). */
  readonly longFrames: Estimate;
  /** Frames that did not come: whole intervals beyond the first in every step, added up. A frame that was shown but not recorded counts, too. */
  readonly missed: number;
  /** The longest time without a new frame. */
  readonly longest: number;
  /** Spread of the intervals, 1.4826 times their median absolute deviation: long frames do not move it. */
  readonly jitter: Estimate;
  /** Without synchronisation a rate beside the refresh rate repeats or drops a frame this often; `null` where rates are alike, or one is not given. */
  readonly beat: { readonly hz: number; readonly period: number } | null;
  /** `steady`; `slow`, `fast`: under 95 or over 105 % of the rate it should have; `unsteady`: more than 1 % long frames, or jitter above a quarter of an interval; `cannotTell`: under 60 intervals. */
  readonly verdict: "steady" | "slow" | "fast" | "unsteady" | "cannotTell";
  /** What decided, one sentence each. */
  readonly reasons: readonly string[];
  readonly options: { readonly nominalHz: number | null; readonly capHz: number | null; readonly level: number };
}

/**
 * How evenly frames were shown: their rate beside the nominal one, long frames, the longest stall, jitter, and the beat of a cap beside the refresh rate.
 *
 * Frame interval T = 1/rate. An event that waits for a frame waits T/2 on average, with a standard deviation of T/sqrt(12). A cap of f beside a refresh rate F, without
 * synchronisation and at a fixed rate, repeats a frame every 1/|F - f| seconds. Frame times say when the program drew; whether the display showed it then is for its maker to say.
 * Cost O(n log n).
 *
 * @param frames - times of the frames, seconds, in order, as a list or column
 * @param options - see `DisplayTimingOptions`
 * @returns figures, verdict and what decided; figures that take more frames are `tooFew`
 * @throws TypeError or RangeError if `frames` is no list of finite times in order, or an option is out of range
 * @see arithmetic; the limits of the verdict are choices of this library
 * @example
 * ```ts
 * const frames = Float64Array.from({ length: 600 }, (_, i) => i / 144);
 * const { rate, beat, verdict } = displayTiming(frames, { nominalHz: 144, capHz: 141 });
 * rate; // => { ok: true, value: 144, unit: "Hz", n: 599, … }
 * beat; // => { hz: 3, period: 0.3333 }
 * verdict; // => "steady"
 * ```
 */
export function displayTiming(frames: ArrayLike<number>, options: DisplayTimingOptions = {}): DisplayTiming {
  requireList(WHERE, "frames", frames);
  requireObject(WHERE, "options", options);
  const { nominalHz, capHz, level = 0.95 } = options;
  if (nominalHz !== undefined) requireNumber(WHERE, "options.nominalHz", nominalHz, 0, undefined, true);
  if (capHz !== undefined) requireNumber(WHERE, "options.capHz", capHz, 0, undefined, true);
  requireLevel(WHERE, level);
  const intervals = intervalsOf(frames);
  const n = intervals.length;
  const median = n === 0 ? Number.NaN : medianInPlace(intervals.slice());
  const few = (unit: string): Estimate => ({ ok: false, why: "tooFew", unit, n });
  const enough = n >= LEAST_INTERVALS && median > 0;
  const expected = expectedInterval(nominalHz, capHz);
  const longest = intervals.reduce((most, interval) => Math.max(most, interval), 0);
  const long = intervals.reduce((count, interval) => count + (interval > LONG_FRAME * (expected ?? median) ? 1 : 0), 0);
  const interval = enough ? medianEstimate(intervals, "s", level) : few("s");
  const scatter = enough ? robustSd(intervals) : 0;
  const rate = enough ? rateOf(intervals, median, level) : few("Hz");
  const rateDifference = rate.ok && expected !== undefined ? rate.value * expected - 1 : null;
  return {
    frames: frames.length,
    duration: n === 0 ? 0 : frames[n]! - frames[0]!,
    interval,
    rate,
    rateDifference,
    longFrames: enough ? proportionEstimate(long, n, level) : few("1"),
    missed: enough ? missedFrames(intervals, expected ?? median) : 0,
    longest,
    jitter: enough ? { ok: true, value: scatter, unit: "s", n } : few("s"),
    beat: beatOf(nominalHz, capHz),
    ...judge({ enough, n, rate: rate.ok ? rate.value : 0, expected, long, jitter: scatter }),
    options: { nominalHz: nominalHz ?? null, capHz: capHz ?? null, level },
  };
}

function intervalsOf(frames: ArrayLike<number>): Float64Array {
  const intervals = new Float64Array(Math.max(0, frames.length - 1));
  for (let i = 0; i < intervals.length; i++) {
    const interval = frames[i + 1]! - frames[i]!;
    if (interval < 0) throw new RangeError(`${WHERE}: frames[${i + 1}] must be at least frames[${i}], ${frames[i]}, got ${frames[i + 1]}`);
    intervals[i] = interval;
  }
  return intervals;
}

/** Seconds between frames that were promised. */
function expectedInterval(nominalHz: number | undefined, capHz: number | undefined): number | undefined {
  if (nominalHz === undefined) return capHz === undefined ? undefined : 1 / capHz;
  return 1 / Math.min(nominalHz, capHz ?? nominalHz);
}

function rateOf(intervals: Float64Array, median: number, level: number): Estimate {
  const mean = meanEstimate(
    intervals.filter((interval) => interval >= SHORT_FRAME * median && interval <= LONG_FRAME * median),
    "Hz",
    level,
  );
  if (!mean.ok) return mean;
  const { value, interval: ends, ...rest } = mean;
  // wide scatter of few intervals may reach a duration of 0, which has no rate
  const turned = ends !== undefined && ends[0] > 0 ? { interval: [1 / ends[1], 1 / ends[0]] as const } : {};
  return { ...rest, value: 1 / value, ...turned };
}

function missedFrames(intervals: Float64Array, frame: number): number {
  return intervals.reduce((sum, interval) => sum + Math.max(0, Math.round(interval / frame) - 1), 0);
}

function beatOf(nominalHz: number | undefined, capHz: number | undefined): DisplayTiming["beat"] {
  if (nominalHz === undefined || capHz === undefined || capHz >= nominalHz) return null;
  const hz = nominalHz - capHz;
  return { hz, period: 1 / hz };
}

interface Judged {
  readonly enough: boolean;
  readonly n: number;
  readonly rate: number;
  readonly expected: number | undefined;
  readonly long: number;
  readonly jitter: number;
}

function judge({ enough, n, rate, expected, long, jitter }: Judged): Pick<DisplayTiming, "verdict" | "reasons"> {
  if (!enough) return { verdict: "cannotTell", reasons: [`${n} intervals between frames are too few: ${LEAST_INTERVALS} are needed.`] };
  const promised = expected ?? 1 / rate;
  const share = long / n;
  const ratio = rate * promised;
  const unsteady = [
    ...(share > MOST_LONG
      ? [`${(100 * share).toFixed(1)} % of the frames stayed longer than ${LONG_FRAME} intervals; 1 % is the most for a steady display.`]
      : []),
    ...(jitter > MOST_JITTER * promised
      ? [`Intervals scatter by ${(1000 * jitter).toFixed(1)} ms, more than a quarter of the ${(1000 * promised).toFixed(1)} ms of a frame.`]
      : []),
  ];
  if (ratio < LEAST_RATE || ratio > MOST_RATE) {
    const rates = `Frames came at ${rate.toFixed(0)} Hz where ${(1 / promised).toFixed(0)} Hz were promised.`;
    return { verdict: ratio < LEAST_RATE ? "slow" : "fast", reasons: [rates, ...unsteady] };
  }
  if (unsteady.length > 0) return { verdict: "unsteady", reasons: unsteady };
  return { verdict: "steady", reasons: [`Frames came at ${rate.toFixed(0)} Hz, ${(100 * share).toFixed(1)} % of them late.`] };
}
