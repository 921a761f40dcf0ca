import { minimumJerkPosition } from "../math/minimum-jerk.js";
import { earlyBellPosition, lateBellPosition } from "./beta-bell.js";

/** Speed profile of one component: symmetric, peaking at 0.4 of its duration, or peaking at 0.6. */
export type Bell = "minimumJerk" | "earlySkewed" | "lateSkewed";

/** A displacement spread over time. Beside the bells: getting up to, holding and leaving the speed of a moving target. */
export interface Stroke {
  readonly onset: number;
  readonly duration: number;
  readonly dx: number;
  readonly dy: number;
  readonly bell: Bell | "speedUp" | "steady" | "slowDown";
}

/** Walks forward along the sum of many strokes; `x` and `y` are the position at the time last asked for. */
export interface PathCursor {
  x: number;
  y: number;
  /** Moves to `t`, which must not lie before the time asked for last. */
  readonly moveTo: (t: number) => void;
}

/** A cursor over `strokes`, sorted by onset, that start from rest at (x, y). One pass costs time linear in calls and strokes. */
export function composeMovement(strokes: readonly Stroke[], x: number, y: number): PathCursor {
  // strokes that have begun and not ended: a handful, kept in a buffer that is filled anew without allocation
  const active: Stroke[] = [];
  let next = 0;
  let restX = x;
  let restY = y;
  const cursor: PathCursor = {
    x,
    y,
    moveTo: (t) => {
      while (next < strokes.length && strokes[next]!.onset <= t) active.push(strokes[next++]!);
      let kept = 0;
      let sumX = 0;
      let sumY = 0;
      for (let i = 0; i < active.length; i++) {
        const stroke = active[i]!;
        if (t >= stroke.onset + stroke.duration) {
          restX += stroke.dx;
          restY += stroke.dy;
        } else {
          const share = coveredShare(stroke.bell, (t - stroke.onset) / stroke.duration);
          sumX += share * stroke.dx;
          sumY += share * stroke.dy;
          active[kept++] = stroke;
        }
      }
      active.length = kept;
      cursor.x = restX + sumX;
      cursor.y = restY + sumY;
    },
  };
  return cursor;
}

/** Share of a stroke's displacement made at the share `s` of its duration. */
export function coveredShare(bell: Stroke["bell"], s: number): number {
  switch (bell) {
    case "minimumJerk":
      return minimumJerkPosition(s);
    case "earlySkewed":
      return earlyBellPosition(s);
    case "lateSkewed":
      return lateBellPosition(s);
    case "speedUp":
      return speedUpPosition(s);
    case "slowDown":
      return 1 - speedUpPosition(1 - s);
    case "steady":
      return s <= 0 ? 0 : Math.min(s, 1);
  }
}

/** Integral of a minimum-jerk rise of speed, over its value at 1 (half the final speed times the duration). */
function speedUpPosition(s: number): number {
  if (s <= 0) return 0;
  return s >= 1 ? 1 : s * s * s * s * (5 - s * (6 - 2 * s));
}
