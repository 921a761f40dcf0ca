// Compiled, not run: the one entry that needs the types of a page.
import { createAnalyzer } from "aimed-movement/movement";
import { createRecorder, type Recorder, type RecorderOptions } from "aimed-movement/record";
import { fromPointerEvents } from "aimed-movement/trace";

export function live(element: Element, options: RecorderOptions): Recorder {
  const analyzer = createAnalyzer({ kind: "plane", unit: "px" });
  return createRecorder(element, { ...options, onChunk: (chunk) => console.log(analyzer.push(chunk).length) });
}

// a browser's events are taken as they are
export function read(events: readonly PointerEvent[]): number {
  return fromPointerEvents(events).recording.trace.t.length;
}

// @ts-expect-error a selector is not an element
createRecorder("#field");
