import type { Chunk, Mark, Press, Space } from "../trace/types.js";
import { bitOf, positionsOf } from "./pointer-event.js";
import { begin, end } from "./span.js";

/**
 * Longest time between an event and its arrival here that is allowed for, seconds. Moves are handed over once per frame, and one may
 * still be under way when a frame later than it is drawn. tests/browser/recorder.ts prints the longest such delay it meets.
 */
const UNDER_WAY = 0.05;

export interface RecorderOptions {
  /**
   * Degrees the view turns per count of pointer motion, above 0. Given: the motion of the locked pointer is summed and the space is `view`.
   * Absent (default): positions in CSS pixels, and the space is `plane`. Raised: larger angles for the same motion of the hand.
   */
  readonly degPerCount?: number;
  /** The value of `performance.now()` that is t = 0, ms. Default: the moment of the call. Recorders given the same one share a session's clock. */
  readonly origin?: number;
  /** Called with every chunk, the one from `stop` included. Default: nobody is called, and `take` is yours to call. */
  readonly onChunk?: (chunk: Chunk) => void;
  /** Seconds between calls of `onChunk`, above 0, default 0.1, rounded up to whole frames. Lowered: told sooner, called more often. */
  readonly every?: number;
}

export interface Recorder {
  /** The frame of all positions. */
  readonly space: Space;
  /** Date and time of t = 0, ISO 8601 in UTC. */
  readonly startedAt: string;
  /** A time of the page (`performance.now()`, an event's `timeStamp`), ms, in seconds of this recording: for your own targets and trials. */
  toSeconds(timeStamp: number): number;
  /** Everything since the chunk before; columns are empty when nothing happened. */
  take(): Chunk;
  /** Ends the recording, lets go of the page and gives the last chunk. */
  stop(): Chunk;
}

/**
 * Records the pointer over an element of a page: every position the browser knows of, also those it merged into one event, presses of
 * every button, the times of frames, and the stretches without a pointer. The page is not changed and nothing leaves it.
 * Positions are CSS pixels from the top left of the element's border box, y down, the box being looked up anew after each frame; with
 * `degPerCount` degrees turned since the start, x to the right, y down. Only primary pointers count. A press begun on the element is
 * followed outside it. A press is given as it goes down and again, same `t`, with `tUp` as it goes up; a mark likewise with `tEnd`.
 * Marks: `gap` while the pointer is off the element; `hidden` while the page is, or while a pointer that should be locked is not.
 * Save for those endings nothing in a later chunk is earlier than `until`, which trails the newest frame by at most 0.05 s; an event that
 * arrives later still is moved up to it.
 * @param element - where to record; `document.documentElement` for the whole page
 * @param options - space, clock, delivery of chunks
 * @returns the recorder, already recording
 * @throws TypeError if `element` is not an element of a page that is shown
 * @throws RangeError if `degPerCount` or `every` is not finite and above 0, or `origin` is not finite
 * @see W3C Pointer Events level 3 (coalesced events, chorded buttons); W3C High Resolution Time (the clock)
 * @example
 * ```ts
 * import { createRecorder } from "aimed-movement/record";
 * function countSamples(element: HTMLElement, seconds: number): Promise<number> {
 *   const recorder = createRecorder(element);
 *   return new Promise((done) => setTimeout(() => done(recorder.stop().trace.t.length), 1000 * seconds));
 * }
 * typeof countSamples // => "function"
 * ```
 */
