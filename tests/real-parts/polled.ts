// What polling does: a mouse reports every 8 ms, a program asks every 10 ms where the pointer is, so that four answers hold five reports and every
// fourth step is twice as long. Speed then seems to beat at 25 Hz.
import { simulateRecording } from "../../src/simulate/simulate-recording.js";
import type { Recording, Trace } from "../../src/trace/types.js";

/** A filter below the beat, Hz. */
export const BELOW_BEAT = 10;
/** Seconds from one question to the next, and from a report to the first question: never both at once, as then chance decides which comes first. */
const POLL = 0.01;
const PHASE = 0.001;

/** Movements of one stroke each, over the distance and width of the choice-reach task, by a mouse of 125 Hz: nothing is ever corrected. */
export function pureReaches(movements: number, seed: number): Recording {
  return simulateRecording({
    seed,
    movements,
    sampleRateHz: 125,
    targets: { amplitude: [1000, 1150], widths: [215], bounds: { width: 4000, height: 4000 } },
    primary: { timeIntercept: 0.3 },
    correction: { pureShare: 1 },
    recorder: { timeJitterSd: 0 },
  }).recording;
}

/** The recording as a program would have it that asks every 10 ms for the last reported position. */
export function polled(recording: Recording): Recording {
  const { t, x, y } = recording.trace;
  const start = t[0]! + PHASE;
  const n = Math.floor((t[t.length - 1]! - start) / POLL) + 1;
  const times = Float64Array.from({ length: n }, (_, k) => start + k * POLL);
  const last = new Int32Array(n);
  let at = 0;
  for (let k = 0; k < n; k++) {
    while (at + 1 < t.length && t[at + 1]! <= times[k]!) at++;
    last[k] = at;
  }
  return { ...recording, trace: { t: times, x: Float64Array.from(last, (i) => x[i]!), y: Float64Array.from(last, (i) => y[i]!) } };
}

/**
 * How alike a step in motion is to the one `lag` samples later, each against the mean of the four about it: 1 where they repeat exactly, 0 where nothing repeats. Steps
 * count where they follow each other without a break and those four cover at least `least` each on average.
 */
export function stepRepetition(recordings: readonly Recording[], lag: number, least = 15): number {
  let product = 0;
  let square = 0;
  for (const { trace } of recordings) {
    const unevenness = unevennessOf(trace, least);
    for (let i = lag; i < unevenness.length; i++) {
      const [now, before] = [unevenness[i]!, unevenness[i - lag]!];
      if (now === 0 || before === 0) continue;
      square += (now * now + before * before) / 2;
      product += now * before;
    }
  }
  return square > 0 ? product / square : 0;
}

/** Each step over the mean of the four about it (five, those at the ends by half), less 1; 0 at rest and beside a break. */
function unevennessOf({ t, x, y }: Trace, least: number): Float64Array {
  const step = Float64Array.from({ length: x.length - 1 }, (_, i) =>
    Math.abs(t[i + 1]! - t[i]! - POLL) < POLL / 10 ? Math.hypot(x[i + 1]! - x[i]!, y[i + 1]! - y[i]!) : Number.NaN,
  );
  return step.map((own, i) => {
    const about = (step[i - 2]! / 2 + step[i - 1]! + own + step[i + 1]! + step[i + 2]! / 2) / 4;
    return about >= least ? own / about - 1 : 0;
  });
}
