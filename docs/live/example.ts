// A recording for those who do not want to tap: simulated, and called so wherever its name appears.
import { after, named } from "../../examples/club/recordings.mjs";
import { simulatePursuit, simulateRecording } from "../../src/simulate/index.js";
import type { Recording, Session } from "../../src/trace/types.js";
import { type Condition, TARGETS } from "./layout.js";
import { FOLLOWED, LINES } from "./pursuit-path.js";

const CONDITIONS: readonly Condition[] = [180, 360].flatMap((amplitude) => [40, 16].map((width) => ({ amplitude, width })));
/** Rounds of each condition. */
const ROUNDS = 2;
/** Seconds between two parts. */
const BREAK = 5;
const REFRESH = 120;

/** A simulated session of the page's two tasks; the circle is left out, distances and widths are those of the page. */
export function simulatedSession(seed: number): Session {
  const parts = [
    ...Array.from({ length: ROUNDS }, () => CONDITIONS)
      .flat()
      .map(tapping(seed)),
    simulatePursuit({
      seed,
      duration: 30,
      target: { linesX: LINES.x, linesY: LINES.y, lineSpeed: 90, diameter: FOLLOWED },
      display: { frameHz: REFRESH },
    }).recording,
  ];
  const recordings: Recording[] = [];
  let end = 0;
  for (const part of parts) {
    const moved = after(part, end);
    recordings.push(moved);
    end = moved.trials[moved.trials.length - 1]!.tEnd! + BREAK;
  }
  return { person: "simulated person", startedAt: "2026-03-02T18:00:00Z", equipment: { id: "simulated", refreshHz: REFRESH }, recordings };
}

function tapping(seed: number): (condition: Condition, at: number) => Recording {
  return ({ amplitude, width }, at) => {
    const { recording } = simulateRecording({
      seed: seed + at,
      movements: TARGETS,
      sequence: TARGETS,
      targets: { amplitude: [amplitude, amplitude], widths: [width] },
      display: { refreshHz: REFRESH },
    });
    return named(recording, `${amplitude} px away, ${width} px wide`, { amplitude, width });
  };
}
