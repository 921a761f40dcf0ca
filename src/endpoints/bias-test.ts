import type { Estimate, Reason } from "../math/estimate.js";
import { hotelling, hotellingCritical } from "../math/hotelling.js";
import { requireLevel, requireNumber, show } from "../math/require.js";
import { studentQuantile } from "../math/student-quantile.js";
import { moments } from "./inference/moments.js";
import { principalAxes } from "./inference/principal-axes.js";
import { requireEndpoints } from "./inference/require-endpoints.js";
import type { Endpoints } from "./types.js";

/** Options of `biasTest`. */
export interface BiasTestOptions {
  /** Label of the length unit, default "px". */
  readonly unit?: string;
  /** Confidence level, above 0 and below 1, default 0.95. Raised, the region grows and a bias is shown less often. */
  readonly level?: number;
  /** Point that the mean is held against, length unit, default [0, 0], the target's centre. */
  readonly about?: readonly [number, number];
}

/** Whether the endpoints lie off a point on average. */
export type BiasTest =
  | {
      readonly ok: true;
      readonly n: number;
      readonly unit: string;
      readonly level: number;
      readonly about: readonly [number, number];
      /** Mean endpoint minus `about`. */
      readonly offset: readonly [number, number];
      /** Length of `offset`; even without bias about the SD of the mean, not 0. */
      readonly distance: number;
      /** Direction of `offset`, degrees from +x toward +y in (-180, 180]; `null` when it has no length. */
      readonly direction: number | null;
      /** Offset per axis with its own Student interval: each holds by itself, not both together. */
      readonly x: Estimate;
      readonly y: Estimate;
      /** Wider intervals, the shadows of `region` on the axes: they hold together at `level`, as for any other direction. */
      readonly simultaneous: { readonly x: readonly [number, number]; readonly y: readonly [number, number] };
      /** Ellipse about `offset` that holds the true one at `level`: semi-axes, larger first, and direction of the larger, degrees in (-90, 90], `null` when round. */
      readonly region: { readonly semiAxes: readonly [number, number]; readonly angle: number | null };
      readonly t2: number;
      readonly f: number;
      /** Degrees of freedom of `f`. */
      readonly df: readonly [number, number];
      /** Probability of an offset as clear as this one, or clearer, without bias. */
      readonly p: number;
      /** The `t2` above which a bias counts as shown. */
      readonly criticalT2: number;
      /** `biased`: the point lies outside the region; `notShown`: the data do not tell, which is no proof of no bias. */
      readonly verdict: "biased" | "notShown";
      /** `few`: under 30 endpoints, where skewed scatter makes the region too small. */
      readonly warnings: readonly "few"[];
    }
  /** `tooFew`: under four endpoints; `noSpread`: they lie on a line or a point. */
  | { readonly ok: false; readonly why: Reason; readonly unit: string; readonly n: number };

/** Three endpoints would leave one degree of freedom and a region without use. */
const LEAST = 4;
/** From here on the region holds what it says for skewed scatter, too. */
const ENOUGH = 30;

/**
 * Do the endpoints lie off the target's centre on average, more than their scatter explains?
 *
 * Hotelling's one-sample test takes both axes and their correlation at once: T2 = n e' S^-1 e with e the mean offset and S the covariance
 * (n - 1), F = (n - 2)/(2 (n - 1)) T2 on 2 and n - 2 degrees of freedom; exact for normal scatter, whatever its shape and tilt.
 * Read the region before the verdict: it shows which biases are still possible. Cost O(n).
 *
 * @param endpoints - offsets from the target's centre, at least four, of one person and condition
 * @param options - see `BiasTestOptions`
 * @returns offset with intervals and region, the test, and a verdict; not ok with too few endpoints or with all of them on a line
 * @throws TypeError or RangeError if a column or an option is not as described
 * @see Hotelling 1931 (recalled); Johnson and Wichern, Applied Multivariate Statistical Analysis (recalled; its worked example is reproduced)
 * @example
 * ```ts
 * const x = Float64Array.of(3, 5, -1, 6, 2, 4, 7, 1);
 * const y = Float64Array.of(1, -2, 0, 2, -1, 3, -3, 1);
 * const test = biasTest({ x, y });
 * test.ok && test.verdict; // => "biased"
 * ```
 */
export function biasTest(endpoints: Endpoints, options: BiasTestOptions = {}): BiasTest {
  const { unit = "px", level = 0.95, about = [0, 0] } = options;
  requireEndpoints("biasTest", "endpoints", endpoints);
  requireLevel("biasTest", level);
  requirePoint(about);
  const n = endpoints.x.length;
  if (n < LEAST) return { ok: false, why: "tooFew", unit, n };
  const test = hotelling([endpoints.x, endpoints.y], about);
  if (test === undefined) return { ok: false, why: "noSpread", unit, n };
  const { t2, f, df, p } = test;
  const dx = test.mean[0]! - about[0];
  const dy = test.mean[1]! - about[1];
  const { scale, xx, xy, yy } = moments(endpoints);
  const axes = principalAxes(xx, xy, yy);
  const criticalT2 = hotellingCritical(level, 2, n);
  // the region is e with n (e - offset)' S^-1 (e - offset) <= criticalT2
  const factor = scale * Math.sqrt(criticalT2 / n);
  const half = (-studentQuantile((1 - level) / 2, n - 1) * scale) / Math.sqrt(n);
  const axis = (value: number, sd: number): Estimate => {
    return { ok: true, value, unit, n, interval: [value - half * sd, value + half * sd], level };
  };
  const halfX = factor * Math.sqrt(xx);
  const halfY = factor * Math.sqrt(yy);
  return {
    ok: true,
    n,
    unit,
    level,
    about: [about[0], about[1]],
    offset: [dx, dy],
    distance: Math.hypot(dx, dy),
    direction: dx === 0 && dy === 0 ? null : (Math.atan2(dy, dx) * 180) / Math.PI,
    x: axis(dx, Math.sqrt(xx)),
    y: axis(dy, Math.sqrt(yy)),
    simultaneous: { x: [dx - halfX, dx + halfX], y: [dy - halfY, dy + halfY] },
    region: { semiAxes: [factor * Math.sqrt(axes.major), factor * Math.sqrt(axes.minor)], angle: axes.angle },
    t2,
    f,
    df: [df[0], df[1]],
    p,
    criticalT2,
    verdict: t2 > criticalT2 ? "biased" : "notShown",
    warnings: n < ENOUGH ? ["few"] : [],
  };
}

function requirePoint(about: readonly [number, number]): void {
  if (!Array.isArray(about) || about.length !== 2) {
    throw new TypeError(`biasTest: options.about must be a pair of numbers, got ${show(about)}`);
  }
  requireNumber("biasTest", "options.about[0]", about[0]);
  requireNumber("biasTest", "options.about[1]", about[1]);
}
