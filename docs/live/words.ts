// Codes of the library in the words of the page.
import type { Acquisition, Flag } from "../../src/movement/types.js";
import type { PursuitWarning } from "../../src/pursuit/types.js";
import { sayEstimate } from "../../src/report/review/say.js";
import type { SessionWarning } from "../../src/report/types.js";
import type { Estimate, SamplingWarningCode } from "../../src/trace/index.js";

/** An estimate with its interval, or why it is not given; `noInterval` says why a value may stand alone. */
export function estimateWords(estimate: Estimate, noInterval = "no interval from so few"): string {
  const words = sayEstimate(estimate);
  return estimate.ok && estimate.interval === undefined ? `${words} (${noInterval})` : words;
}

export const OUTCOME_WORDS: Readonly<Record<Acquisition["outcome"], string>> = {
  hit: "hit",
  miss: "missed",
  recovered: "missed, then hit",
  timeout: "not pressed in time",
  abandoned: "broken off",
};

export const FLAG_WORDS: Readonly<Record<Flag, string>> = {
  noMovement: "no movement seen",
  noAxis: "began on the target",
  beforeGo: "begun before the press before",
  shortPrimary: "short first stroke",
  clutch: "device lifted",
  missingData: "samples missing",
  edge: "at the edge of the screen",
  hidden: "page hidden",
  gainChanged: "gain changed",
  movingTarget: "moving target",
  belowResolution: "sampled too slowly",
  longPress: "held longer than 0.2 s",
};

export const SESSION_WORDS: Readonly<Record<SessionWarning, string>> = {
  noAcquisitions: "There is no acquisition of a standing target in it.",
  fewAcquisitions: "Under 20 acquisitions: spreads are known only to within a factor of about 1.5.",
  sampling: "It was sampled too slowly, too coarsely or with losses for some of the figures.",
  unsoundRows: "More than one acquisition in ten has samples missing, or boundaries that cannot be told.",
  display: "The frames were unsteady, or do not fit the refresh rate stated.",
  equipmentUnknown: "The delay of display and device is not known, and is part of every latency and lag.",
};

export const SAMPLING_WORDS: Readonly<Record<SamplingWarningCode, string>> = {
  fewSamples: "little motion to judge the sampling by",
  lowRate: "fewer than 100 reports per second",
  rateBelowNominal: "slower than the device is said to be",
  framePaced: "one position per frame of the display",
  polled: "asked for beside the device's own rate",
  lostReports: "reports lost",
  gapsInMotion: "gaps in motion",
  bursts: "reports in bunches",
  irregular: "irregular intervals",
  coarseTime: "coarse times",
  coarsePosition: "coarse positions",
  missingValues: "missing positions",
  implausibleJumps: "jumps",
};

export const PURSUIT_WORDS: Readonly<Record<PursuitWarning, string>> = {
  shortRecord: "less than 20 s: too short for a figure to be relied on",
  notAcquired: "the target was not held within the first second",
  missingSamples: "samples are missing and left out",
  saturatedOff: "hardly ever on the target",
  saturatedOn: "nearly always on the target",
  periodicTarget: "the target repeats itself",
  frameRateUnknown: "lags hold half a frame of the display",
  noWholePeriods: "no whole periods",
  fewChanges: "no sudden turns to answer",
};