export function createRecorder(element: Element, options: RecorderOptions = {}): Recorder {
  const page = element?.ownerDocument;
  const view = page?.defaultView;
  if (!view) throw new TypeError(`createRecorder: element must be an element of a shown page, got ${element}`);
  const { performance: clock } = view;
  const start = clock.now();
  const { degPerCount, origin = start, onChunk, every = 0.1 } = options;
  requireAbove(0, "degPerCount", degPerCount ?? 1);
  requireAbove(0, "every", every);
  requireAbove(-Infinity, "origin", origin);

  const toSeconds = (timeStamp: number): number => (timeStamp - origin) / 1000;
  const t: number[] = [];
  const xs: number[] = [];
  const ys: number[] = [];
  const frames: number[] = [];
  const presses: Press[] = [];
  const marks: Mark[] = [];
  // begun and not ended: presses by their button, marks by their kind
  const held = new Map<number, Press>();
  const open = new Map<string, Mark>();
  const listening = new AbortController();
  const { signal } = listening;
  let box: DOMRect | undefined;
  let x = 0;
  let y = 0;
  let request = 0;
  // newest sample, newest frame, `until` of the chunk before, frame of the last call of onChunk
  let last = toSeconds(start);
  let frame = last;
  let until = last;
  let told = last;

  const isLocked = (): boolean => !degPerCount || page.pointerLockElement === element;
  const timeOf = (timeStamp: number): number => Math.max(last, until, toSeconds(timeStamp));

  const mark = (kind: "gap" | "hidden", on: boolean, time: number): void => {
    const begun = open.get(kind);
    if (on) begin(marks, open, kind, { t: time, kind });
    else if (begun) end(marks, open, kind, { tEnd: Math.max(begun.t, time) });
  };

  const sample = (event: PointerEvent): void => {
    if (event.timeStamp < start) return;
    if (degPerCount) {
      x += event.movementX * degPerCount;
      y += event.movementY * degPerCount;
    } else {
      box ??= element.getBoundingClientRect();
      x = event.clientX - box.left;
      y = event.clientY - box.top;
    }
    last = timeOf(event.timeStamp);
    t.push(last);
    xs.push(x);
    ys.push(y);
    mark("gap", false, last);
  };

  // a button that changes while another is down comes as a move, so the state of the buttons tells, not the type of the event.
  const followButtons = ({ button, buttons, pointerType }: PointerEvent): void => {
    if (buttons & bitOf(button))
      begin(presses, held, button, { t: last, by: pointerType === "touch" ? "touch" : "button", code: `${button}`, x, y });
    else end(presses, held, button, { tUp: last });
    // a release that went unseen shows in some later event: its time is not known, and none is given
    for (const other of held.keys()) if (!(buttons & bitOf(other))) held.delete(other);
  };

  const onPointer = (event: PointerEvent): void => {
    // what happened before the start, such as the press that started the recording, is not part of it
    if (!event.isPrimary || event.timeStamp < start || !isLocked()) return;
    if (event.type === "pointerleave" || !(held.size || event.composedPath().includes(element))) {
      if (!held.size) mark("gap", true, timeOf(event.timeStamp));
      return;
    }
    positionsOf(event, !!degPerCount).forEach(sample);
    followButtons(event);
  };

  const forgetButtons = (event: PointerEvent): void => {
    if (event.isPrimary) held.clear();
  };

  const take = (): Chunk => {
    // complete up to the newest sample, since events come in order, and up to a while before the newest frame
    until = Math.max(until, Math.min(frame, Math.max(last, frame - UNDER_WAY)));
    const trace = { t: drain(t), x: drain(xs), y: drain(ys) };
    return { trace, presses: presses.splice(0), marks: marks.splice(0), frames: drain(frames), until };
  };

  const tell = (): void => {
    told = frame;
    // without a listener the chunk waits for `take`
    if (onChunk) onChunk(take());
  };

  const onSight = (event?: Event): void => {
    const hidden = page.visibilityState === "hidden" || !isLocked();
    mark("hidden", hidden, timeOf(clock.now()));
    // a release meanwhile goes unseen, and a hidden page may never come back
    if (hidden) held.clear();
    if (event) tell();
  };

  const onFrame = (timeStamp: number): void => {
    request = view.requestAnimationFrame(onFrame);
    box = undefined;
    const time = toSeconds(timeStamp);
    if (time <= frame) return;
    frame = time;
    frames.push(time);
    if (time - told >= every) tell();
  };

  const stop = (): Chunk => {
    if (signal.aborted) return take();
    until = timeOf(clock.now());
    mark("gap", false, until);
    mark("hidden", false, until);
    listening.abort();
    view.cancelAnimationFrame(request);
    const chunk = take();
    onChunk?.(chunk);
    return chunk;
  };

  const listen = (target: EventTarget, types: string, listener: (event: never) => void): void => {
    for (const type of types.split(" ")) target.addEventListener(type, listener as EventListener, { capture: target === view, signal });
  };

  // at the window and before the page's own listeners: the page cannot stop an event on its way, and a press can be followed off the element
  listen(view, "pointerdown pointercancel", forgetButtons);
  listen(view, "pointerdown pointermove pointerup", onPointer);
  listen(element, "pointerleave", onPointer);
  listen(page, "visibilitychange pointerlockchange", onSight);
  onSight();
  onFrame(start);

  return {
    space: degPerCount ? { kind: "view", unit: "deg" } : { kind: "plane", unit: "px" },
    startedAt: new Date(clock.timeOrigin + origin).toISOString(),
    toSeconds,
    take,
    stop,
  };
}

function requireAbove(low: number, name: string, value: number): void {
  if (!(value > low && value < Infinity))
    throw new RangeError(`createRecorder: options.${name} must be finite and above ${low}, got ${value}`);
}

function drain(numbers: number[]): Float64Array {
  return new Float64Array(numbers.splice(0));
}
