import { compare } from "../../learning/compare.js";
import type { Comparison } from "../../learning/index.js";
import type { Estimate } from "../../math/estimate.js";
import type { SessionMeasure } from "../measures/session-measures.js";
import type { MeasureComparison, SkillVerdict } from "../types.js";

const FEWEST_SESSIONS = 2;

/** What `compareMeasure` is told about the equipment. */
export interface MeasureContext {
  readonly level: number;
  readonly sameEquipment: boolean;
  /** What the other equipment adds to the measure after; absent where nobody knows. */
  readonly effect: Estimate | undefined;
}

/** One measure of two periods, and whether its change can be one of skill. */
export function compareMeasure(
  measure: SessionMeasure,
  before: readonly (number | undefined)[],
  after: readonly (number | undefined)[],
  { level, sameEquipment, effect }: MeasureContext,
): MeasureComparison {
  const first = known(before);
  const second = known(after);
  const comparison = comparisonOf(measure, first, second, level);
  const allowance = sameEquipment ? undefined : effect;
  return {
    measure: measure.name,
    label: measure.label,
    ...(measure.part && { part: measure.part }),
    comparison,
    ...(allowance && { equipmentEffect: allowance }),
    skill: sameEquipment ? (comparison?.verdict ?? "cannotTell") : corrected(measure, first, second, level, effect),
  };
}

/** The verdict that holds with either end of the equipment's effect taken off; without a known effect nothing can be told. */
function corrected(
  measure: SessionMeasure,
  before: readonly number[],
  after: readonly number[],
  level: number,
  effect: Estimate | undefined,
): SkillVerdict {
  if (!effect?.ok) return "cannotTell";
  const verdicts = (effect.interval ?? [effect.value, effect.value]).map(
    (end) =>
      comparisonOf(
        measure,
        before,
        after.map((value) => value - end),
        level,
      )?.verdict,
  );
  return verdicts[0] !== undefined && verdicts[0] === verdicts[1] ? verdicts[0] : "cannotTell";
}

function comparisonOf(measure: SessionMeasure, before: readonly number[], after: readonly number[], level: number): Comparison | null {
  if (Math.min(before.length, after.length) < FEWEST_SESSIONS) return null;
  // a percentage needs values above 0; a spread of exactly 0, or a time that the equipment's delay exceeds, has none
  if (measure.kind === "percent" && [...before, ...after].some((value) => !(value > 0))) return null;
  const { kind, better, worthwhile, unit } = measure;
  return compare(before, after, { kind, better, worthwhile, unit, level });
}

function known(values: readonly (number | undefined)[]): number[] {
  return values.filter((value) => value !== undefined);
}
