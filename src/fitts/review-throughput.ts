import type { Estimate } from "../math/estimate.js";
import { proportionEstimate } from "../math/proportion-estimate.js";
import { type ThroughputAlternatives, throughputAlternatives } from "./cells/throughput-alternatives.js";
import { type ThroughputWarning, throughputWarnings } from "./cells/throughput-warnings.js";
import { type SpreadCell, type TradeOff, tradeOff } from "./cells/trade-off.js";
import { type ExcludedTrials, excludeTrials } from "./exclude-trials.js";
import { type Throughput, throughput } from "./throughput.js";
import type { PointingTrials } from "./types.js";

/** Options of `reviewThroughput`. */
export interface ReviewThroughputOptions {
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. Higher makes them wider. */
  readonly level?: number;
}

/** A throughput with what stands beside it in an honest report. */
export interface ThroughputReview {
  readonly result: Throughput;
  /** What to beware of, and which published misuse the data look like; empty when nothing was noticed. */
  readonly warnings: readonly ThroughputWarning[];
  /** Share of the trials that hit, with its Wilson interval. */
  readonly hitShare: Estimate;
  /** Trials that the rules of `excludeTrials` would tell; all of them are in the result. */
  readonly suspect: ExcludedTrials["excluded"];
  /** The line MT = a + b IDe and what a change of pace along it would do to the throughput; `null` with too few cells or no rising line. */
  readonly tradeOff: TradeOff | null;
  /** Other numbers that go by the name of throughput, for comparison with old reports only: each is another measure. */
  readonly alternatives: ThroughputAlternatives;
}

/**
 * What a throughput can be trusted for: the published misuses that the data look like, how far it depends on the pace, and the numbers it is mistaken for.
 *
 * A person who is slower and more precise moves along MT = a + b IDe. Throughput IDe/MT is the same everywhere on that line only if a = 0; `tradeOff`
 * follows the fitted line to endpoints spread 1.5 times more and less, and `dependsOnPace` is raised when throughput would move by more than 5 %.
 *
 * @param trials - columns, see `PointingTrials`
 * @param options - see `ReviewThroughputOptions`
 * @returns the throughput, warnings, hit share, suspect trials, trade-off and the other numbers
 * @throws TypeError if a column is of another kind; RangeError if columns differ in length, an entry or an option is out of range
 * @see Soukoreff and MacKenzie 2004 (seven recommendations; recalled). Bounds of the warnings: common practice, no source, where `ThroughputWarning` names none
 * @example
 * ```ts
 * const trials = {
 *   amplitude: new Float64Array(12).fill(300),
 *   width: new Float64Array(12).fill(40),
 *   movementTime: Float64Array.of(0.61, 0.6, 0.66, 0.59, 0.64, 0.57, 0.62, 0.6, 0.63, 0.58, 0.65, 0.61),
 *   along: Float64Array.of(4, 9, 12, 2, 10, 7, 3, 15, 1, 6, 8, 11),
 * };
 * reviewThroughput(trials).warnings; // => ["fewCells", "narrowRange", "unsigned"]
 * ```
 */
export function reviewThroughput(trials: PointingTrials, options: ReviewThroughputOptions = {}): ThroughputReview {
  const { level = 0.95 } = options;
  const result = throughput(trials, { level });
  const { cells, people, throughput: mean } = result;
  const own = people.map(({ person }) => cells.filter((cell) => cell.person === person));
  const spread = own.map((list) => list.filter((cell): cell is SpreadCell => cell.throughput !== null)).filter((list) => list.length > 0);
  const line = tradeOff(spread);
  const { excluded } = excludeTrials(trials, ["doublePress", "travelledTooLittle", "travelledTooFar", "beyondThreeSd"]);
  const hits = cells.reduce((sum, cell) => sum + cell.hitShare * cell.n, 0);
  return {
    result,
    warnings: throughputWarnings({
      people: own,
      throughput: mean.ok ? mean.value : null,
      tradeOff: line,
      excluded,
      unsigned: trials.along.every((along) => along >= 0),
    }),
    hitShare: proportionEstimate(Math.round(hits), trials.along.length, level),
    suspect: excluded,
    tradeOff: line,
    alternatives: throughputAlternatives(spread),
  };
}
