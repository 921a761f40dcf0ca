import { medianInPlace } from "../../math/median.js";
import { SD_PER_MAD } from "../../math/sd-per-mad.js";
import { type PrincipalNormal, principalNormal } from "../normal/principal-normal.js";

/** Columns of one length to work in; their contents are lost. */
export interface Room {
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly c: Float64Array;
}

/**
 * Centre and covariance that a few far endpoints cannot drag along: the orthogonalised estimator of Maronna and Zamar 2002 (recalled) after
 * Gnanadesikan and Kettenring, with medians and median absolute deviations. In the plane: both coordinates in units of their own MAD, their sum
 * and difference (the axes of any correlation), and median and MAD of these. The columns keep their entries; cost O(n).
 */
export function robustNormal(x: Float64Array, y: Float64Array, room: Room): PrincipalNormal {
  const n = x.length;
  const mx = middle(x, room.a);
  const my = middle(y, room.a);
  const sx = SD_PER_MAD * deviation(x, mx, room.a);
  const sy = SD_PER_MAD * deviation(y, my, room.a);
  const scale = Math.max(sx, sy);
  // more than half of one coordinate equal: nothing to correlate
  if (sx === 0 || sy === 0) return principalNormal([mx, my], sx > 0 ? 1 : 0, 0, sy > 0 ? 1 : 0, scale);
  const { b: sum, c: difference } = room;
  for (let i = 0; i < n; i++) {
    const u = (x[i]! - mx) / sx;
    const v = (y[i]! - my) / sy;
    sum[i] = (u + v) * Math.SQRT1_2;
    difference[i] = (u - v) * Math.SQRT1_2;
  }
  const ms = middle(sum, room.a);
  const md = middle(difference, room.a);
  const vs = (SD_PER_MAD * deviation(sum, ms, room.a)) ** 2;
  const vd = (SD_PER_MAD * deviation(difference, md, room.a)) ** 2;
  const mean = [mx + sx * (ms + md) * Math.SQRT1_2, my + sy * (ms - md) * Math.SQRT1_2] as const;
  const rx = sx / scale;
  const ry = sy / scale;
  return principalNormal(mean, (rx * rx * (vs + vd)) / 2, (rx * ry * (vs - vd)) / 2, (ry * ry * (vs + vd)) / 2, scale);
}

function middle(values: Float64Array, room: Float64Array): number {
  room.set(values);
  return medianInPlace(room);
}

function deviation(values: Float64Array, centre: number, room: Float64Array): number {
  for (let i = 0; i < values.length; i++) room[i] = Math.abs(values[i]! - centre);
  return medianInPlace(room);
}
