import type { SamplingReport, Support } from "./sampling-report.js";

/** Reports that a movement must span for each measure: the error of the measure then stays near a hundredth (speed) to some hundredths. */
const REPORTS_FOR_PEAK_SPEED = 12;
const REPORTS_FOR_PEAK_DECELERATION = 20;
const REPORTS_FOR_JERK = 30;
/** Tremor of the hand lies around 10 Hz; its band must stay below half the rate. */
const RATE_FOR_TREMOR = 60;
/** The uncertainty of the times may reach one part in so many of a spread: it then adds 2 % to the spread. */
const TIMING_PARTS = 5;
/** Room for rounding: 12 reports at the measured rate are 12. */
const SLACK = 1e-9;

/** What a recording with this rate (`undefined` when too little moves to tell) and this time quantum can carry. */
export function samplingSupport(
  rate: number | undefined,
  timeQuantum: number | undefined,
  movementTime: number,
  timingSd: number,
): SamplingReport["supports"] {
  const reports = rate === undefined ? undefined : rate * movementTime;
  const atLeast = (value: number | undefined, needed: number, unit: string): Support => {
    if (value === undefined) return { ok: false, why: "tooFew", needed, unit };
    return value >= needed * (1 - SLACK) ? { ok: true, value, needed, unit } : { ok: false, why: "belowResolution", value, needed, unit };
  };
  return {
    peakSpeed: atLeast(reports, REPORTS_FOR_PEAK_SPEED, "reports per movement"),
    peakDeceleration: atLeast(reports, REPORTS_FOR_PEAK_DECELERATION, "reports per movement"),
    jerk: atLeast(reports, REPORTS_FOR_JERK, "reports per movement"),
    tremor: atLeast(rate, RATE_FOR_TREMOR, "Hz"),
    eventTiming: timingSupport(rate, timeQuantum, timingSd / TIMING_PARTS),
  };
}

function timingSupport(rate: number | undefined, timeQuantum: number | undefined, needed: number): Support {
  const unit = "s";
  if (rate === undefined) return { ok: false, why: "tooFew", needed, unit };
  // an event lies anywhere between two reports, and its stamp anywhere within a quantum: SD of an even spread, the coarser of the two
  const value = Math.max(1 / rate, timeQuantum ?? 0) / Math.sqrt(12);
  return value < needed ? { ok: true, value, needed, unit } : { ok: false, why: "belowResolution", value, needed, unit };
}
