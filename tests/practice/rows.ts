// Acquisitions written down by hand, for tests that need to know every number in them.
import type { Acquisition } from "../../src/movement/types.js";
import type { PractisedSession } from "../../src/practice/types.js";

/** What a test says of a row; the rest is the same in all. */
export interface RowInput {
  readonly latency?: number;
  readonly primary?: number;
  readonly correction?: number;
  readonly verification?: number;
  readonly recovery?: number;
  readonly amplitude?: number;
  readonly width?: number;
  /** Distance from the centre at the end of the primary, at the stop and at the press, in the space's unit. */
  readonly primaryError?: number;
  readonly stopError?: number;
  readonly pressError?: number;
  readonly trial?: string;
  readonly rateHz?: number;
}

export function row(input: RowInput): Acquisition {
  const { latency = 0.25, primary = 0.3, correction = 0.1, verification = 0.08, recovery = 0, amplitude = 400, width = 40 } = input;
  const { primaryError = 10, stopError = 5, pressError = stopError, trial = "t", rateHz = 250 } = input;
  const ends = [latency, latency + primary, latency + primary + correction, latency + primary + correction + verification];
  const at = (along: number) => ({ along, across: 0, radial: Math.abs(along), inside: Math.abs(along) <= width / 2 });
  return {
    trial,
    target: "1",
    block: "1",
    outcome: Math.abs(pressError) <= width / 2 ? "hit" : "miss",
    pressedInMotion: false,
    times: { go: 0, onset: ends[0]!, primaryEnd: ends[1]!, stop: ends[2]!, press: ends[3]!, end: ends[3]! + recovery },
    budget: { latency, primary, correction, clutch: 0, verification, recovery },
    amplitude,
    width,
    submovements: [],
    corrections: [],
    resolution: { sampleRateHz: rateHz, quantum: 1, positionNoise: 0.2, speedNoise: 5 },
    errors: { primary: at(primaryError), stop: at(stopError), press: at(pressError) },
    flags: [],
  };
}

/** A session on the day with this number from 1. */
export function session(
  day: number,
  rows: readonly Acquisition[],
  equipment: PractisedSession["equipment"] = { id: "desk" },
): PractisedSession {
  return { startedAt: new Date(Date.UTC(2026, 0, day, 18)).toISOString(), equipment, rows };
}
