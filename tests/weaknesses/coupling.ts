// Which measure each planted weakness lawfully moves. Written down before the study was run; a line that the study changed says so.
import type { SimulateRecordingOptions } from "../../src/simulate/index.js";
import type { MeasureName } from "./measures.js";

/** One part made worse. */
export interface Weakness {
  /** Which of the four parts it sits in. */
  readonly part: "primary" | "corrections" | "stop and press" | "next target";
  /** What is worse, in words. */
  readonly worse: string;
  /** What changes in the trainee; the rest stays. */
  readonly options: SimulateRecordingOptions;
  /** The measure that is meant to show it. */
  readonly target: MeasureName;
  /** Others that it moves too, each with the reason. All remaining measures must stay where they are. */
  readonly moves: Partial<Record<MeasureName, string>>;
}

/**
 * A trainee: the simulator's usual one (an aim that falls 3 % short with a spread of 5 % along and 2.5 % across, presses 70 ms after the stop), whose
 * corrections begin 50 to 200 ms after the primary ended. Earlier ones overlap the primary, and no detector tells what belongs to which.
 */
export const TRAINEE: SimulateRecordingOptions = { movements: 300, sampleRateHz: 250, correction: { onset: [0.05, 0.2] } };

const MORE_TO_CORRECT = {
  correctionCount: "more primaries end outside tolerance",
  correctionTime: "more and larger errors to remove",
  decelerationShare: "corrections lengthen the time after the peak",
  hits: "movements that never correct end farther out",
  pathEfficiency: "the way back is path beyond need",
} as const;

export const WEAKNESSES: Readonly<Record<string, Weakness>> = {
  "scattered aim": {
    part: "primary",
    worse: "spread of the primary 40 % larger, along and across",
    options: { primary: { alongSd: 0.07, acrossSd: 0.035 } },
    target: "aimSpreadAlong",
    moves: { aimSpreadAcross: "planted with it", ...MORE_TO_CORRECT },
  },
  "aim that falls short": {
    part: "primary",
    worse: "primary ends 7 instead of 3 % short",
    options: { primary: { alongBias: -0.07 } },
    target: "aimBias",
    moves: { aimSpreadAlong: "bias grows with distance, and distances are mixed", ...MORE_TO_CORRECT },
  },
  "slow movement": {
    part: "primary",
    worse: "primary takes 50 ms longer",
    options: { primary: { timeIntercept: 0.17 } },
    target: "primaryTime",
    moves: { decelerationShare: "corrections take up a smaller share of a longer movement" },
  },
  "late corrections": {
    part: "corrections",
    worse: "corrections begin 80 ms later",
    options: { correction: { onset: [0.13, 0.28] } },
    target: "correctionLatency",
    moves: { correctionTime: "each correction waits longer", decelerationShare: "so does the stop" },
  },
  "timid corrections": {
    part: "corrections",
    worse: "corrections remove 30 % less",
    options: { correction: { gains: [0.49, 0.7, 0.875] } },
    target: "correctiveGain",
    moves: {
      correctionCount: "what is left is corrected again",
      correctionTime: "each more takes time",
      decelerationShare: "so the stop comes later",
      hits: "more movements end near the edge",
      pathEfficiency: "fewer returns from over-correction",
    },
  },
  "slow press": {
    part: "stop and press",
    worse: "press 40 ms later",
    options: { press: { delay: 0.11 } },
    target: "verification",
    moves: {
      pressTiming: "early presses lie farther from the rest",
      earlyPresses: "fewer presses so near the stop that its own error decides (found by the study)",
    },
  },
  "uneven press": {
    part: "stop and press",
    worse: "spread of the press about the stop 50 instead of 30 ms",
    options: { press: { delaySd: 0.05 } },
    target: "pressTiming",
    moves: {
      verification: "presses cannot come before the stop by chance, so the mean rises",
      earlyPresses: "more presses so near the stop that its own error decides (found by the study)",
    },
  },
  "hasty press": {
    part: "stop and press",
    worse: "12 instead of 3 % of the presses come before the stop",
    options: { press: { earlyShare: 0.12 } },
    target: "earlyPresses",
    moves: {
      verification: "those have none",
      pressTiming: "they lie apart from the rest",
      correctionTime: "a press in motion ends the correction",
      hits: "the pointer is still on its way",
    },
  },
  "slipping press": {
    part: "stop and press",
    worse: "pointer moves twice as far during the press",
    options: { press: { slipSd: 1.2 } },
    target: "slip",
    moves: {},
  },
  "slow to leave": {
    part: "next target",
    worse: "50 ms more before each movement",
    options: { latency: { mu: 0.25 } },
    target: "latency",
    moves: {},
  },
};
