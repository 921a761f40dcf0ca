import type { SequenceTrial } from "../steps/sequence-trials.js";
import type { BetweenTest, Sequence, SequenceWarning } from "../types.js";

/** Fewer sequences than this leave a share of orders known to within a fifth only. */
const ENOUGH_CHOICES = 20;
/** Orders picked at random that all follow the goals with less than this probability were hardly picked. */
const HARDLY = 0.001;

/** What a reader of the figures must know; `chosen` are the sequences with a choice. */
export function sequenceWarnings(
  chosen: readonly SequenceTrial[],
  sequences: readonly Sequence[],
  primary: BetweenTest,
  order: "free" | "given",
): SequenceWarning[] {
  const warnings: SequenceWarning[] = [];
  if (order === "free" && chosen.length < ENOUGH_CHOICES) warnings.push("fewChoices");
  if (order === "free" && followGoals(chosen)) warnings.push("orderOfGoals");
  if (order === "free" && sequences.some(({ flags }) => flags.includes("heuristic"))) warnings.push("heuristic");
  if (!primary.expected.ok && primary.pairs > 0) warnings.push("noSingles");
  return warnings;
}

/** Whether all sequences were taken in the order of their goals, and that is no accident. */
function followGoals(chosen: readonly SequenceTrial[]): boolean {
  let chance = 1;
  for (const { trial, visits, open } of chosen) {
    const places = new Map(open.map(({ target }) => [target.id, trial.goals.indexOf(target.id)]));
    const order = visits.flatMap(({ target }) => places.get(target.id) ?? []);
    if (order.some((place, i) => i > 0 && place < order[i - 1]!)) return false;
    for (let k = 2; k <= order.length; k++) chance /= k;
  }
  return chosen.length > 0 && chance < HARDLY;
}
