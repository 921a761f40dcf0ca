import { harmless } from "../report/render/escape-html.js";
import { type Progress, progressLine } from "./progress.js";
import { type Sink, send } from "./streams.js";

/** Milliseconds between two looks of the progress line. */
const PAUSE = 100;

/** Speaks on standard error, to a person. */
export interface Teller {
  /** One line, whatever is being read. */
  readonly say: (message: string) => Promise<void>;
  /** One line that `--quiet` leaves out. */
  readonly note: (message: string) => Promise<void>;
  /** Says where reading is, on a terminal alone, and not more often than an eye needs. */
  readonly at: (progress: Progress) => Promise<void>;
  /** Takes the progress line away. */
  readonly rest: () => Promise<void>;
}

/** A teller for one run. */
export function createTeller(stderr: Sink, quiet: boolean): Teller {
  let shown = 0;
  let last = 0;
  const rest = async (): Promise<void> => {
    if (shown > 0) await send(stderr, `\r${" ".repeat(shown)}\r`);
    shown = 0;
  };
  const say = async (message: string): Promise<void> => {
    await rest();
    await send(stderr, `${harmless(message)}\n`);
  };
  return {
    say,
    note: async (message) => {
      if (!quiet) await say(message);
    },
    at: async (progress) => {
      if (quiet || stderr.isTTY !== true || Date.now() - last < PAUSE) return;
      last = Date.now();
      const line = progressLine(progress);
      await send(stderr, `\r${line.padEnd(shown)}`);
      shown = line.length;
    },
    rest,
  };
}
