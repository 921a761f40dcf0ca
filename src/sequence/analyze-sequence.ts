import { cvEstimate } from "../math/cv-estimate.js";
import type { Estimate } from "../math/estimate.js";
import { meanEstimate } from "../math/mean-estimate.js";
import { medianEstimate } from "../math/median-estimate.js";
import { proportionEstimate } from "../math/proportion-estimate.js";
import { quantileEstimate } from "../math/quantile-estimate.js";
import { requireLevel, requireNumber, requireOneOf, show } from "../math/require.js";
import { requireRows } from "../movement/require-rows.js";
import type { Acquisition } from "../movement/types.js";
import type { Recording, Trial } from "../trace/types.js";
import { landBetween } from "./between/land-between.js";
import { orderConsistency } from "./choice/consistency.js";
import { repeatOf } from "./choice/layout-of.js";
import { orderChoice } from "./choice/order-choice.js";
import { orderSummary } from "./choice/order-summary.js";
import { sequenceWarnings } from "./choice/sequence-warnings.js";
import { setSizeEffect } from "./choice/set-size.js";
import { type TimeLaw, timeLawOf } from "./choice/time-law.js";
import { describeSteps, LONG_PAUSE } from "./steps/describe-steps.js";
import { overlapOutcomes } from "./steps/overlap-outcomes.js";
import { type SequenceTrial, sequenceTrials } from "./steps/sequence-trials.js";
import { turnCost } from "./steps/turn-cost.js";
import type { Sequence, SequenceAnalysis, SequenceStep } from "./types.js";

/** Options of `analyzeSequence`. */
export interface AnalyzeSequenceOptions {
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. Higher makes them wider. */
  readonly level?: number;
  /** Whether the person chose the order (`"free"`, default) or was told it (`"given"`: no figure of `order` is then a mistake of theirs, and none is computed). */
  readonly order?: "free" | "given";
  /** Law of movement time for `timeRegret`, seconds and seconds per bit of log2(A/W + 1). Default: fitted to the rows. */
  readonly timeLaw?: { readonly intercept: number; readonly slope: number };
  /** Rows of the person's movements to single targets, from any recording in the same unit, for the scatter that landings are tested against; default none. Those of this recording, and to the last target of each sequence, count anyway. */
  readonly singles?: readonly Acquisition[];
  /** What a set of n targets holds: `"onePlus"` log2(n + 1) bits (default) or `"plain"` log2 n. */
  readonly bits?: "onePlus" | "plain";
  /** Names the layout of a trial; trials of one name are repeats, their targets matched by their place in `goals`. Default: the same places and sizes. */
  readonly layout?: (trial: Trial) => string;
}

const WHERE = "analyzeSequence";
/** A downtime longer than this is long, seconds (a choice of this library). */
const LONG_DOWNTIME = 0.15;

/**
 * How several targets are taken one after another: what passes between them, in which order they go, and whether one disturbs the way to another.
 *
 * Times are those of the rows: an interval from press to press is downtime + primary + correction + clutch + verification + recovery. The order is
 * compared, centre to centre from where the pointer was, with the shortest open way through the targets that lay open at the first onset.
 * Ends between two targets are counted for one pair per movement (20 to 90 degrees apart) and held against the person's own scatter. Lower is
 * better, but for `best` and `modalShare`. Cost O(rows), and up to n^2 2^n per sequence of n targets to 12.
 *
 * @param recording - the recording that the rows came from
 * @param rows - its acquisitions; those of trials of kind `"sequence"` are analysed
 * @param options - see `AnalyzeSequenceOptions`
 * @returns every sequence with its steps and its choice, and the figures over all
 * @throws TypeError or RangeError if an option or a row is not as described, or a row comes from another recording
 * @see Hick 1952, Hyman 1953 (set size), Chapman et al. 2010 (reaches toward several goals), Newcombe 1998 (interval of a difference): all recalled; limits and rules are choices of this library
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 3, movements: 60, sequence: 3, planning: { shortest: 1 } });
 * const { order, sequences } = analyzeSequence(recording, analyze(recording));
 * sequences.length; // => 20
 * order!.excess.ok && order!.excess.value.toFixed(3); // => "0.000"
 * ```
 */
