import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { minimumDeterminant } from "../../src/endpoints/outliers/minimum-determinant.js";
import { robustCutoff } from "../../src/endpoints/outliers/robust-scatter.js";
import { type ScatterOutliers, type ScatterOutliersOptions, scatterOutliers } from "../../src/endpoints/scatter-outliers.js";
import type { Endpoints } from "../../src/endpoints/types.js";
import { createRandom } from "../../src/math/random.js";
import { DRAWS, drawEndpoints, endpointsArb, endpointsOf, mapped, notFinite } from "./scatter-draws.js";

type Given = Extract<ScatterOutliers, { ok: true }>;

function given(endpoints: Endpoints, options: ScatterOutliersOptions = {}): Given {
  const result = scatterOutliers(endpoints, options);
  if (!result.ok) throw new Error(`not given: ${result.why}`);
  return result;
}

/** 19 endpoints of one scatter and six of another, constructed. */
const TWO_GROUPS: Endpoints = {
  x: Float64Array.of(
    ...[8.52, -13.67, 10.01, 4.66, 2.35, 10.31, 11.87, 15.85, 9.55, 13.09, 13.76, 10.41, -5.53, 4.59, 14.31, 10.07, 2.3, -1.34, -2.51],
    ...[45.23, 43.02, 34.75, 40.0, 35.38, 42.34],
  ),
  y: Float64Array.of(
    ...[8.03, -7.76, 7.35, 0.99, -3.23, 1.85, 2.92, 11.01, -3.83, 3.69, 5.05, 5.42, -5.32, 1.22, 4.54, -2.74, 2.86, -4.14, -2.26],
    ...[-33.08, -29.19, -33.05, -25.61, -28.32, -28.19],
  ),
};

