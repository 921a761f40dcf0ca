// Source: shared reference table scatter/point-sets.json: seven constructed point sets, computed with NumPy and SciPy 1.10.1. Hotelling's tests of the
// same table are in hotelling.test.ts, Rayleigh fits with the circular error probable.
import { describe, expect, it } from "vitest";
import { endpointScatter } from "../../src/endpoints/endpoint-scatter.js";
import { nearestNeighbours } from "../../src/endpoints/extent/nearest-neighbours.js";
import { scatterExtent } from "../../src/endpoints/scatter-extent.js";
import { scatterOutliers } from "../../src/endpoints/scatter-outliers.js";
import type { Endpoints } from "../../src/endpoints/types.js";
import type { Estimate } from "../../src/math/estimate.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const cases = (readReference("scatter/point-sets.json")?.cases ?? []).filter((c) => c.input.points !== undefined);
const withDistances = cases.filter((c) => c.expected.mahalanobisSq !== undefined);
const withHull = cases.filter((c) => c.expected.hull !== undefined);

const endpointsIn = (c: ReferenceCase): Endpoints => ({
  x: Float64Array.from(c.input.points, (point: [number, number]) => point[0]),
  y: Float64Array.from(c.input.points, (point: [number, number]) => point[1]),
});

/** Compares numbers, and lists of them entry by entry; what is null must be null. */
function expectSame(c: ReferenceCase, what: string, got: unknown, expected: unknown): void {
  if (Array.isArray(expected)) {
    expect(Array.isArray(got) && got.length, `${c.name}: ${what}`).toBe(expected.length);
    for (const [i, entry] of expected.entries()) expectSame(c, `${what}[${i}]`, (got as unknown[])[i], entry);
  } else if (expected === null) expect(got, `${c.name}: ${what}`).toBeNull();
  else expect(within(got as number, expected as number, c.tolerance), `${c.name}: ${what} ${got} for ${expected}`).toBe(true);
}

const valueIn = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);

describe.skipIf(cases.length === 0)(`bias and spread against the table (skipped: ${SHARED_ABSENT})`, () => {
  it("holds seven sets", () => expect([cases.length, withDistances.length, withHull.length]).toEqual([7, 6, 6]));

  it.each(cases)("moments and ellipse: $name", (c) => {
    const scatter = endpointScatter(endpointsIn(c), { level: 0.95 });
    if (!scatter.ok) throw new Error(scatter.why);
    const { ellipse, covariance, n } = scatter;
    const { expected } = c;
    const angle = ellipse.angle === null ? null : (ellipse.angle * Math.PI) / 180;
    for (const [what, got] of [
      ["mean", scatter.mean],
      ["covariance", covariance],
      ["eigenvalues", ellipse.variances],
      ["axisSd", ellipse.axisSd],
      ["angleDeg", ellipse.angle],
      ["angleRad", angle],
      ["ellipseArea1Sigma", ellipse.area1Sd],
      ["ellipseArea95", ellipse.area],
      ["semiAxes95", ellipse.semiAxes],
      ["eccentricity", ellipse.eccentricity],
      ["aspectRatio", ellipse.aspect],
      ["correlation", scatter.correlation],
      ["generalisedVariance", scatter.generalisedVariance],
      ["totalVariance", scatter.totalVariance],
    ] as const) {
      expectSame(c, what, got, expected[what]);
    }
    const { maximumLikelihoodCovariance } = expected;
    if (maximumLikelihoodCovariance === undefined) return;
    const population = covariance.map((row) => row.map((entry) => (entry * (n - 1)) / n));
    expectSame(c, "maximumLikelihoodCovariance", population, maximumLikelihoodCovariance);
    // variable error squared is the variance with 1/n
    const { x, y } = scatter;
    expectSame(c, "variable error x", valueIn(x.variable) ** 2, maximumLikelihoodCovariance[0][0]);
    expectSame(c, "variable error y", valueIn(y.variable) ** 2, maximumLikelihoodCovariance[1][1]);
  });

  it.each(cases)("distances and robust figures: $name", (c) => {
    const scatter = endpointScatter(endpointsIn(c));
    if (!scatter.ok) throw new Error(scatter.why);
    const { radial, robust, sd, n } = scatter;
    for (const [what, got] of [
      ["bivariateSd", valueIn(sd.bivariate)],
      ["drmsAboutMean", valueIn(radial.bivariateVariable)],
      ["rmsAboutOrigin", valueIn(radial.total)],
      ["meanRadiusAboutMean", radial.aboutMean.mean],
      ["medianRadiusAboutMean", radial.aboutMean.median],
      ["meanRadiusAboutOrigin", valueIn(radial.mean)],
      ["medianRadiusAboutOrigin", valueIn(radial.median)],
      ["bias", valueIn(radial.centroid)],
      ["marginalMedian", robust.marginalMedian],
      ["geometricMedian", robust.geometricMedian],
      ["geometricMedianSum", robust.meanDistance * n],
      ["madXY", robust.mad],
    ] as const) {
      expectSame(c, what, got, c.expected[what]);
    }
  });

  it.each(withDistances)("Mahalanobis distances: $name", (c) => {
    const { mahalanobisSq, outliersChi975, outliersBeta975, betaCutoff975 } = c.expected;
    const known = scatterOutliers(endpointsIn(c), { method: "classical", cutoff: "chiSquare" });
    const exact = scatterOutliers(endpointsIn(c), { method: "classical" });
    if (!known.ok || !exact.ok) throw new Error("not given");
    expectSame(c, "distances", known.distances, mahalanobisSq);
    expect(known.outliers).toEqual(outliersChi975);
    if (betaCutoff975 === undefined) return;
    expectSame(c, "beta cutoff", exact.cutoff, betaCutoff975);
    expect(exact.outliers).toEqual(outliersBeta975);
  });

  it.each(cases)("extreme spread: $name", (c) => {
    const extent = scatterExtent(endpointsIn(c));
    expectSame(c, "extremeSpread", extent.ok && extent.extremeSpread.value, c.expected.extremeSpread);
  });

  it.each(withHull)("hull and neighbours: $name", (c) => {
    const endpoints = endpointsIn(c);
    const extent = scatterExtent(endpoints);
    if (!extent.ok) throw new Error(extent.why);
    const { hull, nearestNeighbour } = c.expected;
    expectSame(c, "area", extent.hull.area, hull.area);
    expectSame(c, "perimeter", extent.hull.perimeter, hull.perimeter);
    // the same round, from another corner on
    const begin = hull.vertexIndexCounterclockwise.indexOf(extent.hull.vertices[0]);
    const round = hull.vertexIndexCounterclockwise;
    expect(extent.hull.vertices).toEqual([...round.slice(begin), ...round.slice(0, begin)]);
    expectSame(c, "neighbours", Array.from(nearestNeighbours(endpoints.x, endpoints.y)), nearestNeighbour.distances);
    expectSame(c, "mean", extent.nearestNeighbour.mean, nearestNeighbour.mean);
    expectSame(c, "expected", extent.nearestNeighbour.expected, nearestNeighbour.expectedForHullArea);
    expectSame(c, "clarkEvans", extent.nearestNeighbour.clarkEvans, nearestNeighbour.clarkEvans);
  });
});
