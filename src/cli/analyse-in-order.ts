import { analyseSession, type Outcome, type SessionTask } from "./analyse-session.js";
import type { Crew } from "./crew.js";
import { type Held, holdAtMost, type Share } from "./hold-at-most.js";
import type { FoundSession } from "./read-sessions.js";

/** A found session and the input that it is of. */
export type Job = FoundSession & { readonly input: number };

/** What came of a job; `text` is the outcome as JSON where a worker has made it. */
export interface Done {
  readonly input: number;
  readonly outcome: Outcome;
  readonly text?: string;
}

/** Bounds: on the sessions in work, or done with and waiting for those before them; and on the bytes of those in work. */
export interface Room {
  readonly sessions: number;
  readonly bytes: number;
}

/** A job whose text has been read to its end; in an object, since a promise of a promise would wait for both. */
interface Begun {
  readonly done: Promise<Done>;
}

/**
 * Analyses sessions and gives what came of them in the order in which they were found. `hire` is asked before each session that needs analysis: without a crew it
 * is analysed here and now. A session's text goes to the crew as it is read; one that has no room beside those in work waits for them. Nobody asks for an outcome,
 * nobody reads or begins a session.
 */
export async function* analyseInOrder(jobs: AsyncIterator<Job>, hire: () => Promise<Crew | undefined>, room: Room): AsyncGenerator<Done> {
  const waiting: Promise<Done>[] = [];
  const held = holdAtMost(room.bytes);
  let next: Promise<Begun | undefined> | undefined;
  for (;;) {
    if (waiting.length < room.sessions) next ??= watched(begin(jobs, hire, held));
    if (waiting.length > 0 && (next === undefined || (await isFirst(waiting[0]!, next)))) {
      yield await waiting.shift()!;
      continue;
    }
    const begun: Begun | undefined = await next;
    next = undefined;
    if (begun === undefined) break;
    waiting.push(watched(begun.done));
  }
  while (waiting.length > 0) yield await waiting.shift()!;
}

/** A promise whose failure is heard where it is awaited, and kills nothing if that never comes. */
function watched<Value>(promise: Promise<Value>): Promise<Value> {
  promise.catch(() => {});
  return promise;
}

async function isFirst(one: Promise<unknown>, other: Promise<unknown>): Promise<boolean> {
  return Promise.race([one.then(() => true), other.then(() => false)]);
}

/** The next job, begun and read to its end; without a crew it has to be done with before the one after it is read. */
async function begin(jobs: AsyncIterator<Job>, hire: () => Promise<Crew | undefined>, held: Held): Promise<Begun | undefined> {
  const { value: job, done } = await jobs.next();
  if (done) return undefined;
  const { input } = job;
  if (!("task" in job)) return { done: Promise.resolve({ input, outcome: job.outcome }) };
  const crew = await hire();
  if (crew === undefined) {
    const outcome = await analyseSession(job.task);
    return { done: Promise.resolve({ input, outcome }) };
  }
  const share = held.open();
  await share.take(job.bytes ?? 0);
  const { pieces, ended } = measured(job.task.pieces, share);
  const analysed = crew.analyse({ ...job.task, ...(pieces && { pieces }) }).then((came) => {
    share.close();
    return { input, ...came };
  });
  await Promise.race([ended, analysed]);
  return { done: analysed };
}

/** Pieces that wait until there is room for them, and the instant when nobody reads any more of them. */
function measured(pieces: SessionTask["pieces"], share: Share): { readonly pieces?: SessionTask["pieces"]; readonly ended: Promise<void> } {
  if (pieces === undefined) return { ended: Promise.resolve() };
  let end: () => void;
  const ended = new Promise<void>((resolve) => {
    end = resolve;
  });
  async function* within(whole: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
    try {
      for await (const piece of whole) {
        await share.take(piece.length);
        yield piece;
      }
    } finally {
      end();
    }
  }
  return { pieces: within(pieces), ended };
}
