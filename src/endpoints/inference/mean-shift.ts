import { fTail } from "../../math/f-distribution.js";
import type { Moments } from "./moments.js";

/** Test of the difference of two mean endpoints. */
export interface MeanShift {
  /** Mean of the second set minus mean of the first. */
  readonly shift: readonly [number, number];
  /** d' S^-1 d with S = S1/n1 + S2/n2. */
  readonly t2: number;
  /** (v - 1)/(2 v) t2, with v the degrees of freedom that the covariances are worth together. */
  readonly f: number;
  /** Degrees of freedom of `f`: 2 and v - 1; the second is not whole. */
  readonly df: readonly [number, number];
  readonly p: number;
}

/** A share of variance below this is left over by rounding. */
const NO_SHARE = 1e-13;

/**
 * Hotelling's two-sample test for covariances that need not be alike, with the degrees of freedom of Krishnamoorthy and Yu 2004 (formula read
 * in a public implementation): v = 6/sum_i (tr(C_i^2) + (tr C_i)^2)/(n_i - 1), C_i = (S_i/n_i) S^-1. It does not change when both sets are
 * turned, stretched or sheared alike. `undefined` when both sets together lie on a line.
 */
export function meanShift(one: Moments, other: Moments): MeanShift | undefined {
  // variances of both means in units of the larger scale
  const scale = Math.max(one.scale, other.scale);
  if (scale === 0) return undefined;
  const a = ofMean(one, scale);
  const b = ofMean(other, scale);
  // by SDs of the difference the sum has 1 on its diagonal and the correlation r beside it
  const sx = Math.sqrt(a.xx + b.xx);
  const sy = Math.sqrt(a.yy + b.yy);
  const r = (a.xy + b.xy) / (sx * sy);
  const rest = (1 - r) * (1 + r);
  if (!(rest > NO_SHARE)) return undefined;
  const shift = [other.mean[0] - one.mean[0], other.mean[1] - one.mean[1]] as const;
  const u = shift[0] / scale / sx;
  const v = shift[1] / scale / sy;
  const t2 = (u * u - 2 * r * u * v + v * v) / rest;
  let inverse = 0;
  for (const [m, n] of [
    [a, one.n],
    [b, other.n],
  ] as const) {
    const xx = m.xx / (sx * sx);
    const xy = m.xy / (sx * sy);
    const yy = m.yy / (sy * sy);
    // C = M R^-1 with R^-1 = [[1, -r], [-r, 1]]/rest
    const c11 = (xx - r * xy) / rest;
    const c12 = (xy - r * xx) / rest;
    const c21 = (xy - r * yy) / rest;
    const c22 = (yy - r * xy) / rest;
    const trace = c11 + c22;
    inverse += (c11 * c11 + 2 * c12 * c21 + c22 * c22 + trace * trace) / (n - 1);
  }
  const degrees = 6 / inverse;
  const f = ((degrees - 1) / (2 * degrees)) * t2;
  return { shift, t2, f, df: [2, degrees - 1], p: fTail(f, 2, degrees - 1) };
}

function ofMean(m: Moments, scale: number): { xx: number; xy: number; yy: number } {
  const factor = (m.scale / scale) ** 2 / m.n;
  return { xx: m.xx * factor, xy: m.xy * factor, yy: m.yy * factor };
}
