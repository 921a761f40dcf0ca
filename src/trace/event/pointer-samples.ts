import { show } from "../../math/require.js";
import { mergedEvents, type PointerCoordinates, type PointerEventLike, positionOf } from "./pointer-event-like.js";

/** Stamps from here on count from 1970 (this one lies in 1973); stamps below count from when a page was opened (this one would be three years). */
const EPOCH_FROM_MS = 1e11;

/** A position with its stamp, or the moment in which the pointer went out of sight (`x`, `y` are `NaN` then). */
export interface PointerSample {
  readonly name: string;
  readonly t: number;
  readonly x: number;
  readonly y: number;
  /** The event whose button state holds from this sample on. */
  readonly event?: PointerEventLike;
}

/** The samples of the events kept, merged positions one by one; `refuse` is told of each that cannot be read. */
export function readSamples(
  kept: readonly { readonly event: PointerEventLike; readonly index: number }[],
  coordinates: PointerCoordinates,
  refuse: (message: string) => void,
): { samples: PointerSample[]; merged: number } {
  const samples: PointerSample[] = [];
  let merged = 0;
  for (const { event, index } of kept) {
    const name = `events[${index}]`;
    const { type, buttons = -1 } = event;
    if (type === "pointercancel" || type === "pointerleave") {
      // neither is a position: the first may carry none, the second lies outside
      if (!Number.isFinite(event.timeStamp)) refuse(`${name}.timeStamp must be finite, got ${event.timeStamp}`);
      else samples.push({ name, t: event.timeStamp, x: Number.NaN, y: Number.NaN, event });
      continue;
    }
    if (!Number.isInteger(buttons) || buttons < 0 || buttons >= 2 ** 31) {
      refuse(`${name}.buttons must be a whole number of at least 0, got ${show(event.buttons)}`);
      continue;
    }
    if (type === "pointerdown" && buttons === 0) {
      refuse(`${name}.buttons must name a held button at a pointerdown, got 0`);
      continue;
    }
    const list = mergedEvents(event);
    const sources = list.length === 0 ? [event] : list;
    for (let k = 0; k < sources.length; k++) {
      const source = sources[k]!;
      const own = list.length === 0 ? name : `${name}.coalescedEvents[${k}]`;
      const { x, y } = positionOf(source, coordinates);
      const t = source.timeStamp;
      if (!Number.isFinite(t)) refuse(`${own}.timeStamp must be finite, got ${t}`);
      else if (!Number.isFinite(x)) refuse(`${own}.${coordinates}X must be finite, got ${source[`${coordinates}X`]}`);
      else if (!Number.isFinite(y)) refuse(`${own}.${coordinates}Y must be finite, got ${source[`${coordinates}Y`]}`);
      else {
        samples.push(k === sources.length - 1 ? { name: own, t, x, y, event } : { name: own, t, x, y });
        if (list.length > 0) merged++;
      }
    }
  }
  return { samples, merged };
}

/** Throws when stamps of two clocks are mixed; no repair could tell by how much they differ. */
export function requireOneClock(where: string, origin: number | undefined, samples: readonly PointerSample[]): void {
  const clock = (t: number): string => (t >= EPOCH_FROM_MS ? "milliseconds since 1970" : "milliseconds since the page was opened");
  const first = origin ?? samples[0]?.t;
  for (const { name, t } of samples) {
    if (first !== undefined && clock(t) !== clock(first)) {
      const before = `${origin === undefined ? samples[0]!.name : "options.origin"} = ${first} (${clock(first)})`;
      throw new RangeError(`${where}: ${name}.timeStamp must be on one clock with the others, got ${t} (${clock(t)}) beside ${before}`);
    }
  }
}

/** The samples in order of time, and how many had to move for it; throws at the first that would, unless `repair`. */
export function inOrder(where: string, samples: PointerSample[], repair: boolean): { ordered: PointerSample[]; sorted: number } {
  let latest = 0;
  let sorted = 0;
  for (let i = 1; i < samples.length; i++) {
    const sample = samples[i]!;
    const before = samples[latest]!;
    if (sample.t >= before.t) latest = i;
    else if (repair) sorted++;
    else
      throw new RangeError(`${where}: ${sample.name}.timeStamp must not run backward, got ${sample.t} after ${before.t} (${before.name})`);
  }
  return { ordered: sorted > 0 ? samples.sort((a, b) => a.t - b.t) : samples, sorted };
}
