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
 * Megabytes of new objects in a worker before they are looked through. Two workers on a stream of sessions of 17 MB took 420 to 440 MiB with 4 to 12, 500 with 16
 * and 570 with Node's own 48, in the same time.
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
  const broken = new Promise<never>((_, reject) => pool.on("error", reject));
  broken.catch(() => {});
  return {
    analyse: async ({ pieces, ...task }) => {
      const { port1: near, port2: far } = new MessageChannel();
      const sent: SentTask = { ...task, ...(pieces && { text: far }) };
      if (pieces) void sendText(pieces, near);
      try {
        const text: string = await Promise.race([broken, pool.run(sent, { transferList: pieces ? [far] : [] })]);
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
