import type { Estimate, Reason } from "../math/estimate.js";
import { hotelling } from "../math/hotelling.js";
import { jackknifeVariance } from "../math/jackknife-variance.js";
import { requireLevel } from "../math/require.js";
import { sdEstimate } from "../math/sd-estimate.js";
import { studentQuantile } from "../math/student-quantile.js";
import { studentTail } from "../math/student-tail.js";
import { isDegenerate, type Moments, moments } from "./inference/moments.js";
import { type PitmanMorgan, pitmanMorgan } from "./inference/pitman-morgan.js";
import { principalAxes } from "./inference/principal-axes.js";
import { requireEndpoints } from "./inference/require-endpoints.js";
import { withoutOne } from "./inference/without-one.js";
import { isUnlikeNormal } from "./normal/unlike-normal.js";
import type { Endpoints } from "./types.js";

/** Options of `anisotropyTest`. */
export interface AnisotropyTestOptions {
  /** Label of the length unit, default "px". */
  readonly unit?: string;
  /** Confidence level, above 0 and below 1, default 0.95. Raised, the intervals grow and an anisotropy is shown less often. */
  readonly level?: number;
}

/** Whether endpoints scatter more in one direction than in another. */
export type AnisotropyTest =
  | {
      readonly ok: true;
      readonly n: number;
      readonly unit: string;
      readonly level: number;
      /** Elongation in whichever direction it lies. */
      readonly anyDirection: {
        /** SD along the longest direction over that across it; above 1 by chance alone, for round scatter by about 1.25/sqrt(n). */
        readonly aspect: number;
        /** The longest direction, degrees from +x toward +y in (-90, 90]; `null` when there is none. */
        readonly angle: number | null;
        /** Mauchly's W: 1 for round, 0 for a line; its p is exact for normal scatter and far too small for heavy tails. */
        readonly mauchly: { readonly w: number; readonly p: number };
        /** Probability of an elongation as clear as this one in round scatter, whatever its tails; `null` when it cannot be told. */
        readonly p: number | null;
        /** By `p`: `elongated`, or `notShown`, which is no proof of round scatter. */
        readonly verdict: "elongated" | "notShown";
      };
      /** Spread along x against spread along y. */
      readonly axes: {
        readonly sdX: Estimate;
        readonly sdY: Estimate;
        /** SD along x over SD along y, its interval by the jackknife: it holds for heavy tails, too. */
        readonly ratio: Estimate;
        /** Two-sided p-value belonging to the interval of `ratio`; `null` without interval. */
        readonly p: number | null;
        /** The same comparison, exact for normal scatter and too narrow for heavy tails. */
        readonly pitmanMorgan: PitmanMorgan;
        /** By `p`: which of the two is shown to be larger. */
        readonly verdict: "xLarger" | "yLarger" | "notShown";
      };
      /** `few`: under 20 endpoints, too few to show any but a gross difference; `notNormal`: the figures that rest on normal scatter (`mauchly`, `pitmanMorgan`) are not to be trusted. */
      readonly warnings: readonly ("few" | "notNormal")[];
    }
  /** `tooFew`: under four endpoints; `noSpread`: they lie on a line or a point. */
  | { readonly ok: false; readonly why: Reason; readonly unit: string; readonly n: number };

const LEAST = 4;
const ENOUGH = 20;
/** An interval over more than this many powers of e says nothing, and its ends may not fit into a double. */
const WIDEST = 300;

/**
 * Do the endpoints scatter more in one direction than in another?
 *
 * Two questions, each answered twice: with a p-value that holds whatever the tails of the scatter, and with the classical one that is exact
 * for normal scatter. (1) Elongation in any direction: Mauchly's W = det S/(tr S/2)^2, p = W^((n - 2)/2); and Hotelling's test that
 * dx^2 - dy^2 and 2 dx dy, taken about the mean, both average 0. (2) Spread along x against spread along y of the same, correlated endpoints: the
 * jackknife of log(SDx/SDy) with n - 1 degrees of freedom; and the test of Pitman and Morgan. Cost O(n).
 *
 * @param endpoints - offsets from the target's centre, at least four, of one condition; for along against across give them in the movement's frame
 * @param options - see `AnisotropyTestOptions`
 * @returns both comparisons, each with its verdict; not ok with too few endpoints or with all of them on a line
 * @throws TypeError or RangeError if a column or an option is not as described
 * @see Mauchly 1940; Pitman 1939; Morgan 1939 (all recalled). The test of the squares is Hotelling's, applied to them; its size is simulated
 * @example
 * ```ts
 * const x = Float64Array.of(9, -7, 4, -12, 10, -3, 6, -8, 11, -10);
 * const y = Float64Array.of(1, -2, 2, 1, -1, 3, -3, 1, 0, -2);
 * const test = anisotropyTest({ x, y });
 * test.ok && test.axes.verdict; // => "xLarger"
 * ```
 */
