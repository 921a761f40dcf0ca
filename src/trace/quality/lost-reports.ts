import type { SamplingSteps } from "./sampling-steps.js";

/** Longest run of lost reports that is still told apart from a pause: an interval of four reports. */
const MOST_REPORTS = 4;
/** How far an interval may lie from a whole number of report intervals, as a share of one. */
const TOLERANCE = 0.25;
/** Steps beside the interval must be this many quanta long: a slower device may have had nothing to report. */
const CLEAR_STEP = 4;
/** Speed across the interval against the speed beside it. */
const STEADY = 2;

/**
 * Reports lost in steady motion. An interval counts when the intervals on both sides last one report each and are clearly in motion, and
 * when it lasts one to four reports at a like speed. Of the reports due in those intervals (`due`), `lost` did not come. Conditions on the
 * neighbours alone do not favour short or long intervals, so that `lost / due` estimates the share lost when losses are independent.
 */
export function lostReports(steps: SamplingSteps, interval: number, quantum: number): { lost: number; due: number; intervals: number } {
  const { dt, distance } = steps;
  const clear = (i: number): boolean => Math.abs(dt[i]! / interval - 1) <= TOLERANCE && distance[i]! >= CLEAR_STEP * quantum;
  let lost = 0;
  let due = 0;
  let intervals = 0;
  for (let i = 1; i + 1 < dt.length; i++) {
    if (!clear(i - 1) || !clear(i + 1)) continue;
    const reports = Math.round(dt[i]! / interval);
    if (reports < 1 || reports > MOST_REPORTS || Math.abs(dt[i]! / interval - reports) > TOLERANCE) continue;
    const beside = (distance[i - 1]! + distance[i + 1]!) / (dt[i - 1]! + dt[i + 1]!);
    const ratio = distance[i]! / dt[i]! / beside;
    if (ratio > STEADY || ratio < 1 / STEADY) continue;
    intervals++;
    due += reports;
    lost += reports - 1;
  }
  return { lost, due, intervals };
}
