import { describe, expect, it } from "vitest";
import { bundledBytes } from "./bundle.js";
import { entryFolders, publicNames } from "./checks/public.js";

/** Bytes, minified and gzipped, of a program that imports this one function from its subpath: a sixth above what it is, so that growth is noticed. */
const BUDGETS: Readonly<Record<string, number>> = {
  // readers and writers carry every check of a file
  parseRecording: 16_000,
  formatRecording: 9_000,
  fromPointerEvents: 8_000,
  fromRelativeMotion: 7_000,
  // the whole chain from samples to rows
  analyze: 25_000,
  createAnalyzer: 25_000,
  // carries the statistics of every part
  summarize: 10_500,
  variabilityProfile: 10_500,
  segmentMovements: 7_500,
  kinematics: 7_000,
  // condition a recording and resample what they find
  stopProfile: 11_500,
  holdTremor: 12_600,
  idleMovement: 8_500,
  // carries the likelihood of a learner and its search
  trialToTrialLearning: 7_200,
  // carry spectra; orders of targets
  frequencyResponse: 10_400,
  // carries the response, the chain and the detector
  analyzePursuit: 32_300,
  simulatePursuit: 7_500,
  analyzeSequence: 18_200,
  // carries a nonlinear least-squares solver
  decomposeSubmovements: 8_200,
  // what a page that shows one figure loads: bars, not a sixth above
  indexOfDifficulty: 1_000,
  throughput: 3_000,
  // carry distributions, drawn scatters and integrals
  circularErrorProbable: 10_500,
  endpointScatter: 9_600,
  hitProbability: 9_000,
  widthForHitRate: 8_500,
  compareMovementTimeModels: 7_200,
  // carry the laws of practice, their solvers and profiles; the plateau carries the trend and the curve
  fitLearningCurve: 24_500,
  compareLearningCurves: 27_000,
  detectPlateau: 34_500,
  // carry resampling, rearrangements and what short series with spells are worth
  compare: 13_900,
  reliability: 7_000,
  sessionStructure: 11_600,
  // carry likelihoods of scatter and of hits, and their searches
  fitSpeedAccuracy: 13_700,
  recommendPace: 16_400,
  fitPsychometric: 9_800,
  staircaseThreshold: 11_300,
  // carry the laws of the reference, resampling, and their sentences
  diagnose: 16_200,
  planPractice: 8_000,
  // carries every kind of interval a tally allows
  readTally: 9_400,
  // carry the whole chain, and all that comes after it
  summarizeSession: 73_000,
  compareSessions: 19_000,
  reviewPractice: 86_500,
  chartSpecs: 28_500,
  reviewCharts: 37_500,
  // carries the parser and the derivatives of mathjs
  lawFromText: 63_000,
  assessSampling: 10_500,
  resample: 8_500,
  savitzkyGolay: 6_500,
  simulateRecording: 11_700,
  createRecorder: 2_000,
};
/** Any other: enough for one measure with its checks and the statistics it stands on. */
const USUAL = 6_000;

/** Bytes of everything an entry gives: a sixth above what it is; the recorder's is a bar. */
const ENTRIES: Readonly<Record<string, number>> = {
  "": 253_200,
  "/endpoints": 27_400,
  "/equipment": 12_400,
  "/fitts": 15_300,
  "/formula": 63_400,
  "/learning": 54_800,
  "/movement": 54_500,
  "/pacing": 28_500,
  "/practice": 24_300,
  "/pursuit": 32_300,
  "/record": 2_000,
  "/report": 166_900,
  "/tally": 11_350,
  "/sequence": 18_300,
  "/simulate": 21_400,
  "/trace": 34_600,
};

describe("the size of the built package", () => {
  it.each(["", ...entryFolders().map((folder) => `/${folder}`)])(
    "of everything in aimed-movement%s is within its budget",
    async (entry) => {
      expect(await bundledBytes(`aimed-movement${entry}`, [])).toBeLessThan(ENTRIES[entry] ?? 0);
    },
  );

  it.each(publicNames().functions.map(({ folder, name }) => [name, folder, BUDGETS[name] ?? USUAL] as const))(
    "of %s alone, from %s, is below %d bytes",
    async (name, folder, budget) => {
      expect(await bundledBytes(`aimed-movement/${folder}`, [name])).toBeLessThan(budget);
    },
  );

  it("has a budget for no function that is gone", () => {
    const names = publicNames().functions.map(({ name }) => name);
    expect(Object.keys(BUDGETS).filter((name) => !names.includes(name))).toEqual([]);
  });
});
