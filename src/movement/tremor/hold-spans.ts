import type { Recording } from "../../trace/types.js";
import type { Acquisition } from "../types.js";

/** A stretch of time, seconds. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** Kept clear on either side of movements and presses: what the hand does to start, to stop and to press is no tremor. Seconds. */
const MARGIN = 0.1;

/** Stretches of the recording outside its acquisitions' movements, presses and marks, in time order. Without rows the whole recording is one hold, but for its marks. */
export function holdSpans(recording: Recording, rows: readonly Acquisition[] | undefined): Span[] {
  const { t } = recording.trace;
  if (t.length === 0) return [];
  const busy: Span[] = recording.marks.map((mark) => ({
    from: mark.t,
    to: mark.tEnd ?? (mark.kind === "gap" || mark.kind === "hidden" ? t.at(-1)! : mark.t),
  }));
  for (const { times } of rows ?? []) {
    const { onset, stop, press, up, end } = times;
    if (onset !== undefined) busy.push({ from: onset, to: stop ?? end });
    // from the first press on: release, second tries and the departure may follow at once
    if (press !== undefined) busy.push({ from: press, to: Math.max(up ?? press, end) });
  }
  const spans: Span[] = [];
  let free = t[0]!;
  for (const { from, to } of busy.sort((a, b) => a.from - b.from)) {
    if (from - MARGIN > free) spans.push({ from: free, to: from - MARGIN });
    free = Math.max(free, to + MARGIN);
  }
  if (t.at(-1)! > free) spans.push({ from: free, to: t.at(-1)! });
  return spans;
}