describe("scatterOutliers against outside values", () => {
  // Source: scikit-learn 1.9.1 covariance.fast_mcd (support_fraction 14/25, the best of five seeds), computed; covariance with 1/h, uncorrected.
  it("finds the inner half that scikit-learn finds", () => {
    const { search, outliers } = given(TWO_GROUPS);
    expect(search!.h).toBe(14);
    expect(search!.support).toEqual([2, 3, 4, 5, 6, 9, 10, 11, 12, 13, 14, 16, 17, 18]);
    const { consistency, smallSample } = search!.factors.raw;
    const factor = consistency * smallSample;
    expect(search!.raw.location).toEqual([expect.closeTo(6.305714285714285, 10), expect.closeTo(1.4957142857142856, 10)]);
    expect(search!.raw.covariance[0]).toEqual([
      expect.closeTo(39.77338163265306 * factor, 9),
      expect.closeTo(20.3061387755102 * factor, 9),
    ]);
    expect(search!.raw.covariance[1][1]).toBeCloseTo(13.956310204081632 * factor, 9);
    expect(outliers).toEqual([19, 20, 21, 22, 23, 24]);
  });
  // Source: chi-squared quantiles, SciPy 1.17.1: 14/25 / chi2.cdf(chi2.ppf(14/25, 2), 4), and 0.975 / chi2.cdf(chi2.ppf(0.975, 2), 4), computed.
  it("corrects the covariances of inner parts so that many normal endpoints have their own", () => {
    const { factors } = given(TWO_GROUPS).search!;
    expect(factors.raw.consistency).toBeCloseTo(2.8173470100126674, 11);
    expect(factors.estimate.consistency).toBeCloseTo(1.1044679239029054, 11);
  });
  // Source: all subsets of h points tried (definition of the minimum covariance determinant).
  it.each([6, 8, 9, 11, 12])("finds the smallest determinant of all halves of %i points", (n) => {
    const random = createRandom(n);
    for (let run = 0; run < 12; run++) {
      const { x, y } = drawEndpoints(random, n, (source) => (run % 2 ? Math.round(2 * source.normal()) : source.normal()));
      const h = Math.floor((n + 3) / 2);
      const least = leastDeterminant(x, y, h);
      const found = minimumDeterminant(x, y, h, 1);
      if (found === undefined) expect(least).toBeLessThan(1e-12);
      else expect(found.raw.det / least).toBeCloseTo(1, 9);
    }
  });
  // Source: stars of the cluster CYG OB1, log temperature and log light intensity (Rousseeuw and Leroy 1987; data and outlying stars recalled): four
  // giants, 11, 20, 30 and 34, and two more stars, 7 and 14, that they hide from classical distances; 9 lies at the chi-squared cutoff.
  it("finds the giants among the stars, and what they hide", () => {
    const one = (indices: readonly number[]) => indices.map((i) => i + 1);
    expect(one(given(STARS).outliers)).toEqual([7, 11, 14, 20, 30, 34]);
    expect(one(given(STARS, { cutoff: "chiSquare" }).outliers)).toEqual([7, 9, 11, 14, 20, 30, 34]);
    expect(one(given(STARS, { method: "classical" }).outliers)).toEqual([11, 20, 30, 34]);
    expect(given(STARS).location).toEqual([expect.closeTo(4.41, 2), expect.closeTo(4.95, 2)]);
  });
  // Source: shared reference table scatter/point-sets.json, "negative tilt with outlier 15" (NumPy, SciPy 1.10.1 beta.ppf, computed); 1e-8 stored.
  it("takes classical distances with the exact cutoff", () => {
    const set = endpointsOf([
      [-0.51, -0.9],
      [10.95, -6.12],
      [-7.9, 6.98],
      [-1.67, -2.18],
      [3.26, -5.94],
      [-1.95, -2.27],
      [-2.41, -0.9],
      [-3.16, 7.94],
      [-3.85, -0.71],
      [8.84, -4.66],
      [2.78, -2.43],
      [3.72, 1.14],
      [-6.97, 5.36],
      [-0.43, -2.23],
      [28, 25],
    ]);
    const { cutoff, distances, outliers } = given(set, { method: "classical" });
    expect(cutoff).toBeCloseTo(6.000972852148033, 10);
    expect(distances[14]).toBeCloseTo(12.342219915661605, 9);
    expect(distances[1]).toBeCloseTo(3.407079854261003, 9);
    expect(outliers).toEqual([14]);
    expect(given(set).outliers).toContain(14);
  });
  // Source: closed form. Normal endpoints are reported with the probability 1 - level: exactly for classical distances, for robust ones by a fit
  // that holds to a tenth or two of that share; the chi-squared cutoff reports several times as many. SE of a share of dependent distances: about 0.2 %.
  it.each([
    [20, 400, 0.06],
    [50, 200, 0.035],
    [200, 50, 0.022],
  ])("reports 2.5 %% of %i normal endpoints", (n, runs, byChiSquare) => {
    const random = createRandom(3);
    const shares = { robust: 0, classical: 0, chiSquare: 0 };
    for (let run = 0; run < runs; run++) {
      const set = mapped(drawEndpoints(random, n, DRAWS.normal), [3, 1, 0, 1], [5, 5]);
      shares.robust += given(set, { seed: run }).outliers.length / (n * runs);
      shares.classical += given(set, { method: "classical" }).outliers.length / (n * runs);
      shares.chiSquare += given(set, { seed: run, cutoff: "chiSquare" }).outliers.length / (n * runs);
    }
    expect(shares.classical).toBeCloseTo(0.025, 2.5);
    expect(shares.robust).toBeGreaterThan(0.017);
    expect(shares.robust).toBeLessThan(0.033);
    expect(shares.chiSquare).toBeGreaterThan(byChiSquare);
  });
});

