// Cuts a recording into the chunks that a live recorder would have given, for tests that live and batch agree.
import type { Chunk, Mark, Press, Recording, Target, Trace, Trial } from "../src/trace/types.js";

/** `whole`: every entry is given once, with its end. `live`: what lasts is given as it begins, without end, and again when it has ended. */
export type CutStyle = "whole" | "live";

/** An entry in the chunk with the first border at or after `time`. */
interface Given<T> {
  readonly time: number;
  readonly entry: T;
}

/** The chunks between `borders` (ascending): what happened in (one before, border], and a last one up to the recording's latest event. */
export function cutRecording(recording: Recording, borders: readonly number[], style: CutStyle): Chunk[] {
  const end = latestEvent(recording);
  const inner = borders.filter((border) => border < end);
  const ends = [...inner, end];
  const presses = recording.presses.flatMap((press) => lasting<Press>(style, press, press.t, "tUp"));
  const targets = recording.targets.flatMap((target) => lasting<Target>(style, target, target.tShown, "tGone"));
  const trials = recording.trials.flatMap((trial) => lasting<Trial>(style, trial, trial.tStart, "tEnd"));
  const marks = recording.marks.flatMap((mark) =>
    tellsItsEnd(mark) ? lasting<Mark>(style, mark, mark.t, "tEnd") : [{ time: mark.t, entry: mark }],
  );
  return ends.map((until, k) => {
    const from = k === 0 ? Number.NEGATIVE_INFINITY : ends[k - 1];
    // the ends of what outlasts the recording come with the last chunk
    const to = k === ends.length - 1 ? Number.POSITIVE_INFINITY : until;
    return {
      trace: slice(recording.trace, from, to),
      presses: within(presses, from, to, (press) => JSON.stringify([press.t, press.by, press.code])),
      targets: within(targets, from, to, (target) => target.id),
      trials: within(trials, from, to, (trial) => trial.id),
      marks: within(marks, from, to, (mark) => JSON.stringify([mark.t, mark.kind])),
      until,
    };
  });
}

/** Latest instant that a recording speaks of, ends that lie ahead not counted. */
export function latestEvent({ trace, presses, targets, trials, marks }: Recording): number {
  return Math.max(
    ...trace.t.slice(-1),
    ...presses.map((press) => press.t),
    ...targets.map((target) => target.tShown),
    ...trials.map((trial) => trial.tStart),
    ...marks.map((mark) => mark.t),
  );
}

/** Only these are given by a recorder before they have ended; others are found afterwards. */
function tellsItsEnd({ kind }: Mark): boolean {
  return kind === "gap" || kind === "hidden";
}

function lasting<T extends object>(style: CutStyle, entry: T, begin: number, key: keyof T): Given<T>[] {
  const end = entry[key];
  if (style === "whole" || typeof end !== "number") return [{ time: begin, entry }];
  const { [key]: _, ...open } = entry;
  return [
    { time: begin, entry: open as T },
    { time: end, entry },
  ];
}

/** The entries of a chunk; of one that begins and ends in it only the last word. */
function within<T>(given: readonly Given<T>[], from: number, to: number, name: (entry: T) => string): T[] {
  const chosen = given.filter(({ time }) => time > from && time <= to);
  return [...new Map(chosen.map(({ entry }) => [name(entry), entry])).values()];
}

function slice({ t, x, y }: Trace, from: number, to: number): Trace {
  const start = t.findIndex((time) => time > from);
  const after = t.findIndex((time) => time > to);
  const range = [start < 0 ? t.length : start, after < 0 ? t.length : after] as const;
  return { t: t.slice(...range), x: x.slice(...range), y: y.slice(...range) };
}
