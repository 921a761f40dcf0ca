import type { Chunk } from "../../trace/types.js";

/** Whether a chunk gives what acquisitions are decided by. */
export function givesEntries({ targets, trials, presses }: Chunk): boolean {
  return (
    (targets !== undefined && targets.length > 0) ||
    (trials !== undefined && trials.length > 0) ||
    (presses !== undefined && presses.length > 0)
  );
}

/** Latest time that a chunk speaks of, ends that lie ahead not counted. */
export function latestIn(chunk: Chunk, clock: number): number {
  const { t } = chunk.trace;
  const times = [
    ...(chunk.presses ?? []).map((press) => press.t),
    ...(chunk.targets ?? []).map((target) => target.tShown),
    ...(chunk.trials ?? []).map((trial) => trial.tStart),
    ...(chunk.marks ?? []).map((mark) => mark.t),
  ];
  const frame = chunk.frames?.[chunk.frames.length - 1] ?? clock;
  return times.reduce((most, time) => Math.max(most, time), Math.max(clock, t.length > 0 ? t[t.length - 1]! : clock, frame));
}
