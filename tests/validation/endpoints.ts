// Intervals of endpoint scatter against their name, on three shapes of scatter and by the number of endpoints.
import { biasTest } from "../../src/endpoints/bias-test.js";
import { circularErrorProbable, type RadiusEstimator } from "../../src/endpoints/circular-error-probable.js";
import { compareScatters } from "../../src/endpoints/compare-scatters.js";
import { endpointScatter } from "../../src/endpoints/endpoint-scatter.js";
import { hitProbability } from "../../src/endpoints/hit-probability.js";
import { scatterDependence } from "../../src/endpoints/scatter-dependence.js";
import { widthForHitRate } from "../../src/endpoints/width-for-hit-rate.js";
import type { Estimate } from "../../src/math/estimate.js";
import type { Random } from "../../src/math/random.js";
import type { Trial } from "../intervals/measure.js";
import { BIAS, type Columns, drawRound, drawScatter, radiusOf, shareWithin, truthOf } from "../intervals/scatter.js";
import { drawShape, type ScatterShape } from "../intervals/shapes.js";
import { coverageFigures } from "./coverage-figures.js";
import type { Outcome } from "./figure.js";

const SEED = 20261127;
const RADIUS = 9;

/** Scatters or resamples drawn for an interval: fewer than the usual 999, for time; its ends are a little less steady. */
const DRAWS = 199;
const TARGET = { kind: "circle", diameter: 2 * RADIUS } as const;
const within = shareWithin(RADIUS);

export async function figures(quick: boolean): Promise<readonly Outcome[]> {
  // a drawn interval takes some milliseconds, the others thousandths of that
  return [
    ...plainTrials().flatMap((trial) => coverageFigures(trial, quick ? 300 : 2000, SEED)),
    ...drawnTrials().flatMap((trial) => coverageFigures(trial, quick ? 100 : 2000, SEED)),
  ];
}

/** Intervals in closed form. */
function plainTrials(): Trial[] {
  return [
    {
      truths: {
        "endpoints/endpointScatter, constant error along x": () => BIAS[0],
        "endpoints/endpointScatter, SD along x": () => 6,
        "endpoints/endpointScatter, bivariate SD": () => Math.hypot(6, 4),
        "endpoints/endpointScatter, mean radial error": truthOf(
          ({ x, y }) => x.reduce((sum, v, i) => sum + Math.hypot(v, y[i]!), 0) / x.length,
        ),
        "endpoints/endpointScatter, median radial error": truthOf(radiusOf(0.5)),
        "endpoints/endpointScatter, root mean square radial error": () => Math.hypot(6, 4, ...BIAS),
        "endpoints/endpointScatter, length of the bias": () => Math.hypot(...BIAS),
      },
      estimates: (shape, n, random) => {
        const found = endpointScatter(drawScatter(shape, n, random));
        if (!found.ok) return [];
        const { x, sd, radial } = found;
        return [x.constant, sd.x, sd.bivariate, radial.mean, radial.median, radial.total, radial.centroid];
      },
    },
    {
      truths: {
        "endpoints/circularErrorProbable, rayleigh, 50 % of round scatter": truthOf(radiusOf(0.5), drawRound),
        "endpoints/circularErrorProbable, rayleigh, 90 % of round scatter": truthOf(radiusOf(0.9), drawRound),
      },
      estimates: (shape, n, random) => {
        const scatter = drawRound(shape, n, random);
        return [0.5, 0.9].map((share) => circularErrorProbable(scatter, { estimator: "rayleigh", share }).radius);
      },
    },
    {
      truths: {
        "endpoints/circularErrorProbable, empirical, 50 %": truthOf(radiusOf(0.5)),
        "endpoints/circularErrorProbable, empirical, 90 %": truthOf(radiusOf(0.9)),
      },
      estimates: (shape, n, random) => {
        const scatter = drawScatter(shape, n, random);
        return [0.5, 0.9].map((share) => circularErrorProbable(scatter, { estimator: "empirical", share }).radius);
      },
    },
    {
      truths: { "endpoints/biasTest, offset along x": () => BIAS[0] },
      estimates: (shape, n, random) => {
        const found = biasTest(drawScatter(shape, n, random));
        return found.ok ? [found.x] : [];
      },
    },
    {
      truths: {
        "endpoints/compareScatters, ratio of spreads": () => 1,
        "endpoints/compareScatters, difference of mean radial errors": () => 0,
      },
      estimates: (shape, n, random) => {
        const found = compareScatters(drawScatter(shape, n, random), drawScatter(shape, n, random), { permutations: 99 });
        return found.ok ? [found.spread.ratio, found.accuracy.difference] : [];
      },
    },
    { truths: { "endpoints/scatterDependence, slope of the error along on amplitude": () => -0.05 }, estimates: dependence },
  ];
}

function dependence(shape: ScatterShape, n: number, random: Random): Estimate[] {
  const amplitude = Float64Array.from({ length: n }, () => random.uniform(150, 800));
  const direction = Float64Array.from({ length: n }, () => random.uniform(-Math.PI, Math.PI));
  const x = amplitude.map((a) => -0.05 * (a - 475) + 20 * drawShape(shape, random));
  const y = amplitude.map(() => 10 * drawShape(shape, random));
  const found = scatterDependence({ x, y }, { amplitude, direction });
  const slope = found.ok ? found.bias.along?.amplitude?.slope : undefined;
  return slope === undefined ? [] : [slope];
}

/** Intervals from drawn scatters or resamples. */
function drawnTrials(): Trial[] {
  const atCentre: (scatter: Columns) => number = ({ x, y }) => within({ x: x.map((v) => v - BIAS[0]), y: y.map((v) => v - BIAS[1]) });
  const radii = (estimator: RadiusEstimator, shares: readonly number[]): Trial => ({
    truths: Object.fromEntries(
      shares.map((share) => [`endpoints/circularErrorProbable, ${estimator}, ${100 * share} %`, truthOf(radiusOf(share))]),
    ),
    estimates: (shape, n, random) => {
      const scatter = drawScatter(shape, n, random);
      return shares.map((share) => circularErrorProbable(scatter, { estimator, share, draws: DRAWS }).radius);
    },
  });
  return [
    {
      truths: {
        "endpoints/hitProbability, of the model": truthOf(within),
        "endpoints/hitProbability, gain without bias": truthOf((scatter) => atCentre(scatter) - within(scatter)),
        "endpoints/hitProbability, gain with less spread": truthOf((scatter) => shareWithin(RADIUS, BIAS, 0.8)(scatter) - within(scatter)),
        "endpoints/hitProbability, observed": truthOf(within),
      },
      estimates: (shape, n, random) => {
        const { model, gain, observed } = hitProbability(drawScatter(shape, n, random), TARGET, { draws: DRAWS });
        return [model, gain.withoutBias, gain.withLessSpread, observed];
      },
    },
    radii("exact", [0.5, 0.9]),
    radii("grubbsPatnaik", [0.5]),
    radii("wilsonHilferty", [0.5]),
    radii("robust", [0.5, 0.9]),
    {
      truths: { "endpoints/widthForHitRate, 90 %": truthOf((scatter) => 2 * radiusOf(0.9)(scatter)) },
      estimates: (shape, n, random) => [widthForHitRate(drawScatter(shape, n, random), 0.9, { draws: DRAWS }).width],
    },
  ];
}
