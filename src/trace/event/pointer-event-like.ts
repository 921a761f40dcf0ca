// What a pointer event must carry to be read: a browser's `PointerEvent` fits, and so does a plain record of one that went through JSON.

/** A pointer event, live or as a plain record. Fields not named here are not looked at. */
export interface PointerEventLike {
  /** `"pointermove"`, `"pointerdown"`, `"pointerup"`, `"pointercancel"`, `"pointerleave"`, `"pointerrawupdate"`; other types are counted and left out. */
  readonly type: string;
  /** Milliseconds on one clock. */
  readonly timeStamp: number;
  readonly clientX?: number;
  readonly clientY?: number;
  readonly pageX?: number;
  readonly pageY?: number;
  readonly screenX?: number;
  readonly screenY?: number;
  readonly offsetX?: number;
  readonly offsetY?: number;
  /** Buttons held after the event, one bit each: 1 left or contact, 2 right, 4 middle, 8 back, 16 forward, 32 eraser. */
  readonly buttons?: number;
  /** The button whose change this event reports; -1 or absent for none. */
  readonly button?: number;
  readonly pointerType?: string;
  readonly pointerId?: number;
  readonly isPrimary?: boolean;
  /** The positions merged into this event, as a live event gives them. */
  readonly getCoalescedEvents?: () => readonly MergedEventLike[];
  /** The positions merged into this event, as a plain record keeps them; taken before `getCoalescedEvents` when both are there. */
  readonly coalescedEvents?: readonly MergedEventLike[];
}

/** One of the positions merged into a pointer event. */
export type MergedEventLike = Pick<
  PointerEventLike,
  "timeStamp" | "clientX" | "clientY" | "pageX" | "pageY" | "screenX" | "screenY" | "offsetX" | "offsetY"
>;

/** Which pair of coordinates to read. */
export type PointerCoordinates = "client" | "page" | "screen" | "offset";

/** The chosen pair of coordinates of an event, `NaN` where it has none. */
export function positionOf(event: MergedEventLike, coordinates: PointerCoordinates): { x: number; y: number } {
  const x = event[`${coordinates}X`];
  const y = event[`${coordinates}Y`];
  return { x: typeof x === "number" ? x : Number.NaN, y: typeof y === "number" ? y : Number.NaN };
}

/** The positions merged into an event; empty when the event stands for itself. */
export function mergedEvents(event: PointerEventLike): readonly MergedEventLike[] {
  return event.coalescedEvents ?? event.getCoalescedEvents?.() ?? [];
}
