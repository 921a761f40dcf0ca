import type { PathCursor } from "./compose-movement.js";
import { centreAt } from "./draw-acquisition.js";
import { type Frame, heldWithin, offsetFrom } from "./frame.js";
import { toQuantum } from "./sample-path.js";
import type { DrawnPress, DrawnTarget } from "./schedule.js";
import type { Vector } from "./truth.js";

/** A press with what came of it. */
export interface JudgedPress extends DrawnPress {
  /** The pointer as recorded. */
  readonly at: Vector;
  readonly inside: boolean;
  /** From the target's centre to the hand, held at the border, tremor and rounding left out. */
  readonly error: Vector;
}

/** Judges one press by the recorded position; both cursors only walk forward, so presses must come in time order. */
export function judgePress(
  press: DrawnPress,
  target: DrawnTarget,
  frame: Frame,
  hand: PathCursor,
  pointer: PathCursor,
  quantum: number,
): JudgedPress {
  hand.moveTo(press.t);
  pointer.moveTo(press.t);
  const centre = centreAt(target, press.t);
  const held = heldWithin(frame, pointer);
  const at = { x: toQuantum(held.x, quantum), y: toQuantum(held.y, quantum) };
  const { x, y } = offsetFrom(frame, centre, at);
  const inside = Math.sqrt(x * x + y * y) <= target.width / 2;
  return { ...press, at, inside, error: offsetFrom(frame, centre, heldWithin(frame, hand)) };
}
