import type { Estimate } from "../../math/estimate.js";
import { meanAbsEstimate } from "../../math/mean-abs-estimate.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { medianEstimate } from "../../math/median-estimate.js";
import { proportionEstimate } from "../../math/proportion-estimate.js";
import type { Acquisition, Correction } from "../types.js";
import { type CorrectionTime, type CorrectionTimeLaw, correctionTime } from "./correction-time.js";
import { type CorrectiveGain, correctiveGain } from "./corrective-gain.js";

/** The corrections of a set of acquisitions. Lower is better for counts, times and errors; a gain is best near 1. */
export interface CorrectionSummary {
  /** Mean number per acquisition that moved, and the shares with none, one and more. */
  readonly perAcquisition: Estimate;
  readonly none: Estimate;
  readonly one: Estimate;
  readonly more: Estimate;
  /** From the end of the primary to the first correction, seconds. */
  readonly latency: Estimate;
  /** From the primary's largest speed to the first correction, seconds: it says more where the two touch. */
  readonly fromPeak: Estimate;
  /** At rest between the primary and the stop, mean per acquisition that corrected, seconds. */
  readonly pause: Estimate;
  /** Median length of a correction, and as a share of the target's width. */
  readonly amplitude: Estimate;
  readonly amplitudePerWidth: Estimate;
  /** What share of the error a correction removes, over all that were needed. */
  readonly gain: CorrectiveGain;
  /** Mean size of the angle between the way a needed correction took and the way to the centre, degrees. */
  readonly directionError: Estimate;
  /** Median distance gained on the centre over the path taken, acquisitions with a correction. */
  readonly efficiency: Estimate;
  /** Median share of the primary's error that was gone at the stop, the same acquisitions. */
  readonly netEfficiency: Estimate;
  /** Shares of all corrections that began on the target, that left a larger error, that moved back along the axis. */
  readonly unnecessary: Estimate;
  readonly counterProductive: Estimate;
  readonly reversal: Estimate;
  /** Share of acquisitions whose primary ended off the target, was not corrected and whose first press missed. */
  readonly missing: Estimate;
  /** How the time from the primary's end to the stop depends on the error that was left. */
  readonly time: CorrectionTime;
}

/** Summarises the corrections of rows that moved and whose boundaries are sound. */
export function summarizeCorrections(
  moved: readonly Acquisition[],
  unit: string,
  level: number,
  law: CorrectionTimeLaw | undefined,
): CorrectionSummary {
  const all = moved.flatMap((row) => row.corrections);
  const corrected = moved.filter((row) => row.corrections.length > 0);
  const needed = all.filter((correction) => !correction.unnecessary);
  const rows = (test: (row: Acquisition) => boolean): Estimate => proportionEstimate(moved.filter(test).length, moved.length, level);
  const share = (test: (correction: Correction) => boolean): Estimate => proportionEstimate(all.filter(test).length, all.length, level);
  const median = (values: readonly number[], label: string): Estimate => medianEstimate(values, label, level);
  const counts = moved.map((row) => row.corrections.length);
  const angles = needed.flatMap((correction) => correction.directionErrorDeg ?? []);
  return {
    perAcquisition: meanEstimate(counts, "1", level),
    none: rows((row) => row.corrections.length === 0),
    one: rows((row) => row.corrections.length === 1),
    more: rows((row) => row.corrections.length > 1),
    latency: median(
      corrected.map((row) => row.corrections[0]!.latency),
      "s",
    ),
    fromPeak: median(
      corrected.map((row) => row.corrections[0]!.fromPeak),
      "s",
    ),
    pause: meanEstimate(
      corrected.map((row) => row.correctionPhase?.pause ?? 0),
      "s",
      level,
    ),
    amplitude: median(
      all.map((correction) => correction.amplitude),
      unit,
    ),
    amplitudePerWidth: median(
      moved.flatMap((row) => row.corrections.map((correction) => correction.amplitude / row.width)),
      "1",
    ),
    gain: correctiveGain(moved, level, unit),
    directionError: meanAbsEstimate(angles, "deg", level),
    efficiency: median(
      corrected.flatMap((row) => row.correctionPhase?.efficiency ?? []),
      "1",
    ),
    netEfficiency: median(
      corrected.flatMap((row) => row.correctionPhase?.netEfficiency ?? []),
      "1",
    ),
    unnecessary: share((correction) => correction.unnecessary),
    counterProductive: share((correction) => correction.counterProductive),
    reversal: share((correction) => correction.reversal === true),
    missing: rows((row) => row.correctionPhase?.missing === true),
    time: correctionTime(moved, level, law),
  };
}
