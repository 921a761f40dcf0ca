import { binomialTest } from "../math/binomial-test.js";
import type { Estimate } from "../math/estimate.js";
import { withCoverage } from "../math/interval-coverage.js";
import { proportionEstimate } from "../math/proportion-estimate.js";
import { requireInteger, requireLevel, requireNumber, requireSeed } from "../math/require.js";
import { requireShape } from "../trace/shape/require-shape.js";
import { isInside } from "../trace/shape/target-shape.js";
import type { Shape } from "../trace/types.js";
import { insideCircle } from "./normal/inside-circle.js";
import { insideRectangle } from "./normal/inside-rectangle.js";
import { BIAS_GAIN_COVERAGE, HIT_COVERAGE, SPREAD_GAIN_COVERAGE } from "./normal/model-coverage.js";
import { modelEstimates } from "./normal/model-estimate.js";
import { type NormalWarning, normalWarnings } from "./normal/normal-warnings.js";
import { type PrincipalNormal, withoutBias, withSpread } from "./normal/principal-normal.js";
import { readScatter } from "./normal/read-scatter.js";
import type { Endpoints, NormalScatter } from "./types.js";

/** Options of `hitProbability`. */
export interface HitProbabilityOptions {
  /** Share by which both standard deviations shrink for `gain.withLessSpread`, above 0 and at most 1, default 0.2. Raised, the gain asks for more. */
  readonly spreadCut?: number;
  /** Confidence level, above 0 and below 1, default 0.95; `agrees` is judged at it, too. Raised, intervals grow and disagreement is shown less often. */
  readonly level?: number;
  /** Start of the random numbers behind the intervals of the model, a 32-bit integer, default 1. */
  readonly seed?: number;
  /** Scatters drawn for these intervals, 99 to 100000, default 999. More steady their ends and take longer. */
  readonly draws?: number;
}

/** How likely an endpoint lands on a target, by the model and by count. */
export interface HitProbability {
  /** Number of endpoints, 0 for a stated scatter. */
  readonly n: number;
  readonly level: number;
  readonly seed: number;
  readonly spreadCut: number;
  /** Probability under the normal distribution with the mean and covariance seen, in 0..1; without interval for a stated scatter. `tooFew` under 3 endpoints, `noSpread` when they coincide. */
  readonly model: Estimate;
  /** Share of the endpoints on the target, edge included, with its Wilson interval; it assumes no distribution. `tooFew` without endpoints. */
  readonly observed: Estimate;
  /** Whether the count is what the model's probability lets expect: `p` at least 1 - level; `null` when one of both is missing. */
  readonly agrees: boolean | null;
  /** Exact binomial p-value of the count under the model's probability, twice the smaller tail; cautious, since the model was fitted to the same endpoints. */
  readonly p: number | null;
  /** What the probability would rise by, in 0..1, falls negative. */
  readonly gain: {
    /** Mean on the target's centre, spread as it is. */
    readonly withoutBias: Estimate;
    /** Standard deviations smaller by `spreadCut`, bias as it is: below 0 when the mean endpoint lies off the target. */
    readonly withLessSpread: Estimate;
  };
  /**
   * `few`: under 20 endpoints; `shapeUnknown`: under 50, too few to see whether they are normal (if not, the model's intervals may hold the truth 50
   * times in 100 only); `notNormal`: they are skewed or lie too far out; `preferObserved`: count and model disagree beyond chance, so that the
   * count is the one to believe, and the gains are not.
   */
  readonly warnings: readonly (NormalWarning | "preferObserved")[];
}

/**
 * Probability that the next endpoint lands on a target, and what removing the bias or reducing the spread would gain.
 *
 * P = integral of the bivariate normal density over the target, with the mean and the covariance (n - 1) seen; computed along the target's edge to
 * 1e-12, never by simulation. Larger is better. Beside it the plain share of endpoints on the target: with heavy tails both differ, and the share
 * is right. Model intervals: scatters that the data allow, drawn; one set of draws for all three figures. Cost O(n), and some 10 ms.
 *
 * @param scatter - offsets of the endpoints from the target's centre, of one person and condition; or a normal distribution, taken as true
 * @param shape - the target: a circle, or a rectangle turned by `angle` degrees from +x toward +y (clockwise on a y-down screen), in the frame of the offsets
 * @param options - see `HitProbabilityOptions`
 * @returns model and observed probability, whether they agree, the gains, and warnings
 * @throws TypeError or RangeError if the scatter, the shape or an option is not as described
 * @see textbook (normal distribution, binomial test); Wilson 1927; Yang and Berger 1994 (prior of the draws): recalled
 * @example
 * ```ts
 * const x = Float64Array.of(3, 5, -1, 6, 2, 4, 7, 1);
 * const y = Float64Array.of(1, -2, 0, 2, -1, 3, -3, 1);
 * const { model } = hitProbability({ x, y }, { kind: "circle", diameter: 10 });
 * model.ok && model.value.toFixed(2); // => "0.66"
 * ```
 */
export function hitProbability(scatter: Endpoints | NormalScatter, shape: Shape, options: HitProbabilityOptions = {}): HitProbability {
  const { spreadCut = 0.2, level = 0.95, seed = 1, draws = 999 } = options;
  const where = "hitProbability";
  const read = readScatter(where, scatter);
  const { n, endpoints, normal } = read;
  requireShape(where, "shape", shape);
  requireNumber(where, "options.spreadCut", spreadCut, 0, 1, true);
  requireLevel(where, level);
  requireSeed(where, seed);
  requireInteger(where, "options.draws", draws, 99, 100000);
  const hit = (one: PrincipalNormal): number => probabilityOf(one, shape);
  const { model, bias, spread } = modelEstimates(
    normal,
    n,
    {
      model: hit,
      bias: (one) => hit(withoutBias(one)) - hit(one),
      spread: (one) => hit(withSpread(one, 1 - spreadCut)) - hit(one),
    },
    { unit: "1", level, seed, draws },
  );
  const hits = endpoints === undefined ? 0 : countInside(endpoints, shape);
  const p = model.ok && n > 0 ? binomialTest(hits, n, model.value) : null;
  const agrees = p === null ? null : p >= 1 - level;
  return {
    n,
    level,
    seed,
    spreadCut,
    model: withCoverage(model, HIT_COVERAGE),
    observed: proportionEstimate(hits, n, level),
    agrees,
    p,
    gain: { withoutBias: withCoverage(bias, BIAS_GAIN_COVERAGE), withLessSpread: withCoverage(spread, SPREAD_GAIN_COVERAGE) },
    warnings: agrees === false ? [...normalWarnings(read), "preferObserved"] : normalWarnings(read),
  };
}

function probabilityOf(normal: PrincipalNormal, shape: Shape): number {
  if (shape.kind === "circle") return insideCircle(normal, shape.diameter / 2).lower;
  return insideRectangle(normal, { width: shape.width, height: shape.height, angle: shape.angle ?? 0 }).lower;
}

function countInside({ x, y }: Endpoints, shape: Shape): number {
  let count = 0;
  for (let i = 0; i < x.length; i++) if (isInside(shape, x[i]!, y[i]!, 1)) count++;
  return count;
}