describe("scatterOutliers properties", () => {
  test.prop([endpointsArb(10, 30), fc.constantFrom("robust" as const, "classical" as const)])(
    "does not change when the frame is moved, stretched or sheared",
    (set, method) => {
      const one = scatterOutliers(set, { method });
      // whole steps of eighths in both frames, so that the same points tie
      const other = scatterOutliers(mapped(set, [2, 1, 0, 4], [40, -8]), { method });
      expect(other.ok).toBe(one.ok);
      if (!one.ok || !other.ok) return;
      // a search from the same starts ends in the same half, unless two halves have equal determinants
      if (method === "robust" && other.search!.support.join() !== one.search!.support.join()) return;
      for (const [i, distance] of one.distances.entries()) {
        expect(Math.abs(other.distances[i]! - distance)).toBeLessThanOrEqual(1e-6 * (1 + distance));
      }
    },
  );
  test.prop([endpointsArb(0, 30), fc.constantFrom("robust" as const, "classical" as const), fc.integer({ min: -9, max: 9 })])(
    "leaves its input alone, gives plain data, and reports what lies beyond the cutoff",
    (set, method, seed) => {
      const copy = structuredClone(set);
      const result = scatterOutliers(set, { method, seed });
      expect(set).toEqual(copy);
      expect(JSON.parse(JSON.stringify(result))).toEqual(result);
      expect(structuredClone(result)).toEqual(result);
      expect(scatterOutliers(set, { method, seed })).toEqual(result);
      if (!result.ok) return;
      expect(result.distances.length).toBe(set.x.length);
      const { cutoff } = result;
      expect(result.outliers).toEqual(cutoff === null ? [] : result.distances.flatMap((d, i) => (d > cutoff ? [i] : [])));
      expect(result.search?.seed).toBe(method === "robust" ? seed : undefined);
      // within the classical ones, distances average 2 (n - 1)/n: the trace of an identity
      const n = set.x.length;
      if (method === "classical") expect(result.distances.reduce((sum, d) => sum + d, 0)).toBeCloseTo(2 * (n - 1), 6);
    },
  );
  it("reports outliers that hide each other, where classical distances see none", () => {
    const set = drawEndpoints(createRandom(8), 30, DRAWS.normal);
    const [x, y] = [set.x.map((v, i) => (i < 9 ? 12 + v / 4 : v)), set.y.map((v, i) => (i < 9 ? 9 + v / 4 : v))];
    expect(given({ x, y }).outliers.slice(0, 9)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    expect(given({ x, y }).warnings).toEqual(["manyOutliers"]);
    expect(given({ x, y }, { method: "classical" }).outliers).not.toContain(0);
  });
  it("finds a group of outliers in many endpoints, by way of parts", () => {
    const set = drawEndpoints(createRandom(9), 8000, DRAWS.normal, [4, 2]);
    const far = set.x.map((v, i) => (i % 5 === 0 ? 60 + v : v));
    const found = given({ x: far, y: set.y });
    expect(found.outliers.filter((i) => i % 5 === 0).length).toBe(1600);
    expect(found.outliers.length).toBeLessThan(1600 + 300);
    // the inner half of all is five eighths of the good ones: corrected as if half, it is too wide, and reweighting then cuts off too little
    for (const ratio of [found.covariance[0][0] / 16, found.covariance[1][1] / 4]) {
      expect(ratio).toBeGreaterThan(0.95);
      expect(ratio).toBeLessThan(1.104 * 1.05);
    }
  });
  it.each([1e6, 1e12, 1e200])("does not let endpoints %d away cost the others their digits", (far) => {
    for (const n of [14, 40, 700]) {
      const set = drawEndpoints(createRandom(10), n, DRAWS.normal);
      const place = (column: Float64Array, at: number) => column.map((v, i) => (i === 3 || i === 5 ? at : v));
      for (const y of [set.y, place(set.y, far), place(set.y, -far)]) {
        const found = given({ x: place(set.x, far), y });
        expect(found.outliers).toEqual(expect.arrayContaining([3, 5]));
        expect(found.outliers.length).toBeLessThan(2 + 0.1 * n);
        expect(found.covariance[0][0]).toBeLessThan(4);
        expect(notFinite(found)).toEqual([]);
      }
    }
  });
  it("is not ok when half of the endpoints lie on a line, or all of them at one place", () => {
    const random = createRandom(11);
    const set = drawEndpoints(random, 20, DRAWS.normal);
    const onLine = { x: set.x, y: set.y.map((v, i) => (i < 12 ? 2 * set.x[i]! + 1 : v)) };
    expect(scatterOutliers(onLine)).toEqual({ ok: false, why: "noSpread", unit: "px", n: 20 });
    expect(scatterOutliers(onLine, { method: "classical" }).ok).toBe(true);
    const place = { x: set.x.map((v, i) => (i < 13 ? 3 : v)), y: set.y.map((v, i) => (i < 13 ? 3 : v)) };
    expect(scatterOutliers(place)).toMatchObject({ ok: false, why: "noSpread" });
    expect(scatterOutliers({ x: set.x, y: set.x }, { method: "classical" })).toMatchObject({ ok: false, why: "noSpread" });
    const many = drawEndpoints(random, 2000, DRAWS.normal);
    expect(scatterOutliers({ x: many.x, y: many.y.map((v, i) => (i % 3 === 0 ? v : many.x[i]!)) })).toMatchObject({
      ok: false,
      why: "noSpread",
    });
  });
  it("needs ten endpoints, or three for classical distances, which three cannot exceed", () => {
    const set = drawEndpoints(createRandom(2), 9, DRAWS.normal);
    expect(scatterOutliers(set, { unit: "mm" })).toEqual({ ok: false, why: "tooFew", unit: "mm", n: 9 });
    expect(given({ x: set.x.slice(0, 3), y: set.y.slice(0, 3) }, { method: "classical" })).toMatchObject({
      cutoff: null,
      outliers: [],
      warnings: ["few"],
    });
    expect(scatterOutliers({ x: set.x.slice(0, 2), y: set.y.slice(0, 2) }, { method: "classical" })).toMatchObject({
      ok: false,
      why: "tooFew",
    });
  });
  test.prop([fc.integer({ min: 10, max: 5000 }), fc.double({ min: 0.9, max: 0.999, noNaN: true })])(
    "cuts farther out than for a known scatter, and ever closer to it",
    (n, level) => {
      const known = -2 * Math.log1p(-level);
      expect(robustCutoff(n, level)).toBeGreaterThan(known);
      expect(robustCutoff(n + 2, level)).toBeLessThan(robustCutoff(n, level));
      expect(robustCutoff(1e7, level) / known).toBeCloseTo(1, 6);
    },
  );
  it.each([1e-300, 1e-160, 1e150, 1e300])("gives finite numbers for endpoints of %d", (size) => {
    const set = drawEndpoints(createRandom(4), 30, DRAWS.normal, [size, size]);
    for (const method of ["robust", "classical"] as const) {
      for (const level of [1e-12, 1 - 1e-16]) expect(notFinite(given(set, { method, level }))).toEqual([]);
    }
  });
});

describe("scatterOutliers bad input", () => {
  const set = drawEndpoints(createRandom(2), 12, DRAWS.normal);
  it("names the column and the entry", () => {
    expect(() => scatterOutliers({ x: Float64Array.of(Number.POSITIVE_INFINITY), y: Float64Array.of(0) })).toThrow(
      "scatterOutliers: endpoints.x[0] must be finite, got Infinity",
    );
  });
  it("refuses options that it does not know", () => {
    expect(() => scatterOutliers(set, { method: "other" as never })).toThrow(
      'scatterOutliers: options.method must be one of "robust", "classical", got "other"',
    );
    expect(() => scatterOutliers(set, { cutoff: "two" as never })).toThrow(
      /options\.cutoff must be one of "sample", "chiSquare", got "two"/,
    );
    expect(() => scatterOutliers(set, { level: 0 })).toThrow(/options\.level must be above 0 and below 1, got 0/);
    expect(() => scatterOutliers(set, { seed: 0.5 })).toThrow(/options\.seed must be a whole number .*got 0\.5/);
  });
});

/** Smallest determinant of the covariance (1/h) of any `h` points. */
function leastDeterminant(x: Float64Array, y: Float64Array, h: number): number {
  let least = Number.POSITIVE_INFINITY;
  const chosen: number[] = [];
  const visit = (from: number): void => {
    if (chosen.length === h) {
      const mean = (column: Float64Array): number => chosen.reduce((sum, i) => sum + column[i]!, 0) / h;
      const [mx, my] = [mean(x), mean(y)];
      const product = (a: Float64Array, am: number, b: Float64Array, bm: number): number =>
        chosen.reduce((sum, i) => sum + (a[i]! - am) * (b[i]! - bm), 0) / h;
      least = Math.min(least, product(x, mx, x, mx) * product(y, my, y, my) - product(x, mx, y, my) ** 2);
      return;
    }
    for (let i = from; i < x.length; i++) {
      chosen.push(i);
      visit(i + 1);
      chosen.pop();
    }
  };
  visit(0);
  return least;
}

const STARS: Endpoints = {
  x: Float64Array.of(
    ...[4.37, 4.56, 4.26, 4.56, 4.3, 4.46, 3.84, 4.57, 4.26, 4.37, 3.49, 4.43, 4.48, 4.01, 4.29, 4.42, 4.23, 4.42, 4.23, 3.49, 4.29, 4.29],
    ...[4.42, 4.49, 4.38, 4.42, 4.29, 4.38, 4.22, 3.48, 4.38, 4.56, 4.45, 3.49, 4.23, 4.62, 4.53, 4.45, 4.53, 4.43, 4.38, 4.45, 4.5, 4.45],
    ...[4.55, 4.45, 4.42],
  ),
  y: Float64Array.of(
    ...[5.23, 5.74, 4.93, 5.74, 5.19, 5.46, 4.65, 5.27, 5.57, 5.12, 5.73, 5.45, 5.42, 4.05, 4.26, 4.58, 3.94, 4.18, 4.18, 5.89, 4.38, 4.22],
    ...[4.42, 4.85, 5.02, 4.66, 4.66, 4.9, 4.39, 6.05, 4.42, 5.1, 5.22, 6.29, 4.34, 5.62, 5.1, 5.22, 5.18, 5.57, 4.62, 5.06, 5.34, 5.34],
    ...[5.54, 4.98, 4.5],
  ),
};
