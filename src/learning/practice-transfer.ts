import type { Estimate } from "../math/estimate.js";
import { requireLevel, requireOneOf } from "../math/require.js";
import type { Uncertain } from "../math/welch.js";
import { describeRatio, describeSum, type Label, type Sum, unlessFew } from "./days/describe-ratio.js";
import { anyImprovement, type BeforeAfter, type Improvement, type KnownImprovement, measuredImprovement } from "./days/improvement.js";

/** Fewer values than this leave an interval that one odd session decides. */
const FEW = 5;

/** What was measured, all in one unit. */
export interface TransferScores extends BeforeAfter {
  /** The same measure where the task was trained directly: lists, or an improvement known from elsewhere. */
  readonly trained?: BeforeAfter | KnownImprovement;
  /** The same measure without any training between the tests: what testing alone brings. */
  readonly control?: BeforeAfter;
  /** For a part practised in a drill: the same measure inside the drill, while `before` and `after` are from the combined block. */
  readonly drill?: BeforeAfter;
}

/** Options of `practiceTransfer`. */
export interface PracticeTransferOptions {
  /** Label of the measure's unit, default "s". */
  readonly unit?: string;
  /** Which way is improvement, default "lower", as for times and errors. */
  readonly better?: "lower" | "higher";
  /** Confidence level of every interval, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/** What a reader must know before using the scores. */
export type TransferWarning =
  /** Under five values in one of the lists. */
  | "fewValues"
  /** Without a control the improvement holds what testing twice brings: read it as an upper bound. */
  | "noControl"
  /** The task got worse, clear of chance. */
  | "negativeTransfer"
  /** Direct training shows no gain to compare with: the percentage is not given. */
  | "trainingNotShown"
  /** The drill itself shows no improvement: there is nothing to carry over. */
  | "drillNotShown";

/** What practice of one task did for another. Improvements are above 0 when better, whichever way that is. */
export interface PracticeTransfer {
  readonly unit: string;
  readonly level: number;
  readonly better: "lower" | "higher";
  /** Improvement of the task that was not trained; Welch's interval. */
  readonly change: Estimate;
  /** The same less that of the control: the transfer by differences. Without a control equal to `change`, and then an upper bound. */
  readonly difference: Estimate;
  readonly upperBound: boolean;
  /** Difference as a percentage of what direct training gives (less the control, too), %; Fieller's interval. `tooFew` when `trained` is not given. */
  readonly percentage: Estimate;
  /** Difference as a percentage of the level before, %; Fieller's interval; `notIdentified` unless that level is clear of 0. */
  readonly relative: Estimate;
  /** 100 (C - X)/(C + X) of the levels after, of control and of practice (reversed when higher is better), %: between -100 and 100. `tooFew` without a control. */
  readonly symmetric: Estimate;
  /** Improvement inside the combined block over that inside the drill, unit "1"; Fieller's interval. `tooFew` when `drill` is not given. */
  readonly carryOver: Estimate;
  /** By the interval of `difference`; `notShown` is no proof that there is none. */
  readonly verdict: "positive" | "negative" | "notShown";
  readonly warnings: readonly TransferWarning[];
}

/**
 * How much practice of one task does for another, or of a drill for the whole.
 *
 * With X, D and C the improvements of the task without, with direct and with no training: transfer = 100 (X - C)/(D - C) %. The control is
 * taken off both parts, so that 100 % means as good as direct training; without one C = 0, and X holds what testing twice brings.
 * Carry-over of a part = improvement in the combined block over that in the drill. Ratios have Fieller's interval; intervals take the values as
 * independent: give sessions or blocks, not trials. Cost O(values).
 *
 * @param scores - lists before and after, with those of direct training, control and drill where there are any
 * @param options - see `PracticeTransferOptions`
 * @returns the scores with intervals and a verdict; not ok with fewer than two values, or where the part to divide by is too uncertain
 * @throws TypeError or RangeError if a list or an option is not as described
 * @see Gagne, Foster and Crowley 1948 (opening read) for the family of formulas; the symmetric one after Murdock 1957 (as a textbook reports it); Fieller 1954 (recalled)
 * @example
 * ```ts
 * const transfer = practiceTransfer({
 *   before: [1.02, 0.97, 1.05, 0.99, 1.01],
 *   after: [0.91, 0.88, 0.93, 0.9, 0.89],
 *   trained: { before: [1.0, 1.03, 0.98, 1.04, 1.01], after: [0.72, 0.75, 0.7, 0.74, 0.71] },
 *   control: { before: [1.01, 0.98, 1.03, 1.0, 1.02], after: [0.98, 0.96, 1.0, 0.97, 0.99] },
 * });
 * transfer.percentage; // => { ok: true, value: 30.00, unit: "%", n: 5, … }
 * transfer.verdict; // => "positive"
 * ```
 */
export function practiceTransfer(scores: TransferScores, options: PracticeTransferOptions = {}): PracticeTransfer {
  const where = "practiceTransfer";
  const { unit = "s", better = "lower", level = 0.95 } = options;
  requireOneOf(where, "options.better", better, ["lower", "higher"]);
  requireLevel(where, level);
  const task = measuredImprovement(where, "scores", scores, better);
  const { trained: direct, control: untrained, drill: part } = scores;
  const trained = direct === undefined ? undefined : anyImprovement(where, "scores.trained", direct, better);
  const control = untrained === undefined ? undefined : measuredImprovement(where, "scores.control", untrained, better);
  const drill = part === undefined ? undefined : measuredImprovement(where, "scores.drill", part, better);

  const testing = control?.sum.map(({ estimate, factor }) => ({ estimate, factor: -factor })) ?? [];
  const net: Sum = [...task.sum, ...testing];
  const label = (unit: string, ...lists: (Improvement | undefined)[]): Label => {
    return { unit, n: Math.min(...lists.map((list) => list?.n ?? 0)), level };
  };
  const withControl = control === undefined ? [task] : [task, control];
  const difference = unlessFew(label(unit, ...withControl), (own) => describeSum(net, own));
  const gained: Sum = [...(trained?.sum ?? []), ...testing];
  const percentage = unlessFew(label("%", ...withControl, trained), (own) => describeRatio(net, gained, 100, own));
  const carryOver = unlessFew(label("1", task, drill), (own) => describeRatio(task.sum, drill!.sum, 1, own));
  const verdict = verdictOf(difference);
  const warnings: readonly (readonly [TransferWarning, boolean])[] = [
    ["fewValues", [task, trained, control, drill].some((list) => list !== undefined && list.n < FEW)],
    ["noControl", control === undefined],
    ["negativeTransfer", verdict === "negative"],
    [
      "trainingNotShown",
      trained !== undefined && !isPositive(unlessFew(label(unit, ...withControl, trained), (own) => describeSum(gained, own))),
    ],
    ["drillNotShown", drill !== undefined && !isPositive(unlessFew(label(unit, drill), (own) => describeSum(drill.sum, own)))],
  ];
  return {
    unit,
    level,
    better,
    change: unlessFew(label(unit, task), (own) => describeSum(task.sum, own)),
    difference,
    upperBound: control === undefined,
    percentage,
    relative: unlessFew(label("%", ...withControl), (own) => describeRatio(net, [{ estimate: task.before, factor: 1 }], 100, own)),
    symmetric: unlessFew(label("%", task, control), (own) => symmetricRatio(task.after, control!.after, better, own)),
    carryOver,
    verdict,
    warnings: warnings.flatMap(([warning, holds]) => (holds ? [warning] : [])),
  };
}

// the levels after, of control and of practice: their difference over their sum
function symmetricRatio(practice: Uncertain, control: Uncertain, better: "lower" | "higher", label: Label): Estimate {
  const sign = better === "lower" ? 1 : -1;
  const difference = [
    { estimate: control, factor: sign },
    { estimate: practice, factor: -sign },
  ];
  return describeRatio(
    difference,
    difference.map(({ estimate }) => ({ estimate, factor: 1 })),
    100,
    label,
  );
}

function isPositive(change: Estimate): boolean {
  return change.ok && change.interval![0] > 0;
}

function verdictOf(difference: Estimate): PracticeTransfer["verdict"] {
  if (!difference.ok) return "notShown";
  const [low, high] = difference.interval!;
  return low > 0 ? "positive" : high < 0 ? "negative" : "notShown";
}
