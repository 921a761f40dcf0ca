import { analyseSession, type Outcome, type SessionTask } from "./analyse-session.js";
import type { Crew, PackedTask } from "./crew.js";
import type { FoundSession } from "./read-sessions.js";

/** A found session and the input that it is of. */
export type Job = FoundSession & { readonly input: number };

/** What came of a job; `text` is the outcome as JSON where a worker has made it. */
export interface Done {
  readonly input: number;
  readonly outcome: Outcome;
  readonly text?: string;
}

/** Bounds on what is held at a time, beside the one session that is being read. */
export interface Room {
  readonly sessions: number;
  readonly bytes: number;
}

/** A session in work, or done with and waiting for those before it. */
interface Waiting {
  readonly bytes: number;
  readonly done: Promise<Done>;
}

/** A job whose text has been read. */
interface Loaded {
  readonly bytes: number;
  readonly start: () => Promise<Done>;
}

/**
 * Analyses sessions and gives what came of them in the order in which they were found. `hire` is asked before each session that needs analysis: without a crew it
 * is analysed here and now. Nobody asks for an outcome, nobody reads or begins a session.
 */
export async function* analyseInOrder(jobs: AsyncIterator<Job>, hire: () => Promise<Crew | undefined>, room: Room): AsyncGenerator<Done> {
  const waiting: Waiting[] = [];
  let next: Promise<Loaded | undefined> | undefined;
  let held = 0;
  const oldest = (): Promise<Done> => {
    const { bytes, done } = waiting.shift()!;
    held -= bytes;
    return done;
  };
  for (;;) {
    if (waiting.length < room.sessions) next ??= watched(load(jobs, hire));
    if (waiting.length > 0 && (next === undefined || (await isFirst(waiting[0]!.done, next)))) {
      yield await oldest();
      continue;
    }
    const loaded: Loaded | undefined = await next;
    next = undefined;
    if (loaded === undefined) break;
    while (waiting.length > 0 && held + loaded.bytes > room.bytes) yield await oldest();
    waiting.push({ bytes: loaded.bytes, done: loaded.start() });
    held += loaded.bytes;
  }
  while (waiting.length > 0) yield await oldest();
}

/** A promise whose failure is heard where it is awaited, and kills nothing if that never comes. */
function watched<Value>(promise: Promise<Value>): Promise<Value> {
  promise.catch(() => {});
  return promise;
}

async function isFirst(one: Promise<unknown>, other: Promise<unknown>): Promise<boolean> {
  return Promise.race([one.then(() => true), other.then(() => false)]);
}

/** The next job, with its text in memory where a crew takes it; without one it has to be done with before the one after it is read. */
async function load(jobs: AsyncIterator<Job>, hire: () => Promise<Crew | undefined>): Promise<Loaded | undefined> {
  const { value: job, done } = await jobs.next();
  if (done) return undefined;
  const { input } = job;
  if (!("task" in job)) return { bytes: 0, start: async () => ({ input, outcome: job.outcome }) };
  const crew = await hire();
  if (crew === undefined) {
    const outcome = await analyseSession(job.task);
    return { bytes: 0, start: async () => ({ input, outcome }) };
  }
  const { packed, bytes } = await pack(job.task);
  return { bytes: bytes + (job.bytes ?? 0), start: async () => ({ input, ...(await crew.analyse(packed)) }) };
}

/** A task that can leave this thread. What is wrong with the text of a session is found where it is analysed, so that the first fault is the same. */
async function pack({ pieces, ...rest }: SessionTask): Promise<{ readonly packed: PackedTask; readonly bytes: number }> {
  if (pieces === undefined) return { packed: rest, bytes: 0 };
  const copies: Uint8Array<ArrayBuffer>[] = [];
  let bytes = 0;
  let fault: string | undefined;
  try {
    for await (const piece of pieces) {
      copies.push(new Uint8Array(piece));
      bytes += piece.length;
    }
  } catch (error) {
    fault = error instanceof Error ? error.message : String(error);
  }
  return { packed: { ...rest, text: { pieces: copies, ...(fault !== undefined && { fault }) } }, bytes };
}
