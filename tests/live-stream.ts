// A live session of any length that nobody has to hold: one recording over and over, chunk by chunk, each time later and under other names.
import type { Chunk, Recording, Trace } from "../src/trace/types.js";

/** What can be asked of a stream. */
export interface StreamOptions {
  /** Where in the recording the stream begins, as a share of its length, default 0. What began before is not given. */
  readonly from?: number;
  /** Whether the ends of trials are told, default true; untold, a trial ends where the next begins. */
  readonly ended?: boolean;
}

/** The recording in chunks of so many samples, everything else with the chunk in which it begins. */
export function chunksOf({ trace, presses, targets, trials }: Recording, samples: number): Chunk[] {
  const chunks: Chunk[] = [];
  let [press, target, trial] = [0, 0, 0];
  for (let i = 0; i < trace.t.length; i += samples) {
    const end = Math.min(i + samples, trace.t.length);
    const until = trace.t[end - 1]!;
    const [p, g, r] = [press, target, trial];
    while (press < presses.length && presses[press]!.t <= until) press++;
    while (target < targets.length && targets[target]!.tShown <= until) target++;
    while (trial < trials.length && trials[trial]!.tStart <= until) trial++;
    chunks.push({
      trace: { t: trace.t.subarray(i, end), x: trace.x.subarray(i, end), y: trace.y.subarray(i, end) },
      presses: presses.slice(p, press),
      targets: targets.slice(g, target),
      trials: trials.slice(r, trial),
      until,
    });
  }
  return chunks;
}

/**
 * The chunks of a recording round and round. Never ends. Each chunk is good until the next one is asked for: its columns are used again, as fresh in
 * the processor's cache as a message just read.
 */
export function* liveStream(chunks: readonly Chunk[], { from = 0, ended = true }: StreamOptions = {}): Generator<Chunk, never> {
  const samples = chunks[0]!.trace.t.length;
  const columns = { t: new Float64Array(samples), x: new Float64Array(samples), y: new Float64Array(samples) };
  const length = chunks.at(-1)!.until! + 0.5;
  const first = Math.floor(from * chunks.length);
  const begin = first === 0 ? 0 : chunks[first - 1]!.until!;
  for (let k = first; ; k++) {
    const round = Math.floor(k / chunks.length);
    yield later(chunks[k % chunks.length]!, round * length - begin, `, round ${round}`, ended, columns);
  }
}

function later({ trace, presses, targets, trials, until }: Chunk, by: number, name: string, ended: boolean, columns: Trace): Chunk {
  return {
    trace: shifted(trace, by, columns),
    presses: presses!.map(({ t, tUp, credited, ...press }) => ({
      ...press,
      t: t + by,
      ...(tUp !== undefined && { tUp: tUp + by }),
      ...(credited !== undefined && { credited: credited + name }),
    })),
    targets: targets!.map(({ id, tShown, tGone, ...target }) => ({
      ...target,
      id: id + name,
      tShown: tShown + by,
      ...(tGone !== undefined && { tGone: tGone + by }),
    })),
    trials: trials!.map(({ id, tStart, tEnd, goals, ...trial }) => ({
      ...trial,
      id: id + name,
      tStart: tStart + by,
      ...(ended && tEnd !== undefined && { tEnd: tEnd + by }),
      goals: goals.map((goal) => goal + name),
    })),
    until: until! + by,
  };
}

function shifted({ t, x, y }: Trace, by: number, columns: Trace): Trace {
  const n = t.length;
  for (let i = 0; i < n; i++) {
    columns.t[i] = t[i]! + by;
    columns.x[i] = x[i]!;
    columns.y[i] = y[i]!;
  }
  return n === columns.t.length ? columns : { t: columns.t.subarray(0, n), x: columns.x.subarray(0, n), y: columns.y.subarray(0, n) };
}
