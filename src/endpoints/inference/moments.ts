import { meanAndSd } from "../../math/mean-and-sd.js";
import type { Endpoints } from "../types.js";

/** Mean and covariance (n - 1) of endpoints. */
export interface Moments {
  readonly n: number;
  readonly mean: readonly [number, number];
  /** Length in which the covariance is counted, the larger SD: its squares can neither overflow nor vanish. 0 when all endpoints coincide. */
  readonly scale: number;
  /** Variances and covariance in units of `scale` squared. */
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

/** Moments of at least one endpoint, by sums of deviations from the mean. */
export function moments({ x, y }: Endpoints): Moments {
  const n = x.length;
  const alongX = meanAndSd(x);
  const alongY = meanAndSd(y);
  const mean = [alongX.mean, alongY.mean] as const;
  const scale = Math.max(alongX.sd, alongY.sd);
  if (scale === 0) return { n, mean, scale, xx: 0, xy: 0, yy: 0 };
  let sum = 0;
  for (let i = 0; i < n; i++) sum += ((x[i]! - mean[0]) / scale) * ((y[i]! - mean[1]) / scale);
  return { n, mean, scale, xx: (alongX.sd / scale) ** 2, xy: sum / (n - 1), yy: (alongY.sd / scale) ** 2 };
}

/** A share of variance below this is left over by rounding. */
const NO_SHARE = 1e-13;

/** Whether the endpoints lie on a line or a point to within rounding. */
export function isDegenerate({ xx, xy, yy }: Moments): boolean {
  return !(xx * yy - xy * xy > NO_SHARE * xx * yy);
}

/** Root of the summed variances of both axes, length unit. */
export function bivariateSd({ scale, xx, yy }: Moments): number {
  return scale * Math.sqrt(xx + yy);
}
