// Sessions of an invented person, as the report takes them.
import { summarizeSession } from "../../src/report/summarize-session.js";
import type { SessionSummary } from "../../src/report/types.js";
import type { SimulateRecordingOptions } from "../../src/simulate/options.js";
import { simulateRecording } from "../../src/simulate/simulate-recording.js";
import type { Equipment, Session } from "../../src/trace/types.js";

export const DESK: Equipment = { id: "desk", refreshHz: 240, latency: 0.02 };

/** The k-th day of practice (from 0) at six in the evening. */
const day = (k: number): string => new Date(Date.UTC(2026, 2, 2 + k, 18)).toISOString();

export function session(k: number, options: SimulateRecordingOptions = {}, equipment: Equipment = DESK, person = "Ada"): Session {
  const { recording } = simulateRecording({ seed: 900 + k, movements: 40, ...options });
  return { person, startedAt: day(k), equipment, recordings: [recording] };
}

/** `count` sessions every other day from the k-th on. */
export function practised(
  count: number,
  optionsOf: (i: number) => SimulateRecordingOptions = () => ({}),
  from = 0,
  equipment: Equipment = DESK,
): SessionSummary[] {
  return Array.from({ length: count }, (_, i) => summarizeSession(session(from + 2 * i, optionsOf(i), equipment)));
}
