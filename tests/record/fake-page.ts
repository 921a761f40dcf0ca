// A page of cardboard: just the parts of a browser that the recorder touches, with a clock, frames and events in the test's hands.
import { getEventListeners } from "node:events";

export interface FakePointer {
  readonly timeStamp: number;
  readonly clientX?: number;
  readonly clientY?: number;
  readonly movementX?: number;
  readonly movementY?: number;
  readonly button?: number;
  readonly buttons?: number;
  readonly isPrimary?: boolean;
  readonly pointerType?: string;
  /** Events merged into this one; `null`: a browser that does not know of merging. */
  readonly merged?: readonly FakePointer[] | null;
  /** Whether the event's way leads through the element; default true. */
  readonly inside?: boolean;
}

const EVENTS = ["pointerdown", "pointermove", "pointerup", "pointercancel", "pointerleave", "visibilitychange", "pointerlockchange"];

export function fakePage(startAt = 1000, timeOrigin = Date.UTC(2026, 4, 6, 7, 8, 9)) {
  let now = startAt;
  let handle = 0;
  const waiting = new Map<number, (time: number) => void>();
  const box = { left: 10, top: 20 };
  const view = Object.assign(new EventTarget(), {
    performance: { now: () => now, timeOrigin },
    requestAnimationFrame: (callback: (time: number) => void) => waiting.set(++handle, callback) && handle,
    cancelAnimationFrame: (which: number) => void waiting.delete(which),
  });
  const page = Object.assign(new EventTarget(), { defaultView: view, visibilityState: "visible", pointerLockElement: null as unknown });
  const lookups = { count: 0 };
  const target = Object.assign(new EventTarget(), {
    ownerDocument: page,
    getBoundingClientRect: () => {
      lookups.count++;
      return { ...box };
    },
  });

  const pointerEvent = (type: string, fields: FakePointer): Event => {
    const { timeStamp, merged = [], inside = true, ...rest } = fields;
    const event = new Event(type);
    const values = {
      clientX: 0,
      clientY: 0,
      movementX: 0,
      movementY: 0,
      button: -1,
      buttons: 0,
      isPrimary: true,
      pointerType: "mouse",
      ...rest,
      timeStamp,
      composedPath: () => (inside ? [target, page, view] : [page, view]),
      ...(merged === null ? {} : { getCoalescedEvents: () => merged.map((part) => pointerEvent("pointermove", part)) }),
    };
    for (const [name, value] of Object.entries(values)) Object.defineProperty(event, name, { value });
    return event;
  };

  return {
    element: target as unknown as Element,
    page,
    box,
    lookups,
    /** Lets the clock run to a time, ms. */
    at(time: number): void {
      now = time;
    },
    /** Hands over a pointer event, as a browser does some time after its `timeStamp`. */
    fire(type: string, fields: FakePointer): void {
      now = Math.max(now, fields.timeStamp);
      (type === "pointerleave" ? target : view).dispatchEvent(pointerEvent(type, fields));
    },
    /** Draws a frame that has begun at this time. */
    frame(time: number): void {
      now = Math.max(now, time);
      const callbacks = [...waiting.values()];
      waiting.clear();
      for (const callback of callbacks) callback(time);
    },
    show(visible: boolean, time: number): void {
      now = time;
      page.visibilityState = visible ? "visible" : "hidden";
      page.dispatchEvent(new Event("visibilitychange"));
    },
    lock(locked: boolean, time: number): void {
      now = time;
      page.pointerLockElement = locked ? target : null;
      page.dispatchEvent(new Event("pointerlockchange"));
    },
    /** What the recorder still holds on to. */
    hooks: (): number => waiting.size + [target, page, view].flatMap((on) => EVENTS.flatMap((type) => getEventListeners(on, type))).length,
  };
}
