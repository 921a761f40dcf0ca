// A lab display: many people point at once at 1 kHz, one thread holds an analyzer for each. What a push costs, and what it leaves to collect.
import { getHeapStatistics } from "node:v8";
import type { Chunk, Recording } from "aimed-movement";
import { createAnalyzer } from "aimed-movement/movement";
import { simulateRecording } from "aimed-movement/simulate";
import { median } from "simple-statistics";
import { countOf } from "../src/report/count-of.js";
import { chunksOf, liveStream } from "../tests/live-stream.js";
import type { Figure } from "../tests/validation/figure.js";

const RATE = 1000;
const SAMPLES = 16;
const SPACE = { kind: "plane", unit: "px" } as const;
/** Seconds of signal between two pushes of one person. */
const TICK = SAMPLES / RATE;
const PEOPLE = [1, 8, 64, 256];
/** Seconds of everybody together: the fewer they are, the longer each is followed. */
const SECONDS = 7680;
/** Other work on the machine only ever adds: the run that took least counts. */
const RUNS = 2;
const SOURCE = `simulated pointers that report at 1 kHz also at rest, a movement every 1.4 s; performance.now around each push; of ${RUNS} runs the one that took least`;

interface Service {
  readonly people: number;
  /** Processor seconds per second of one person's signal. */
  readonly share: number;
  /** Sorted milliseconds of single pushes, and of the pushes of all people that fall due together. */
  readonly pushes: Float64Array;
  readonly ticks: Float64Array;
}

export async function run(): Promise<Figure[]> {
  const { recording } = simulateRecording({ seed: 78, movements: 200, sampleRateHz: RATE, recorder: { eventsOnly: false } });
  const chunks = chunksOf(recording, SAMPLES);
  serve(chunks, 8);
  const runs = Array.from({ length: RUNS }, () => PEOPLE.map((people) => serve(chunks, people)));
  const served = PEOPLE.map((_, k) => runs.map((run) => run[k]!).reduce((least, one) => (one.share < least.share ? one : least)));
  const [one, many] = [served[0]!, served[served.length - 1]!];
  const growth = 1 + Math.log(many.share / one.share) / Math.log(many.people / one.people);
  return [
    ...served.flatMap(({ people, share, pushes, ticks }): Figure[] => {
      const who = `${countOf(people, "live analyzer")}`;
      const late = quantile(ticks, 0.99);
      return [
        {
          name: `scale/push of 16 samples, ${who}, 99th percentile, ms`,
          value: quantile(pushes, 0.99),
          bar: "printed",
          ok: true,
          source: `${SOURCE}; one push in 90 gives a row; median ${quantile(pushes, 0.5).toFixed(4)}, slowest of ${pushes.length} ${quantile(pushes, 1).toFixed(1)} ms`,
        },
        {
          name: `scale/chunks of 16 ms of ${who} served, 99th percentile, ms`,
          value: late,
          bar: "< 16",
          ok: late < 1000 * TICK,
          source: `${SOURCE}; ${(100 * people * share).toFixed(3)} % of one thread`,
        },
      ];
    }),
    {
      name: "scale/growth of the whole cost with the number of live analyzers, exponent",
      value: growth,
      bar: "<= 1.1",
      ok: growth <= 1.1,
      source: served.map(({ people, share }) => `${people}: ${((1e6 * share) / RATE).toFixed(3)} us per sample`).join(", "),
    },
    {
      name: "scale/live analyzers at 1 kHz that fill one thread",
      value: 1 / many.share,
      bar: "printed",
      ok: true,
      source: `1 / share of one of ${many.people}; half of them leave room for everything else`,
    },
    ...allocations(recording),
  ];
}

/** Pushes in the order in which they would arrive: everybody's chunk of one tick, then the next tick. */
function serve(chunks: readonly Chunk[], people: number): Service {
  const crew = Array.from({ length: people }, (_, k) => ({
    analyzer: createAnalyzer(SPACE),
    stream: liveStream(chunks, { from: k / people }),
  }));
  const pushes = new Float64Array(Math.round(SECONDS / people / TICK) * people);
  const ticks = new Float64Array(pushes.length / people);
  for (let tick = 0, push = 0; tick < ticks.length; tick++) {
    for (const { analyzer, stream } of crew) {
      const chunk = stream.next().value;
      const before = performance.now();
      analyzer.push(chunk);
      const spent = performance.now() - before;
      pushes[push++] = spent;
      ticks[tick] = ticks[tick]! + spent;
    }
  }
  const total = ticks.reduce((sum, time) => sum + time, 0);
  return { people, share: total / 1000 / (pushes.length * TICK), pushes: pushes.sort(), ticks: ticks.sort() };
}

function quantile(sorted: Float64Array, share: number): number {
  return sorted[Math.floor(share * (sorted.length - 1))]!;
}

/** Bytes of the heap that pushes take, those that give a row apart: from the heap's own count before and after each push. */
function allocations(recording: Recording): Figure[] {
  const sizes = [SAMPLES, 64, 256].map((samples) => ({ samples, ...bytesOf(recording, samples) }));
  const [live, some, more] = sizes as [(typeof sizes)[0], (typeof sizes)[0], (typeof sizes)[0]];
  const perSample = (more.quiet - some.quiet) / (more.samples - some.samples);
  const source = "v8.getHeapStatistics before and after each push, pushes interrupted by a collection left out; its own bytes taken off";
  return [
    {
      name: "scale/bytes allocated per further sample of a push between acquisitions",
      value: perSample,
      bar: "< 1",
      ok: perSample < 1,
      source: `${source}; medians ${sizes.map(({ samples, quiet }) => `${samples} samples: ${quiet}`).join(", ")} bytes a push`,
    },
    {
      name: "scale/bytes allocated per sample between acquisitions, pushes of 16",
      value: live.meanQuiet / SAMPLES,
      bar: "< 32",
      ok: live.meanQuiet / SAMPLES < 32,
      source: `${source}; mean over pushes without a row, those with a press, target or trial included`,
    },
    {
      name: "scale/bytes allocated while a row is made, kB",
      value: live.row / 1000,
      bar: "printed",
      ok: true,
      source: `${source}; median`,
    },
  ];
}

function bytesOf(recording: Recording, samples: number): { quiet: number; meanQuiet: number; row: number } {
  const PUSHES = 60_000;
  const chunks = chunksOf(recording, samples);
  const taken = (call: () => number): { bytes: number; rows: number } => {
    const before = getHeapStatistics().used_heap_size;
    const rows = call();
    return { bytes: getHeapStatistics().used_heap_size - before, rows };
  };
  const measure = (): { quiet: number[]; row: number[] } => {
    const analyzer = createAnalyzer(SPACE);
    const stream = liveStream(chunks);
    const quiet: number[] = [];
    const row: number[] = [];
    for (let k = 0; k < PUSHES; k++) {
      const chunk = stream.next().value;
      const { bytes, rows } = taken(() => analyzer.push(chunk).length);
      if (bytes < 0) continue;
      if (rows === 0) quiet.push(bytes);
      else row.push(bytes / rows);
    }
    return { quiet, row };
  };
  measure();
  const own = median(Array.from({ length: 1000 }, () => taken(() => 0).bytes));
  const { quiet, row } = measure();
  const mean = quiet.reduce((sum, bytes) => sum + bytes, 0) / quiet.length;
  return { quiet: median(quiet) - own, meanQuiet: mean - own, row: median(row) - own };
}
