import type { Outcome, SessionTask } from "./analyse-session.js";
import { messageOf } from "./streams.js";

/** A task as it goes to a worker: with the text in memory, and what kept the rest of it from being read. */
export interface PackedTask extends Omit<SessionTask, "pieces"> {
  readonly text?: { readonly pieces: Uint8Array<ArrayBuffer>[]; readonly fault?: string };
}

/** Worker threads that analyse sessions. */
export interface Crew {
  /** What came of a session, also as JSON; throws nothing. The memory of its text goes to the worker. */
  readonly analyse: (task: PackedTask) => Promise<{ readonly outcome: Outcome; readonly text?: string }>;
  readonly dismiss: () => Promise<void>;
}

/**
 * Megabytes of new objects in a worker before they are looked through. Two workers on sessions of 17 MB took 474 MiB with Node's own 48 and 365 to 393 with 6
 * to 8, in the same processor time; with 3 a quarter more time went to collecting.
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
    analyse: async (task) => {
      try {
        const text: string = await Promise.race([
          broken,
          pool.run(task, { transferList: task.text?.pieces.map(({ buffer }) => buffer) ?? [] }),
        ]);
        return { outcome: JSON.parse(text), text };
      } catch (error) {
        return { outcome: { ok: false, message: `${task.place.name}: ${deathOf(error)}` } };
      }
    },
    dismiss: () => pool.destroy(),
  };
}

function deathOf(error: unknown): string {
  if ((error as NodeJS.ErrnoException).code !== "ERR_WORKER_OUT_OF_MEMORY") return `could not be analysed: ${messageOf(error)}`;
  return "needs more memory than Node gives a program; allow it more (NODE_OPTIONS=--max-old-space-size=MB), or record it in several sessions";
}
