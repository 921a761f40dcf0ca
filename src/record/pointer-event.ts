// What browsers mean by the fields of a pointer event.

/** The bit of `buttons` that stands for a number of `button`: the second and third are swapped; no button (-1) has a bit never in use. */
export function bitOf(button: number): number {
  return 1 << (button === 1 || button === 2 ? 3 - button : button);
}

/**
 * The events whose positions count: those merged into this one where there are any, else the event itself; never both, since it sums them up.
 * Firefox has been reported to give wrong motion to merged events. Then their motions do not add up to that of the event, which is right.
 */
export function positionsOf(event: PointerEvent, relative: boolean): PointerEvent[] {
  const merged = event.getCoalescedEvents?.();
  const excess = (axis: "movementX" | "movementY"): number => merged.reduce((sum, part) => sum + part[axis], -event[axis]);
  if (!merged?.length || (relative && !(Math.abs(excess("movementX")) + Math.abs(excess("movementY")) < 1))) return [event];
  return merged;
}
