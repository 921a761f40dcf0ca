import { requireNumber, show } from "../../math/require.js";
import { isDegenerate, type Moments, moments } from "../inference/moments.js";
import { requireEndpoints } from "../inference/require-endpoints.js";
import type { Endpoints, NormalScatter } from "../types.js";
import { type PrincipalNormal, principalNormal } from "./principal-normal.js";

/** Endpoints, or a distribution stated instead of them, read at a public entrance. */
export interface ScatterRead {
  /** Number of endpoints, 0 for a stated distribution. */
  readonly n: number;
  /** Absent for a stated distribution. */
  readonly endpoints?: Endpoints;
  /** Absent for a stated distribution and without endpoints. */
  readonly moments?: Moments;
  /** The normal distribution with this mean and covariance; absent below three endpoints. */
  readonly normal?: PrincipalNormal;
}

/** Fewer endpoints leave the covariance without a shape. */
const LEAST = 3;
/** A covariance beyond the product of the SDs, or unlike its mirror image, by more than this share is no rounding. */
const ROUNDING = 1e-12;

/** Throws unless `scatter` is endpoints or a normal scatter. */
export function readScatter(where: string, scatter: Endpoints | NormalScatter): ScatterRead {
  if (scatter === null || typeof scatter !== "object") {
    throw new TypeError(`${where}: scatter must be endpoints (x, y) or a normal scatter (mean, covariance), got ${show(scatter)}`);
  }
  if ("mean" in scatter || "covariance" in scatter) return { n: 0, normal: stated(where, scatter as NormalScatter) };
  requireEndpoints(where, "scatter", scatter);
  const n = scatter.x.length;
  if (n === 0) return { n, endpoints: scatter };
  const set = moments(scatter);
  return n < LEAST ? { n, endpoints: scatter, moments: set } : { n, endpoints: scatter, moments: set, normal: fitted(set) };
}

function fitted(set: Moments): PrincipalNormal {
  const normal = principalNormal(set.mean, set.xx, set.xy, set.yy, set.scale);
  return isDegenerate(set) ? { ...normal, short: 0 } : normal;
}

function stated(where: string, { mean, covariance }: NormalScatter): PrincipalNormal {
  requirePair(where, "scatter.mean", mean);
  if (!Array.isArray(covariance) || covariance.length !== 2) {
    throw new TypeError(`${where}: scatter.covariance must be two rows of two numbers, got ${show(covariance)}`);
  }
  requirePair(where, "scatter.covariance[0]", covariance[0]);
  requirePair(where, "scatter.covariance[1]", covariance[1]);
  const [[xx, xy], [yx, yy]] = covariance;
  requireNumber(where, "scatter.covariance[0][0]", xx, 0);
  requireNumber(where, "scatter.covariance[1][1]", yy, 0);
  const bound = Math.sqrt(xx) * Math.sqrt(yy);
  if (Math.abs(xy - yx) > ROUNDING * bound) {
    throw new RangeError(`${where}: scatter.covariance must be symmetric, got ${xy} and ${yx} off its diagonal`);
  }
  if (Math.abs(xy) > (1 + ROUNDING) * bound) {
    throw new RangeError(`${where}: scatter.covariance must not be negative definite, got a covariance of ${xy} beyond ${bound}`);
  }
  const scale = Math.sqrt(Math.max(xx, yy));
  if (scale === 0) return principalNormal([mean[0], mean[1]], 0, 0, 0, 0);
  return principalNormal([mean[0], mean[1]], xx / scale / scale, xy / scale / scale, yy / scale / scale, scale);
}

function requirePair(where: string, name: string, pair: readonly [number, number]): void {
  if (!Array.isArray(pair) || pair.length !== 2) throw new TypeError(`${where}: ${name} must be a pair of numbers, got ${show(pair)}`);
  requireNumber(where, `${name}[0]`, pair[0]);
  requireNumber(where, `${name}[1]`, pair[1]);
}
