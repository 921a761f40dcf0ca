import type { Estimate } from "../../math/estimate.js";
import type { FlatPair } from "./flatten.js";
import { shiftBack } from "./shifted.js";
import type { Piece, Stretch } from "./stretch.js";
import { ratioOverUnits, sumUp } from "./units.js";

/** Pointer velocity over the target's `shift` samples earlier, by least squares through 0, both axes in one; units as in `ratioOverUnits`. */
export function velocityGain(stretch: Stretch, units: readonly Piece[], shift: number, level: number): Estimate {
  const { velocity, pieces } = stretch;
  const x = shiftBack(velocity.qx, pieces, shift);
  const y = shiftBack(velocity.qy, pieces, shift);
  const both = sumUp(
    stretch,
    units,
    (i) => velocity.px[i]! * x.values[i]! + velocity.py[i]! * y.values[i]!,
    (i) => x.has[i] === 1,
  );
  const target = sumUp(
    stretch,
    units,
    (i) => x.values[i]! ** 2 + y.values[i]! ** 2,
    (i) => x.has[i] === 1,
  );
  return ratioOverUnits(both, target, "plain", "1", level);
}

/** Distance from where the target was `shift` samples earlier, per axis, with whether it is known. */
export function errorFromDelayed(
  smooth: FlatPair,
  pieces: readonly Piece[],
  shift: number,
): { x: Float64Array; y: Float64Array; has: Uint8Array } {
  const qx = shiftBack(smooth.qx, pieces, shift);
  const qy = shiftBack(smooth.qy, pieces, shift);
  return {
    x: smooth.px.map((value, i) => value - qx.values[i]!),
    y: smooth.py.map((value, i) => value - qy.values[i]!),
    has: qx.has,
  };
}
