import { show } from "../../math/require.js";
import type { PointerEventLike } from "./pointer-event-like.js";

/** Which events to keep; a field that is absent keeps all. */
export interface PointerFilter {
  readonly pointerId?: number;
  readonly pointerType?: string;
  readonly isPrimary?: boolean;
}

/** The events of one pointer, each with its place in the input. */
export interface PointerSelection {
  readonly kept: readonly { readonly event: PointerEventLike; readonly index: number }[];
  readonly device: string;
  /** Events of types that say nothing about position or buttons, by type. */
  readonly ignored: Readonly<Record<string, number>>;
  /** Events that `only` left out. */
  readonly leftOut: number;
}

const MOTION = ["pointermove", "pointerdown", "pointerup"];
const ENDS = ["pointercancel", "pointerleave"];

/**
 * Keeps the events that say where one pointer was. Raw updates repeat the moves that follow them, so they count only where there are
 * no moves. Refuses two devices, and two pointers at once; a touch or pen may take a new id whenever it comes down anew.
 */
export function selectPointerEvents(where: string, events: readonly PointerEventLike[], only: PointerFilter): PointerSelection {
  const read = events.some((event) => event?.type === "pointermove") ? MOTION : [...MOTION, "pointerrawupdate"];
  const kept: { event: PointerEventLike; index: number }[] = [];
  const ignored: Record<string, number> = {};
  let leftOut = 0;
  let before: PointerEventLike | undefined;
  for (let index = 0; index < events.length; index++) {
    const event = events[index]!;
    if (event === null || typeof event !== "object" || typeof event.type !== "string") {
      throw new TypeError(`${where}: events[${index}] must be a pointer event with a type, got ${show(event)}`);
    }
    if (!read.includes(event.type) && !ENDS.includes(event.type)) {
      ignored[event.type] = (ignored[event.type] ?? 0) + 1;
    } else if (!matches(event, only)) {
      leftOut++;
    } else {
      if (before !== undefined) requireSamePointer(where, before, event, index);
      before = event;
      kept.push({ event, index });
    }
  }
  return { kept, device: before?.pointerType || "pointer", ignored, leftOut };
}

function matches(event: PointerEventLike, only: PointerFilter): boolean {
  return (
    (only.pointerId === undefined || event.pointerId === only.pointerId) &&
    (only.pointerType === undefined || event.pointerType === only.pointerType) &&
    (only.isPrimary === undefined || event.isPrimary === only.isPrimary)
  );
}

function requireSamePointer(where: string, before: PointerEventLike, event: PointerEventLike, index: number): void {
  if (event.pointerType !== before.pointerType) {
    throw new RangeError(
      `${where}: events[${index}].pointerType must be the same throughout, got ${show(event.pointerType)} after ${show(before.pointerType)}; choose one by options.only`,
    );
  }
  // a finger is given a new id each time it comes down, a pen when it comes back into range; a mouse keeps its own
  const lifted = event.pointerType !== "mouse" && (ENDS.includes(before.type) || !before.buttons);
  if (event.pointerId !== before.pointerId && !lifted) {
    throw new RangeError(
      `${where}: events[${index}].pointerId must be the same throughout, got ${event.pointerId} after ${before.pointerId}; choose one by options.only`,
    );
  }
}
