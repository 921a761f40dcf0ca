// A session of four hours at 1 kHz: what stays in memory once its rows are handed out, and what a push costs at the end of it.
import { createAnalyzer } from "aimed-movement/movement";
import { simulateRecording } from "aimed-movement/simulate";
import { heldBytes } from "../tests/held-bytes.js";
import { chunksOf, liveStream } from "../tests/live-stream.js";
import type { Figure } from "../tests/validation/figure.js";

const RATE = 1000;
const SAMPLES = 16;
const HOUR = 3600;
const HOURS = 4;
/** Pushes of the last ten minutes of an hour are timed. */
const TIMED = 600;
const MOST_GROWTH_MB = 0.5;
const MOST_P99_RATIO = 1.5;

export async function run(): Promise<Figure[]> {
  const { recording } = simulateRecording({ seed: 79, movements: 200, sampleRateHz: RATE, recorder: { eventsOnly: false } });
  const chunks = chunksOf(recording, SAMPLES);
  const figures: Figure[] = [];
  for (const ended of [true, false]) {
    const analyzer = createAnalyzer(recording.space);
    const stream = liveStream(chunks, { ended });
    const held: number[] = [];
    const p99: number[] = [];
    let [samples, rows] = [0, 0];
    for (let hour = 1; hour <= HOURS; hour++) {
      const times: number[] = [];
      for (let until = 0; until < hour * HOUR; ) {
        const chunk = stream.next().value;
        const before = performance.now();
        rows += analyzer.push(chunk).length;
        const spent = performance.now() - before;
        samples += chunk.trace.t.length;
        until = chunk.until!;
        if (until > hour * HOUR - TIMED) times.push(spent);
      }
      p99.push(times.sort((a, b) => a - b)[Math.floor(0.99 * times.length)]!);
      held.push((await heldBytes()) / 1e6);
    }
    const growth = held[HOURS - 1]! - held[0]!;
    const ratio = p99[HOURS - 1]! / p99[0]!;
    const told = ended ? "" : ", ends of trials never told";
    const source = `${(samples / 1e6).toFixed(1)} million simulated samples, ${rows} rows handed out and dropped`;
    figures.push(
      {
        name: `scale/growth of what an analyzer holds from hour 1 to hour ${HOURS}, MB${told}`,
        value: growth,
        bar: `< ${MOST_GROWTH_MB}`,
        ok: growth < MOST_GROWTH_MB,
        source: `${source}; heap and columns after a collection, each hour: ${held.map((some) => some.toFixed(3)).join(", ")} MB`,
      },
      {
        name: `scale/99th percentile of a push at hour ${HOURS} over hour 1${told}`,
        value: ratio,
        bar: `< ${MOST_P99_RATIO}`,
        ok: ratio < MOST_P99_RATIO,
        source: `${source}; each hour: ${p99.map((some) => some.toFixed(3)).join(", ")} ms`,
      },
    );
  }
  return figures;
}
