import { requireNumber, requireOneOf, show } from "../math/require.js";
import { bitOfButton, followButtons } from "./event/button-presses.js";
import type { PointerCoordinates, PointerEventLike } from "./event/pointer-event-like.js";
import { inOrder, type PointerSample, readSamples, requireOneClock } from "./event/pointer-samples.js";
import { type PointerFilter, selectPointerEvents } from "./event/select-pointer-events.js";
import type { Mark, Recording } from "./types.js";

export interface FromPointerEventsOptions {
  /** Which coordinates to read, CSS pixels: `"client"` (default) in the window, `"page"` in the scrolled document, `"screen"`, `"offset"` in the element. */
  readonly coordinates?: PointerCoordinates;
  /** Keep only the events of this pointer; the others are counted. Default: all, and two pointers at once are refused. */
  readonly only?: PointerFilter;
  /** Stamp that becomes time 0, ms. Default: the first event's. Give it where targets and frames of the same clock go into the recording too. */
  readonly origin?: number;
  /** Sort what runs backward and drop what cannot be read, and report both, instead of refusing. Default `false`. */
  readonly repair?: boolean;
}

export interface PointerEventsReport {
  /** Stamp that became time 0, ms. */
  readonly origin: number;
  /** Events read for position and buttons. */
  readonly events: number;
  /** Samples that came from lists of merged positions. */
  readonly merged: number;
  /** Events of types that carry neither position nor buttons, by type. */
  readonly ignored: Readonly<Record<string, number>>;
  /** Events of other pointers, left out by `options.only`. */
  readonly leftOut: number;
  /** Samples that had to be moved in time order. */
  readonly sorted: number;
  /** Samples and events that could not be read, and the first hundred reasons. */
  readonly dropped: { readonly total: number; readonly reasons: readonly string[] };
  /** Button changes that happened where nobody looked: they make no press, or a press without `tUp`. */
  readonly untimed: number;
}

/**
 * Makes a recording of what a browser's pointer events say; targets and trials are the caller's to add. Where an event carries the
 * list of positions merged into it, the list is read and the event's own position is not, since it sums up the list. A press is a bit
 * that appears in `buttons`, whatever the type of the event: a button added while another is held arrives as a move. Presses of a
 * finger or a pen's tip are `"touch"`. After `pointercancel` a press stays without `tUp`, for its release was not seen; so do buttons
 * that changed outside the element. Time away is marked: `"lift"` of a finger or pen, otherwise `"gap"`.
 * @param events - in the order they came; stamps in ms on one clock. Movement deltas are not read: their unit differs between browsers
 * @param options - coordinates, pointer to keep, origin, repair
 * @returns the `recording`, plane, px, seconds from `report.origin`, and a `report` of what was read, moved and left out
 * @throws RangeError for stamps that run backward, two clocks (never repaired), two pointers or devices at once, a position or stamp
 *   that is not finite, a press that names no button; TypeError for what is no event
 * @see W3C Pointer Events Level 3, editor's draft, "Chorded button interactions" and "Coalesced events"
 * @example
 * ```ts
 * const events = [
 *   { type: "pointermove", timeStamp: 1000, clientX: 10, clientY: 5, buttons: 0, button: -1 },
 *   { type: "pointerdown", timeStamp: 1250, clientX: 14, clientY: 5, buttons: 1, button: 0 },
 *   { type: "pointerup", timeStamp: 1330, clientX: 14, clientY: 5, buttons: 0, button: 0 },
 * ];
 * fromPointerEvents(events).recording.presses // => [{ t: 0.25, by: "button", code: "0", x: 14, y: 5, tUp: 0.33 }]
 * ```
 */
export function fromPointerEvents(
  events: Iterable<PointerEventLike>,
  options: FromPointerEventsOptions = {},
): { recording: Recording; report: PointerEventsReport } {
  const where = "fromPointerEvents";
  const { coordinates = "client", only = {}, repair = false } = options;
  requireOneOf(where, "options.coordinates", coordinates, ["client", "page", "screen", "offset"]);
  if (options.origin !== undefined) requireNumber(where, "options.origin", options.origin);
  if (events === null || typeof events !== "object")
    throw new TypeError(`${where}: events must be a list of pointer events, got ${show(events)}`);

  const selection = selectPointerEvents(where, Array.from(events), only);
  const reasons: string[] = [];
  let dropped = 0;
  const refuse = (message: string): void => {
    if (!repair) throw new RangeError(`${where}: ${message}`);
    if (dropped++ < 100) reasons.push(message);
  };
  const { samples, merged } = readSamples(selection.kept, coordinates, refuse);
  const origin = options.origin ?? samples[0]?.t ?? 0;
  requireOneClock(where, options.origin, samples);
  const { ordered, sorted } = inOrder(where, samples, repair);
  const { untimed, ...parts } = walk(ordered, origin);
  return {
    recording: { schema: 1, space: { kind: "plane", unit: "px" }, device: selection.device, ...parts, targets: [], trials: [] },
    report: {
      origin,
      events: selection.kept.length,
      merged,
      ignored: selection.ignored,
      leftOut: selection.leftOut,
      sorted,
      dropped: { total: dropped, reasons },
      untimed,
    },
  };
}

function walk(samples: readonly PointerSample[], origin: number): Pick<Recording, "trace" | "presses" | "marks"> & { untimed: number } {
  const columns = { t: new Float64Array(samples.length), x: new Float64Array(samples.length), y: new Float64Array(samples.length) };
  const contact = (type: string | undefined, bit: number): boolean => type === "touch" || (type === "pen" && bit === 0);
  const type = samples.find((sample) => sample.event !== undefined)?.event?.pointerType;
  const buttons = followButtons((bit) => (contact(type, bit) ? "touch" : "button"));
  const marks: Mark[] = [];
  let n = 0;
  let untimed = 0;
  /** Since when and why the pointer is out of sight. */
  let away: { readonly t: number; readonly kind: Mark["kind"] } | undefined;
  /** Whether buttons may have changed unseen. */
  let unsure = true;
  for (const sample of samples) {
    const { event, x, y } = sample;
    const t = (sample.t - origin) / 1000;
    if (event?.type === "pointercancel" || event?.type === "pointerleave") {
      if (event.type === "pointercancel") untimed += buttons.resume(0);
      away ??= { t, kind: event.type === "pointerleave" && contact(type, 0) ? "lift" : "gap" };
      unsure = true;
      continue;
    }
    columns.t[n] = t;
    columns.x[n] = x;
    columns.y[n++] = y;
    if (away !== undefined && t > away.t) marks.push({ t: away.t, tEnd: t, kind: away.kind });
    away = undefined;
    if (event === undefined) continue;
    const mask = event.buttons ?? 0;
    // a pointerdown means that nothing was held before it; any other event names at most the one button that it is about
    if (event.type === "pointerdown") untimed += buttons.resume(0);
    else if (unsure) untimed += buttons.resume(mask ^ bitOfButton(event.button ?? -1));
    unsure = false;
    buttons.update(t, mask, x, y);
    if (event.type === "pointerup" && type === "touch") away = { t, kind: "lift" };
  }
  if (away !== undefined) marks.push(away);
  const trace = { t: columns.t.slice(0, n), x: columns.x.slice(0, n), y: columns.y.slice(0, n) };
  return { trace, presses: buttons.presses, marks, untimed };
}
