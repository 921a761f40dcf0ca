import { MessageChannel, type MessagePort } from "node:worker_threads";
import type { Outcome, SessionTask } from "./analyse-session.js";
import { messageOf } from "./streams.js";
import { sendText } from "./text-between-threads.js";

/** A task as it goes to a worker, with the port through which its text comes. */
export interface SentTask extends Omit<SessionTask, "pieces"> {
  readonly text?: MessagePort;
}

/** Worker threads that analyse sessions. */
export interface Crew {
  /** What came of a session, also as JSON; throws nothing. Its text is read as a worker asks for it. */
  readonly analyse: (task: SessionTask) => Promise<{ readonly outcome: Outcome; readonly text?: string }>;
  readonly dismiss: () => Promise<void>;
}

/**
 * Megabytes of new objects in a worker before they are looked through. Two workers on a stream of sessions of 17 MB took 330 MiB with 3, 350 with 6, 375 with 12,
 * 410 with 24 and 465 with Node's own 48, in times that could not be told apart.
 */
const YOUNG_MB = 6;

/** Starts workers that run the file. */
export async function hireCrew(file: URL, workers: number): Promise<Crew> {
  // only where there is enough to do: small runs do not wait for it
  const { Tinypool } = await import("tinypool");
  const pool = new Tinypool({
    filename: file.href,
    minThreads: workers,
    maxThreads: workers,
    resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB },
  });
  // a worker that dies without a task has not come up: the pool starts no other, and would keep its tasks for good
  let broken: unknown;
  const failing = new Set<(reason: unknown) => void>();
  pool.on("error", (reason: unknown) => {
    broken = reason;
    for (const fail of failing) fail(reason);
  });
  /** A task's outcome. Not a race with one promise that a breakdown would end: it would hold on to the text of every outcome there ever was. */
  const run = (task: SentTask, port: MessagePort | undefined): Promise<string> => {
    let fail = (_reason: unknown): void => {};
    const ran = new Promise<string>((resolve, reject) => {
      fail = reject;
      failing.add(fail);
      if (broken !== undefined) reject(broken);
      pool.run(task, { transferList: port ? [port] : [] }).then(resolve, reject);
    });
    return ran.finally(() => failing.delete(fail));
  };
  return {
    analyse: async ({ pieces, ...task }) => {
      const { port1: near, port2: far } = new MessageChannel();
      if (pieces) void sendText(pieces, near);
      try {
        const text = await run({ ...task, ...(pieces && { text: far }) }, pieces && far);
        return { outcome: JSON.parse(text), text };
      } catch (error) {
        return { outcome: { ok: false, message: `${task.place.name}: ${deathOf(error)}` } };
      } finally {
        near.close();
      }
    },
    dismiss: () => pool.destroy(),
  };
}

function deathOf(error: unknown): string {
  if ((error as NodeJS.ErrnoException).code !== "ERR_WORKER_OUT_OF_MEMORY") return `could not be analysed: ${messageOf(error)}`;
  return "needs more memory than Node gives a program; allow it more (NODE_OPTIONS=--max-old-space-size=MB), or record it in several sessions";
}
