import { meanAndSd } from "../math/mean-and-sd.js";
import { requireOneOf, show } from "../math/require.js";
import { groupTrials } from "./cells/group-trials.js";
import { requireTrials } from "./cells/require-trials.js";
import type { PointingTrials } from "./types.js";

/** A rule that tells trials which are no aimed movements of their condition. */
export type ExclusionRule =
  /** Movement time below 0.1 s: the second press of a pair, or a press without an aim. */
  | "doublePress"
  /** Less than half of the amplitude covered. */
  | "travelledTooLittle"
  /** More than twice the amplitude covered. */
  | "travelledTooFar"
  /** More than three standard deviations from the mean of its person and condition along the axis, among the trials that the other rules left. */
  | "beyondThreeSd";

/** Trials with some left out, and which those are. */
export interface ExcludedTrials {
  /** The trials that stay, in their order. */
  readonly trials: PointingTrials;
  /** For each rule the trials it told, by their index in the trials given; a trial stands under the first rule that told it. Rules not asked for tell none. */
  readonly excluded: { readonly [rule in ExclusionRule]: readonly number[] };
}

/** The order in which rules are applied. */
const RULES: readonly ExclusionRule[] = ["doublePress", "travelledTooLittle", "travelledTooFar", "beyondThreeSd"];
/** No press that was aimed at a target seen comes sooner, seconds (common practice, no source). */
const SHORTEST_TIME = 0.1;

/**
 * Leaves out trials by named rules, and says which. Nothing else in this folder leaves out a trial.
 *
 * `doublePress`: time below 0.1 s. `travelledTooLittle`, `travelledTooFar`: below half, above twice the amplitude covered. `beyondThreeSd`: farther
 * than 3 SD from the mean of its person and condition. Report the counts with every figure that was made without these trials. A rule may take a
 * real miss for a fault, and then people look better than they are: decide on rules before looking at results. Among n trials no distance
 * exceeds (n - 1)/sqrt(n) SD, so that `beyondThreeSd` never tells one of 10 or fewer. Cost O(n).
 *
 * @param trials - columns, see `PointingTrials`
 * @param rules - the rules to apply, in any order
 * @returns new columns and the indices told by each rule
 * @throws TypeError if an argument is of another kind; RangeError if columns differ in length, or an entry or a rule is out of range
 * @see Soukoreff and MacKenzie 2004 (outliers, double presses; recalled). The limit of 0.1 s: common practice, no source
 * @example
 * ```ts
 * const trials = {
 *   amplitude: Float64Array.of(300, 300, 300),
 *   width: Float64Array.of(40, 40, 40),
 *   movementTime: Float64Array.of(0.61, 0.04, 0.66),
 *   along: Float64Array.of(4, 5, -180),
 * };
 * excludeTrials(trials, ["doublePress", "travelledTooLittle"]).excluded; // => { doublePress: [1], travelledTooLittle: [2], travelledTooFar: [], beyondThreeSd: [] }
 * ```
 */
export function excludeTrials(trials: PointingTrials, rules: readonly ExclusionRule[]): ExcludedTrials {
  requireTrials("excludeTrials", trials);
  if (!Array.isArray(rules)) throw new TypeError(`excludeTrials: rules must be an array, got ${show(rules)}`);
  for (const [i, rule] of rules.entries()) requireOneOf("excludeTrials", `rules[${i}]`, rule, RULES);
  const excluded: Record<ExclusionRule, number[]> = { doublePress: [], travelledTooLittle: [], travelledTooFar: [], beyondThreeSd: [] };
  let kept = Array.from(trials.along, (_, i) => i);
  for (const rule of RULES.filter((one) => rules.includes(one))) {
    const tells = teller(trials, kept, rule);
    excluded[rule] = kept.filter(tells);
    kept = kept.filter((i) => !tells(i));
  }
  return { trials: pick(trials, kept), excluded };
}

/** Whether a rule tells the trial of an index, given those still there. */
function teller(trials: PointingTrials, kept: readonly number[], rule: ExclusionRule): (i: number) => boolean {
  const { amplitude, along, travelled, movementTime } = trials;
  const distance = (i: number): number => travelled?.[i] ?? amplitude[i]! + along[i]!;
  if (rule === "doublePress") return (i) => movementTime[i]! < SHORTEST_TIME;
  if (rule === "travelledTooLittle") return (i) => distance(i) < amplitude[i]! / 2;
  if (rule === "travelledTooFar") return (i) => distance(i) > 2 * amplitude[i]!;
  const far = new Set<number>();
  for (const { trials: own } of groupTrials(pick(trials, kept))) {
    const { mean, sd } = meanAndSd(own.map((trial) => trial.along));
    for (const trial of own) if (Math.abs(trial.along - mean) > 3 * sd) far.add(kept[trial.at]!);
  }
  return (i) => far.has(i);
}

function pick(trials: PointingTrials, kept: readonly number[]): PointingTrials {
  const column = (from: Float64Array): Float64Array => Float64Array.from(kept, (i) => from[i]!);
  const { amplitude, width, movementTime, along, travelled, hit, person } = trials;
  return {
    amplitude: column(amplitude),
    width: column(width),
    movementTime: column(movementTime),
    along: column(along),
    ...(travelled && { travelled: column(travelled) }),
    ...(hit && { hit: column(hit) }),
    ...(person && { person: kept.map((i) => person[i]!) }),
  };
}
