import { meanAndSd } from "../../math/mean-and-sd.js";
import type { PointingCell } from "../types.js";
import { WIDTHS_PER_SD } from "../widths-per-sd.js";
import type { CellTrial, TrialCell } from "./group-trials.js";

/** The figures of one cell, at least one trial: IDe = log2(Ae/We + 1), throughput IDe over the mean movement time. */
export function describeCell({ trials, ...condition }: TrialCell): PointingCell {
  const n = trials.length;
  const { mean: bias, sd } = meanAndSd(trials.map((trial) => trial.along));
  const effectiveAmplitude = meanOf(trials, "travelled");
  const movementTime = meanOf(trials, "movementTime");
  const difficulty = effectiveDifficulty(effectiveAmplitude, sd);
  return {
    ...condition,
    n,
    movementTime,
    hitShare: trials.filter((trial) => trial.hit).length / n,
    bias: bias + 0, // a negative zero would not survive JSON
    sd: n < 2 ? null : sd,
    effectiveWidth: sd > 0 ? WIDTHS_PER_SD * sd : null,
    effectiveAmplitude,
    effectiveDifficulty: difficulty,
    throughput: difficulty === null ? null : difficulty / movementTime,
  };
}

export function meanOf(trials: readonly CellTrial[], column: "travelled" | "movementTime"): number {
  return meanAndSd(trials.map((trial) => trial[column])).mean;
}

/** log2(Ae/We + 1), or `null` where it has no value: without spread, or when the movements went away from the target. */
export function effectiveDifficulty(effectiveAmplitude: number, sd: number): number | null {
  const difficulty = Math.log2(effectiveAmplitude / (WIDTHS_PER_SD * sd) + 1);
  return difficulty > 0 && Number.isFinite(difficulty) ? difficulty : null;
}
