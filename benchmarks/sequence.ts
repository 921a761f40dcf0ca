// Sequences: what analysing them costs beside finding their rows, and how it grows. No general-purpose library does either.
import { analyze } from "../src/movement/analyze.js";
import type { Acquisition } from "../src/movement/types.js";
import { analyzeSequence } from "../src/sequence/analyze-sequence.js";
import { simulateRecording } from "../src/simulate/index.js";
import type { Recording } from "../src/trace/types.js";
import type { Outcome } from "../tests/validation/figure.js";
import { growthOf, timed } from "./timing.js";

const SIZES = [100, 1000, 10_000];
const MANY = 10_000;
/** Linear but for one step: up to 400 single movements are put at every pair, and that many come with 2000 acquisitions only. */
const MOST_EXPONENT = 1.15;

interface Drawn {
  readonly recording: Recording;
  readonly rows: readonly Acquisition[];
}

export async function run(): Promise<readonly Outcome[]> {
  const { recording, rows } = draw(MANY);
  const start = performance.now();
  analyze(recording);
  const finding = (performance.now() - start) / 1000;
  const { seconds } = timed(() => analyzeSequence(recording, rows));
  return [
    {
      name: "sequence/analyzeSequence of 1e4 acquisitions, times that of analyze",
      value: seconds / finding,
      bar: "printed",
      ok: true,
      source: `ours, sequences of five; ${(1000 * seconds).toPrecision(3)} against ${(1000 * finding).toPrecision(3)} ms, once`,
    },
    growthOf("sequence/growth of the time of analyzeSequence with acquisitions", SIZES, MOST_EXPONENT, draw, (drawn) =>
      analyzeSequence(drawn.recording, drawn.rows),
    ),
  ];
}

function draw(movements: number): Drawn {
  const { recording } = simulateRecording({ seed: 20261125, movements, sequence: 5, planning: { random: 1, pullShare: 0.1 } });
  return { recording, rows: analyze(recording) };
}
