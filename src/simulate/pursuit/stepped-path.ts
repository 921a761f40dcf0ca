import type { PathCursor } from "../compose-movement.js";
import { STEPS_PER_SECOND } from "./follow.js";

/** A stretch of a path on the steps of the simulation, from step `start` on. */
export interface PathPiece {
  readonly start: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** A cursor over pieces in time order: straight lines between steps, at rest where no piece is. */
export function steppedPath(pieces: readonly PathPiece[], x: number, y: number): PathCursor {
  let current = 0;
  const cursor: PathCursor = {
    x,
    y,
    moveTo: (t) => {
      const at = t * STEPS_PER_SECOND;
      while (current + 1 < pieces.length && pieces[current + 1]!.start <= at) current++;
      const piece = pieces[current]!;
      const inside = at - piece.start;
      if (inside < 0) return;
      const last = piece.x.length - 1;
      const k = Math.min(Math.floor(inside), last);
      const share = k < last ? inside - k : 0;
      cursor.x = piece.x[k]! + (share > 0 ? share * (piece.x[k + 1]! - piece.x[k]!) : 0);
      cursor.y = piece.y[k]! + (share > 0 ? share * (piece.y[k + 1]! - piece.y[k]!) : 0);
    },
  };
  return cursor;
}
