// Live use: what one push of 16 samples costs a page, and whether a long session costs more per sample than a short one.
import type { Chunk, Recording } from "aimed-movement";
import { createAnalyzer } from "aimed-movement/movement";
import { simulateRecording } from "aimed-movement/simulate";
import { chunksOf } from "../tests/live-stream.js";
import type { Figure } from "../tests/validation/figure.js";

const SAMPLES = 16;
const P99_MS = 0.1;
const SOURCE = "performance.now around each push, one warm-up pass";

export async function run(): Promise<Figure[]> {
  const { recording } = simulateRecording({ seed: 77, movements: 2000, sampleRateHz: 1000 });
  const chunks = chunksOf(recording, SAMPLES);
  pushAll(recording, chunks);
  const times = pushAll(recording, chunks).sort();
  const percentile = (share: number): number => times[Math.floor(share * (times.length - 1))]!;
  const part = chunks.slice(0, Math.floor(chunks.length / 8));
  // the least of several runs: other work on the machine only ever adds
  const least = (some: readonly Chunk[]): number => Math.min(...Array.from({ length: 5 }, () => total(pushAll(recording, some))));
  const growth = Math.log(least(chunks) / least(part)) / Math.log(chunks.length / part.length);
  return [
    {
      name: "movement/push of 16 samples at 1000 Hz, 99th percentile, ms",
      value: percentile(0.99),
      bar: `< ${P99_MS}`,
      ok: percentile(0.99) < P99_MS,
      source: SOURCE,
    },
    { name: "movement/push of 16 samples at 1000 Hz, median, ms", value: percentile(0.5), bar: "printed", ok: true, source: SOURCE },
    { name: "movement/push of 16 samples at 1000 Hz, slowest, ms", value: percentile(1), bar: "printed", ok: true, source: SOURCE },
    {
      name: "movement/growth of pushing with the length of the session, exponent",
      value: growth,
      bar: "<= 1.1",
      ok: growth <= 1.1,
      source: SOURCE,
    },
  ];
}

function pushAll(recording: Recording, chunks: readonly Chunk[]): Float64Array {
  const analyzer = createAnalyzer(recording.space);
  return Float64Array.from(chunks, (chunk) => {
    const before = performance.now();
    analyzer.push(chunk);
    return performance.now() - before;
  });
}

function total(times: Float64Array): number {
  return times.reduce((sum, time) => sum + time, 0);
}