export function analyzeSequence(
  recording: Recording,
  rows: readonly Acquisition[],
  options: AnalyzeSequenceOptions = {},
): SequenceAnalysis {
  const { level = 0.95, order = "free", bits = "onePlus", singles = [], timeLaw, layout } = options;
  requireRows(WHERE, recording, rows);
  requireOptions({ level, order, bits, singles, timeLaw, layout });
  const { sequences: trials, singles: own } = sequenceTrials(WHERE, recording, rows);
  const law =
    timeLaw === undefined
      ? timeLawOf(trials.flatMap(({ visits }) => visits.map(({ row }) => row)))
      : { ...timeLaw, source: "given" as const };
  const between = landBetween(trials, [...singles, ...own], level);
  const steps = describeSteps(trials, between.landings);
  const sequences = trials.map((trial, i) => describeSequence(trial, steps[i]!, order === "free" ? law : undefined));
  const choices = sequences.flatMap(({ choice }) => choice ?? []);
  const chosen = trials.filter((_, i) => sequences[i]!.choice !== undefined);
  const later = steps.flatMap((some) => some.slice(1));
  const downtimes = steps.flatMap((some) =>
    some.flatMap(({ latency, waiting }, i) => (latency === undefined || waiting !== 0 || !isPressed(some[i - 1]!) ? [] : [latency])),
  );
  const timed = later.filter(({ latency }) => latency !== undefined);
  const intervals = later.map(({ interval }) => interval!);
  const share = (is: (step: SequenceStep) => boolean): Estimate => proportionEstimate(timed.filter(is).length, timed.length, level);
  return {
    level,
    sequences,
    downtime: {
      median: medianEstimate(downtimes, "s", level),
      lowerQuartile: quantileEstimate(downtimes, 0.25, "s", level),
      upperQuartile: quantileEstimate(downtimes, 0.75, "s", level),
      long: proportionEstimate(downtimes.filter((value) => value > LONG_DOWNTIME).length, downtimes.length, level),
    },
    firstLatency: medianEstimate(
      steps.flatMap(([first]) => first?.latency ?? []),
      "s",
      level,
    ),
    interval: { mean: meanEstimate(intervals, "s", level), variation: cvEstimate(intervals, level) },
    overlap: overlapOutcomes(trials, level),
    hesitations: {
      late: share((step) => step.late),
      paused: share((step) => step.pause > LONG_PAUSE),
      either: share((step) => step.hesitation),
    },
    turnCost: turnCost(trials, steps, level),
    setSize: setSizeEffect(
      trials.flatMap(({ open, visits }) => {
        const latency = visits[0]!.latency;
        return latency === undefined ? [] : [{ targets: open.length, latency }];
      }),
      (n) => Math.log2(bits === "onePlus" ? n + 1 : n),
      level,
    ),
    order:
      order === "given"
        ? null
        : {
            ...orderSummary(choices, recording.space.unit, level),
            ...orderConsistency(
              chosen.map((trial) => repeatOf(trial, layout)),
              level,
            ),
          },
    timeLaw: law,
    between: { primary: between.primary, press: between.press },
    warnings: sequenceWarnings(chosen, sequences, between.primary, order),
  };
}

type RequiredOptions = { readonly [name in keyof Required<AnalyzeSequenceOptions>]: AnalyzeSequenceOptions[name] };

function requireOptions({ level, order, bits, singles, timeLaw, layout }: RequiredOptions): void {
  requireLevel(WHERE, level!);
  requireOneOf(WHERE, "options.order", order!, ["free", "given"]);
  requireOneOf(WHERE, "options.bits", bits!, ["onePlus", "plain"]);
  if (!Array.isArray(singles)) throw new TypeError(`${WHERE}: options.singles must be an array of acquisitions, got ${show(singles)}`);
  if (layout !== undefined && typeof layout !== "function") {
    throw new TypeError(`${WHERE}: options.layout must be a function of a trial, got ${show(layout)}`);
  }
  if (timeLaw === undefined) return;
  if (timeLaw === null || typeof timeLaw !== "object") {
    throw new TypeError(`${WHERE}: options.timeLaw must be an intercept and a slope, got ${show(timeLaw)}`);
  }
  requireNumber(WHERE, "options.timeLaw.intercept", timeLaw.intercept);
  requireNumber(WHERE, "options.timeLaw.slope", timeLaw.slope, 0);
}

/** `law` is `undefined` when the order was given. */
function describeSequence(sequence: SequenceTrial, steps: readonly SequenceStep[], law: TimeLaw | null | undefined): Sequence {
  const { trial, visits } = sequence;
  const { choice, flags } = orderChoice(sequence, law ?? null);
  return {
    trial: trial.id,
    block: trial.block,
    order: visits.map(({ row }) => row.target),
    duration: visits[visits.length - 1]!.row.times.end - visits[0]!.row.times.go,
    steps,
    ...(choice && law !== undefined && { choice }),
    flags,
  };
}

function isPressed({ outcome }: SequenceStep): boolean {
  return outcome === "hit" || outcome === "recovered" || outcome === "miss";
}