export function anisotropyTest(endpoints: Endpoints, options: AnisotropyTestOptions = {}): AnisotropyTest {
  const { unit = "px", level = 0.95 } = options;
  requireEndpoints("anisotropyTest", "endpoints", endpoints);
  requireLevel("anisotropyTest", level);
  const n = endpoints.x.length;
  if (n < LEAST) return { ok: false, why: "tooFew", unit, n };
  const m = moments(endpoints);
  if (isDegenerate(m)) return { ok: false, why: "noSpread", unit, n };
  const { major, minor, angle } = principalAxes(m.xx, m.xy, m.yy);
  const [dx, dy] = deviations(endpoints, m);
  const p = squaresTest(dx, dy);
  // 1 - W is the squared relative difference of the variances
  const difference = (major - minor) / (major + minor);
  const classical = pitmanMorgan(m, level);
  const ratio = Math.sqrt(m.xx / m.yy);
  const error = Math.sqrt(logRatioVariance(dx, dy));
  const t = Math.log(ratio) / error;
  const half = -studentQuantile((1 - level) / 2, n - 1) * error;
  const known = error > 0 && half < WIDEST;
  const axesP = known ? studentTail(t, n - 1) : null;
  const shown = axesP !== null && axesP < 1 - level;
  const warnings: ("few" | "notNormal")[] = n < ENOUGH ? ["few"] : [];
  if (isUnlikeNormal(endpoints, m)) warnings.push("notNormal");
  const value = { ok: true, value: ratio, unit: "1", n } as const;
  return {
    ok: true,
    n,
    unit,
    level,
    anyDirection: {
      aspect: Math.sqrt(major / minor),
      angle,
      mauchly: { w: 1 - difference * difference, p: Math.exp(((n - 2) / 2) * Math.log1p(-difference * difference)) },
      p,
      verdict: p !== null && p < 1 - level ? "elongated" : "notShown",
    },
    axes: {
      sdX: sdEstimate(endpoints.x, unit, level),
      sdY: sdEstimate(endpoints.y, unit, level),
      ratio: known ? { ...value, interval: [ratio * Math.exp(-half), ratio * Math.exp(half)], level } : value,
      p: axesP,
      pitmanMorgan: classical,
      verdict: shown ? (ratio > 1 ? "xLarger" : "yLarger") : "notShown",
    },
    warnings,
  };
}

/** Deviations from the mean in units of the scatter. */
function deviations({ x, y }: Endpoints, { mean, scale }: Moments): [Float64Array, Float64Array] {
  return [x.map((value) => (value - mean[0]) / scale), y.map((value) => (value - mean[1]) / scale)];
}

/** Round scatter has dx^2 - dy^2 and 2 dx dy at 0 on average, in whichever direction the axes lie. */
function squaresTest(dx: Float64Array, dy: Float64Array): number | null {
  const difference = dx.map((value, i) => value * value - dy[i]! * dy[i]!);
  const product = dx.map((value, i) => 2 * value * dy[i]!);
  return hotelling([difference, product], [0, 0])?.p ?? null;
}

/** Jackknife variance of log(SDx/SDy); not finite when one endpoint alone makes the spread along an axis. */
function logRatioVariance(dx: Float64Array, dy: Float64Array): number {
  const n = dx.length;
  let xx = 0;
  let yy = 0;
  for (let i = 0; i < n; i++) {
    xx += dx[i]! * dx[i]!;
    yy += dy[i]! * dy[i]!;
  }
  return jackknifeVariance(n, Math.log(xx / yy) / 2, (i) => {
    return Math.log(withoutOne(xx, dx[i]! * dx[i]!, n) / withoutOne(yy, dy[i]! * dy[i]!, n)) / 2;
  });
}
