// Simulated sessions of ten minutes at 1 kHz as one stream, of any number, none of which is ever a file.

import { simulateRecording } from "aimed-movement/simulate";
import { formatRecording } from "aimed-movement/trace";

/** Movements that fill ten minutes. */
const MOVEMENTS = 425;
/** Recordings that are simulated; a stream takes them in turn, each time as another sitting of another person. Simulating each anew would be measured, too. */
const DIFFERENT = 4;

/** A session's text, apart from its first line. */
export interface Body {
  readonly text: Buffer;
  readonly samples: number;
}

/** The recordings, with a sample every millisecond. */
export function simulateBodies(): Body[] {
  return Array.from({ length: DIFFERENT }, (_, i) => {
    const { recording } = simulateRecording({ seed: 600 + i, movements: MOVEMENTS, sampleRateHz: 1000, recorder: { eventsOnly: false } });
    const session = { person: "x", startedAt: "2026-01-01T00:00:00Z", equipment: { id: "desk" }, recordings: [recording] };
    const text = formatRecording(session);
    return { text: Buffer.from(text.slice(text.indexOf("\n") + 1)), samples: recording.trace.t.length };
  });
}

/** The first line of the session of this number: fifty sittings a person. */
export function headOf(number: number): string {
  const startedAt = new Date(Date.UTC(2026, 0, 1) + number * 864e5).toISOString();
  return `${JSON.stringify({ kind: "session", schema: 1, person: `person-${Math.floor(number / 50)}`, startedAt, equipment: { id: "desk" } })}\n`;
}
