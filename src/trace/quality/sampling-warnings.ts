import type { PolledSteps } from "./polled-steps.js";
import type { SamplingReport, SamplingWarning, SamplingWarningCode } from "./sampling-report.js";

/** Limits beyond which a figure deserves a second look; design choices, each a round number. */
const LEAST_MOVING = 50;
const LOW_RATE = 100;
const NOMINAL_SHARE = 0.75;
const LOST = 0.02;
const BROKEN = 0.05;
const BURSTS = 0.05;
const IRREGULAR = 0.25;
const QUANTUM_OF_WIDTH = 0.1;
const REPORTS_PER_TICK = 1.1;

/** Warnings of a report in a fixed order, each with its figure and limit. */
export function samplingWarnings(
  report: Omit<SamplingReport, "warnings">,
  polled: PolledSteps | undefined,
  options: { readonly nominalHz?: number; readonly targetWidth?: number },
): SamplingWarning[] {
  const warnings: SamplingWarning[] = [];
  const above = (code: SamplingWarningCode, value: number, limit: number): void => {
    if (value > limit) warnings.push({ code, value, limit });
  };
  const below = (code: SamplingWarningCode, value: number, limit: number): void => {
    if (value < limit) warnings.push({ code, value, limit });
  };
  const { rate, jitter, lostReports, timeQuantum, positionQuantum, framePaced } = report;
  below("fewSamples", report.interval?.n ?? 0, LEAST_MOVING);
  above("missingValues", report.missing, 0);
  above("implausibleJumps", report.jumps.count, 0);
  if (rate.ok) {
    // a rate that rounds to 100 Hz is not below it
    below("lowRate", rate.value * (1 + 1e-9), LOW_RATE);
    if (options.nominalHz !== undefined) below("rateBelowNominal", rate.value, NOMINAL_SHARE * options.nominalHz);
    if (framePaced.suspected && !(rate.value >= NOMINAL_SHARE * (options.nominalHz ?? Number.POSITIVE_INFINITY))) {
      warnings.push({ code: "framePaced", value: rate.value, limit: framePaced.refreshHz ?? rate.value });
    }
    if (polled !== undefined) warnings.push({ code: "polled", value: polled.deviceHz, limit: rate.value });
    if (jitter.ok) above("irregular", jitter.value * rate.value, IRREGULAR);
    // reports within one tick of the clock share a stamp, so that the rate between stamps cannot show them: count them
    if (timeQuantum.ok) above("coarseTime", (timeQuantum.value * (report.interval?.n ?? 0)) / report.timeInMotion, REPORTS_PER_TICK);
  }
  if (lostReports.ok) above("lostReports", lostReports.value, LOST);
  above("gapsInMotion", share(report.bouts.broken, report.bouts.count), BROKEN);
  above("bursts", share(report.bursts.count, report.bursts.of), BURSTS);
  if (options.targetWidth !== undefined && positionQuantum.ok)
    above("coarsePosition", positionQuantum.value / options.targetWidth, QUANTUM_OF_WIDTH);
  return warnings;
}

function share(count: number, of: number): number {
  return of === 0 ? 0 : count / of;
}
