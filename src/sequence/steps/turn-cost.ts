import type { Estimate } from "../../math/estimate.js";
import { linearRegression } from "../../math/linear-regression.js";
import { bitsOf } from "../choice/time-law.js";
import type { SequenceStep } from "../types.js";
import type { SequenceTrial } from "./sequence-trials.js";
import { slopeEstimate } from "./slope-estimate.js";

/** Slope of the interval on the size of the turn, beside the difficulty; steps that end in a press. */
export function turnCost(trials: readonly SequenceTrial[], steps: readonly (readonly SequenceStep[])[], level: number): Estimate {
  const turned = trials.flatMap(({ visits }, s) =>
    visits.flatMap(({ row }, i) => {
      const { turnDeg, interval, waiting } = steps[s]![i]!;
      if (turnDeg === undefined || interval === undefined || row.times.press === undefined || row.amplitude === undefined) return [];
      return [{ turn: Math.abs(turnDeg), time: interval - waiting!, bits: bitsOf(row.amplitude, row.width) }];
    }),
  );
  const fit = linearRegression(
    [turned.map(({ turn }) => turn), turned.map(({ bits }) => bits)],
    turned.map(({ time }) => time),
  );
  return slopeEstimate(fit, 1, turned.length, "s/deg", level);
}
