import { indexOfDifficulty } from "../../fitts/index-of-difficulty.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import type { MeasureComparison, PeriodsWarning, SessionSummary } from "../types.js";

/** Sessions in a period below which only gross changes show. */
const FEW_SESSIONS = 5;
/** Bits of mean difficulty that make another task. */
const OTHER_TASK = 0.1;
/** Percent of the primary's time, and share of hits, that together make another pace. */
const OTHER_PACE = 5;
const OTHER_HITS = 0.02;

/** What makes two periods hard to compare. */
export function periodsWarnings(
  before: readonly SessionSummary[],
  after: readonly SessionSummary[],
  measures: readonly MeasureComparison[],
  sameEquipment: boolean,
): PeriodsWarning[] {
  const tests: readonly [PeriodsWarning, boolean][] = [
    ["equipment", !sameEquipment],
    ["otherTask", Math.abs(meanDifficulty(after) - meanDifficulty(before)) > OTHER_TASK],
    ["otherPace", tradedOff(measures)],
    ["fewSessions", Math.min(before.length, after.length) < FEW_SESSIONS],
  ];
  return tests.flatMap(([warning, holds]) => (holds ? [warning] : []));
}

function meanDifficulty(sessions: readonly SessionSummary[]): number {
  const bits = sessions.flatMap(({ rows }) =>
    rows.flatMap(({ amplitude, width }) => (amplitude === undefined ? [] : indexOfDifficulty(amplitude, width))),
  );
  return bits.length === 0 ? 0 : meanAndSd(bits).mean;
}

/** Quicker and less often hit, or slower and more often. */
function tradedOff(measures: readonly MeasureComparison[]): boolean {
  const change = (name: string): number => {
    const estimate = measures.find(({ measure }) => measure === name)?.comparison?.change;
    return estimate?.ok ? estimate.value : 0;
  };
  const time = change("primaryTime");
  const hits = change("hitShare");
  return (time < -OTHER_PACE && hits < -OTHER_HITS) || (time > OTHER_PACE && hits > OTHER_HITS);
}
