import { medianInPlace } from "../../math/median.js";
import type { Endpoints } from "../types.js";

/** Distance of each endpoint from a point. */
export function distancesFrom({ x, y }: Endpoints, [cx, cy]: readonly [number, number]): Float64Array {
  const out = new Float64Array(x.length);
  for (let i = 0; i < x.length; i++) {
    const dx = Math.abs(x[i]! - cx);
    const dy = Math.abs(y[i]! - cy);
    // the larger one taken out, so that no square overflows or vanishes
    const share = dx > dy ? dy / dx : dx / dy;
    out[i] = dx === dy ? dx * Math.SQRT2 : Math.max(dx, dy) * Math.sqrt(1 + share * share);
  }
  return out;
}

/** Distance of each endpoint from the median per axis, a centre that no far endpoint drags along. */
export function distancesFromMedian(endpoints: Endpoints): Float64Array {
  return distancesFrom(endpoints, [medianInPlace(endpoints.x.slice()), medianInPlace(endpoints.y.slice())]);
}
