import type { Recording } from "../../trace/types.js";
import type { UniformSegment } from "../../trace/uniform.js";
import type { Span } from "../tremor/hold-spans.js";
import type { Acquisition } from "../types.js";

/** Two clock readings of one instant may differ by rounding: a shorter stretch is none, seconds. */
const SAME_INSTANT = 1e-6;

/** Stretches between the first and the last sample in which no acquisition of `rows` and no pursuit was under way, in time order. */
export function idleSpans({ trace, trials }: Recording, rows: readonly Acquisition[]): Span[] {
  const busy: Span[] = rows.map(({ times }) => ({ from: times.go, to: times.end }));
  const inOrder = [...trials].sort((a, b) => a.tStart - b.tStart);
  for (const [i, { kind, tStart, tEnd = Number.POSITIVE_INFINITY }] of inOrder.entries()) {
    // a trial ends where the next begins, if not before
    if (kind === "pursue") busy.push({ from: tStart, to: Math.min(tEnd, inOrder[i + 1]?.tStart ?? tEnd) });
  }
  return between(trace.t[0] ?? 0, trace.t[trace.t.length - 1] ?? 0, busy);
}

/** Stretches in which the pointer is known: covered by a segment, and not marked as lost or hidden. Each lies within one segment. */
export function knownSpans({ trace, marks }: Recording, segments: readonly UniformSegment[]): Span[] {
  const first = trace.t[0] ?? 0;
  const last = trace.t[trace.t.length - 1] ?? 0;
  const unknown: Span[] = marks.flatMap(({ kind, t, tEnd = last }) => (kind === "gap" || kind === "hidden" ? [{ from: t, to: tEnd }] : []));
  let covered = first;
  for (const { t0, x, sampleRateHz } of segments) {
    // the grid may begin and end within an interval of the samples that it was laid over
    unknown.push({ from: covered, to: t0 - 1 / sampleRateHz });
    covered = t0 + x.length / sampleRateHz;
  }
  return between(first, last, [...unknown, { from: covered, to: last }]);
}

/** What the stretches `busy`, in any order, leave of `[from, to]`. */
function between(from: number, to: number, busy: readonly Span[]): Span[] {
  const spans: Span[] = [];
  let free = from;
  for (const span of [...busy, { from: to, to }].sort((a, b) => a.from - b.from)) {
    // a stretch that ends before it begins is none
    if (span.to < span.from) continue;
    const until = Math.min(span.from, to);
    if (until - free > SAME_INSTANT) spans.push({ from: free, to: until });
    free = Math.max(free, span.to);
  }
  return spans;
}
