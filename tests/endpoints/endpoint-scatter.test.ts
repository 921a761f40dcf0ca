import { fc, test } from "@fast-check/vitest";
import { medianAbsoluteDeviation, sampleCorrelation, sampleCovariance } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { type EndpointScatter, endpointScatter } from "../../src/endpoints/endpoint-scatter.js";
import { moments } from "../../src/endpoints/inference/moments.js";
import { geometricMedian } from "../../src/endpoints/scatter/geometric-median.js";
import { meanLengthEstimate } from "../../src/endpoints/scatter/mean-length-estimate.js";
import type { Endpoints } from "../../src/endpoints/types.js";
import type { Estimate } from "../../src/math/estimate.js";
import { createRandom } from "../../src/math/random.js";
import { band } from "../math/estimate-properties.js";
import { DRAWS, drawEndpoints, endpointsArb, endpointsOf, mapped, notFinite, turn } from "./scatter-draws.js";

type Given = Extract<EndpointScatter, { ok: true }>;

function given(endpoints: Endpoints, options = {}): Given {
  const result = endpointScatter(endpoints, options);
  if (!result.ok) throw new Error(`not given: ${result.why}`);
  return result;
}

const value = (estimate: Estimate): number => (estimate.ok ? estimate.value : estimate.why === "noSpread" ? 0 : Number.NaN);

const EIGHT: Endpoints = { x: Float64Array.of(3, 5, -1, 6, 2, 4, 7, 1), y: Float64Array.of(1, -2, 0, 2, -1, 3, -3, 1) };

describe("endpointScatter against outside values", () => {
  const eight = given(EIGHT, { unit: "mm" });

  // Source: NumPy 2.4.6 (mean, std, cov, eigh) and SciPy 1.17.1 (t.interval), computed for eight endpoints; 1e-12 for arithmetic.
  it("takes the errors per axis with 1/n, and the standard deviations with n - 1", () => {
    expect(eight.mean).toEqual([3.375, 0.125]);
    expect(eight.x.constant).toMatchObject({ value: 3.375, unit: "mm", n: 8, level: 0.95 });
    expect(eight.x.constant).toMatchObject({ interval: [expect.closeTo(1.1434347998560597, 11), expect.closeTo(5.60656520014394, 11)] });
    expect(value(eight.x.variable)).toBeCloseTo(2.496873044429772, 12);
    expect(value(eight.y.variable)).toBeCloseTo(1.899835519196333, 12);
    expect([value(eight.x.absolute), value(eight.y.absolute)]).toEqual([3.625, 1.625]);
    expect(value(eight.x.total)).toBeCloseTo(4.198213905936666, 12);
    expect(value(eight.sd.x)).toBeCloseTo(2.669269563007828, 12);
    expect(value(eight.sd.y)).toBeCloseTo(2.03100960115899, 12);
  });
  // Source: the same, computed.
  it("takes the distances in the plane", () => {
    expect(value(eight.radial.mean)).toBeCloseTo(4.017256554172055, 12);
    expect(value(eight.radial.median)).toBeCloseTo(4.08113883008419, 12);
    expect(value(eight.radial.total)).toBeCloseTo(4.6097722286464435, 12);
    expect(value(eight.radial.bivariateVariable)).toBeCloseTo(3.137475099502783, 12);
    expect(value(eight.radial.centroid)).toBeCloseTo(Math.hypot(3.375, 0.125), 12);
  });
  // Source: the same, computed; semi-axes by SciPy stats.chi2.ppf(0.95, 2), areas pi times the product of semi-axes.
  it("gives covariance and ellipse", () => {
    expect(eight.covariance[0][0]).toBeCloseTo(7.125, 12);
    expect(eight.covariance[0][1]).toBeCloseTo(-1.1964285714285714, 12);
    expect(eight.covariance[1]).toEqual([eight.covariance[0][1], expect.closeTo(4.125, 12)]);
    expect(eight.correlation).toBeCloseTo(-0.2206898527572714, 12);
    expect(eight.generalisedVariance).toBeCloseTo(27.95918367346939, 10);
    expect(eight.ellipse.variances).toEqual([expect.closeTo(7.543708244244187, 12), expect.closeTo(3.706291755755813, 12)]);
    expect(eight.ellipse.angle).toBeCloseTo(160.71173521827828 - 180, 10);
    expect(eight.ellipse.semiAxes[0]).toBeCloseTo(2.447746830680816 * Math.sqrt(7.543708244244187), 11);
    expect(eight.ellipse.area1Sd).toBeCloseTo(Math.PI * Math.sqrt(27.95918367346939), 10);
    expect(eight.ellipse.area / eight.ellipse.area1Sd).toBeCloseTo(2.447746830680816 ** 2, 11);
  });
  // Source: shared reference table scatter/constants.json, "ellipse scale factors" (SciPy 1.10.1 stats.f.ppf, computed); 1e-11 stored.
  it.each([
    [5, 2.257088921116006, 5.5287161608232065],
    [10, 1.0016328040719389, 3.3220401888181854],
    [20, 0.6125383696261808, 2.807003444876813],
    [50, 0.3609543362861112, 2.5777295585594504],
  ])("scales the ellipse for the mean of %i endpoints and for the next one", (n, mean, next) => {
    const { factors } = given(drawEndpoints(createRandom(1), n, DRAWS.normal)).ellipse;
    expect(factors.known).toBeCloseTo(2.447746830680816, 13);
    expect(Math.abs(factors.mean! / mean - 1)).toBeLessThan(1e-11);
    expect(Math.abs(factors.next! / next - 1)).toBeLessThan(1e-11);
  });
  // Source: SciPy 1.17.1 stats.median_abs_deviation(scale="normal"), and optimize.minimize (Nelder-Mead, 1e-12) for the geometric median, computed.
  it("gives robust figures", () => {
    const { robust } = eight;
    expect(robust.marginalMedian).toEqual([3.5, 0.5]);
    expect(robust.mad).toEqual([expect.closeTo(2.965204437011204, 12), expect.closeTo(2.223903327758403, 12)]);
    expect(robust.geometricMedian).toEqual([expect.closeTo(3.039190978186646, 7), expect.closeTo(0.6619729842761509, 7)]);
    expect(robust.meanDistance).toBeCloseTo(2.8672266414279575, 12);
  });
  // Source: closed form of round normal scatter with SD s (Rayleigh): mean radius 1.2533 s, median 1.1774 s, bivariate 1.4142 s; SD of a mean radius 0.66 s/sqrt(n).
  it("meets the constants of round normal scatter", () => {
    const { radial, robust, ellipse } = given(drawEndpoints(createRandom(5), 40_000, DRAWS.normal));
    expect(value(radial.mean)).toBeCloseTo(1.2533, 1.7);
    expect(value(radial.median)).toBeCloseTo(1.1774, 1.6);
    expect(value(radial.bivariateVariable)).toBeCloseTo(Math.SQRT2, 1.7);
    expect(robust.mad[0]).toBeCloseTo(1, 1.6);
    expect(ellipse.aspect).toBeGreaterThan(0.98);
  });
  // Source: simple-statistics 7.12.1 sampleCovariance, sampleCorrelation, medianAbsoluteDeviation.
  test.prop([endpointsArb(3)])("agrees with a general library", (set) => {
    const { covariance, correlation, robust } = given(set);
    const [x, y] = [Array.from(set.x), Array.from(set.y)];
    expect(covariance[0][1]).toBeCloseTo(sampleCovariance(x, y), 8);
    if (correlation !== null) expect(correlation).toBeCloseTo(sampleCorrelation(x, y), 8);
    expect(robust.mad[0]).toBeCloseTo(1.482602218505602 * medianAbsoluteDeviation(x), 10);
  });
  // Source: the definition. No point of a fine search round the geometric median has a smaller sum of distances.
  test.prop([endpointsArb(3, 12), fc.constantFrom(1, 8, 64)])("finds the point with the smallest sum of distances", (drawn, coarse) => {
    const set = { x: drawn.x.map((v) => Math.round(v / coarse)), y: drawn.y.map((v) => Math.round(v / coarse)) };
    const { geometricMedian: point, meanDistance } = given(set).robust;
    if (point === null) return;
    const sum = (px: number, py: number): number => set.x.reduce((total, x, i) => total + Math.hypot(x - px, set.y[i]! - py), 0);
    const least = sum(point[0], point[1]);
    expect(meanDistance * set.x.length).toBeCloseTo(least, 8);
    for (const step of [10, 1, 0.1, 1e-2, 1e-3, 1e-4]) {
      for (let k = 0; k < 16; k++) {
        const angle = (k * Math.PI) / 8;
        expect(sum(point[0] + step * Math.cos(angle), point[1] + step * Math.sin(angle))).toBeGreaterThanOrEqual(least * (1 - 1e-13));
      }
    }
  });
  // Source: geometry. The diagonals of a convex quadrilateral cross at its geometric median; a corner within the triangle of the others is theirs.
  it("knows the geometric median of four points", () => {
    const median = (points: [number, number][]) => given(endpointsOf(points)).robust.geometricMedian;
    const [px, py] = median([
      [0, 0],
      [10, 0],
      [8, 6],
      [1, 5],
    ])!;
    // (0, 0)-(8, 6) and (10, 0)-(1, 5) cross at 40/47 of (8, 6)... from 6u = 5(10 - 8u)/9
    expect(px).toBeCloseTo((8 * 50) / 94, 9);
    expect(py).toBeCloseTo((6 * 50) / 94, 9);
    expect(
      median([
        [0, 0],
        [12, 0],
        [0, 12],
        [3, 4],
      ]),
    ).toEqual([3, 4]);
  });
  // Source: closed form. Coverage of 95 % for normal scatter, by the binomial 99 % band of 400 runs; the centroid's interval is wider without bias (97.5 %).
  it("holds the true bias and spread of normal endpoints as often as it says", () => {
    const random = createRandom(12);
    let [biased, centred, spread] = [0, 0, 0];
    const holds = (estimate: Estimate, truth: number): number =>
      estimate.ok && estimate.interval![0] <= truth && truth <= estimate.interval![1] ? 1 : 0;
    for (let run = 0; run < 400; run++) {
      const set = drawEndpoints(random, 50, DRAWS.normal, [1, 1], [1.2, 0.5]);
      biased += holds(meanLengthEstimate(moments(set), "px", 0.95), 1.3);
      centred += holds(meanLengthEstimate(moments(drawEndpoints(random, 50, DRAWS.normal, [3, 1])), "px", 0.95), 0);
      spread += holds(given(set).sd.bivariate, Math.SQRT2);
    }
    expect(Math.abs(biased / 400 - 0.95)).toBeLessThan(band(0.95, 400));
    expect(Math.abs(centred / 400 - 0.975)).toBeLessThan(band(0.975, 400));
    expect(Math.abs(spread / 400 - 0.95)).toBeLessThan(band(0.95, 400));
  });
});

describe("endpointScatter properties", () => {
  const whole = fc.integer({ min: -300, max: 300 });
  const close = (a: number, b: number, scale = 1) => expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-8 * (Math.abs(b) + scale));

  test.prop([endpointsArb(2)])("adds the squares of bias and spread up to the mean square, per axis and in the plane", (set) => {
    const { x, y, radial } = given(set);
    for (const axis of [x, y]) close(value(axis.total) ** 2, value(axis.constant) ** 2 + value(axis.variable) ** 2);
    close(value(radial.total) ** 2, value(radial.centroid) ** 2 + value(radial.bivariateVariable) ** 2);
    expect(Math.abs(value(x.constant))).toBeLessThanOrEqual(value(x.absolute) + 1e-9);
    expect(value(x.absolute)).toBeLessThanOrEqual(value(x.total) + 1e-9);
    expect(value(radial.centroid)).toBeLessThanOrEqual(value(radial.mean) + 1e-9);
    expect(value(radial.mean)).toBeLessThanOrEqual(value(radial.total) + 1e-9);
  });
  test.prop([endpointsArb(2), fc.constantFrom(0, 1e3, 2 ** 30), whole])(
    "keeps its spread, to the digits of the coordinates, when the frame is moved",
    (set, far, dy) => {
      const one = given(set);
      const other = given(mapped(set, [1, 0, 0, 1], [far, dy]));
      // eighths stay exact up to 2^50, so that nothing is lost but by the arithmetic
      close(value(other.sd.bivariate), value(one.sd.bivariate));
      close(other.covariance[0][1], one.covariance[0][1]);
      close(other.ellipse.axisSd[1], one.ellipse.axisSd[1]);
      close(other.mean[0] - far, one.mean[0], 100);
      expect(other.robust.mad).toEqual(one.robust.mad);
      expect(other.robust.geometricMedian === null).toBe(one.robust.geometricMedian === null);
      if (one.robust.geometricMedian) close(other.robust.geometricMedian![0] - far, one.robust.geometricMedian[0], 100);
    },
  );
  test.prop([endpointsArb(2), fc.integer({ min: -360, max: 360 })])(
    "keeps its figures in the plane when the frame is turned",
    (set, degrees) => {
      const one = given(set);
      const other = given(mapped(set, turn(degrees)));
      for (const key of ["mean", "median", "total", "centroid", "bivariateVariable"] as const)
        close(value(other.radial[key]), value(one.radial[key]));
      close(other.ellipse.axisSd[0], one.ellipse.axisSd[0]);
      close(other.ellipse.axisSd[1], one.ellipse.axisSd[1], 10);
      close(other.robust.meanDistance, one.robust.meanDistance);
      const { angle, aspect } = one.ellipse;
      if (angle !== null && aspect! < 0.99) close(Math.sin(((other.ellipse.angle! - angle - degrees) * Math.PI) / 180), 0);
    },
  );
  test.prop([endpointsArb(2), fc.integer({ min: -300, max: 300 })])("scales with the unit", (set, power) => {
    const factor = 2 ** power;
    const one = given(set);
    const other = given({ x: set.x.map((v) => v * factor), y: set.y.map((v) => v * factor) });
    close(value(other.radial.total) / factor, value(one.radial.total));
    close(value(other.sd.bivariate) / factor, value(one.sd.bivariate));
    expect(other.ellipse.aspect).toBe(one.ellipse.aspect);
    expect(other.ellipse.angle).toBe(one.ellipse.angle);
    if (one.robust.geometricMedian) close(other.robust.geometricMedian![1] / factor, one.robust.geometricMedian[1]);
  });
  test.prop([endpointsArb(2)])("does not depend on the order of the endpoints", (set) => {
    const one = given(set);
    const other = given({ x: set.x.slice().reverse(), y: set.y.slice().reverse() });
    close(value(other.radial.total), value(one.radial.total));
    close(other.covariance[0][1], one.covariance[0][1]);
    close(other.robust.meanDistance, one.robust.meanDistance);
    expect(other.robust.mad).toEqual(one.robust.mad);
  });
  test.prop([endpointsArb(0), fc.constantFrom(0.5, 0.9, 0.999)])(
    "leaves its input alone, and gives plain data with each value inside its interval",
    (set, level) => {
      const copy = structuredClone(set);
      const result = endpointScatter(set, { level });
      expect(set).toEqual(copy);
      expect(JSON.parse(JSON.stringify(result))).toEqual(result);
      expect(structuredClone(result)).toEqual(result);
      expect(notFinite(result)).toEqual([]);
      if (!result.ok) return;
      const { mean, total, centroid, bivariateVariable } = result.radial;
      for (const estimate of [mean, total, bivariateVariable]) {
        if (!estimate.ok || !estimate.interval) continue;
        expect(estimate.interval[0]).toBeLessThanOrEqual(estimate.value * (1 + 1e-12));
        expect(estimate.interval[1]).toBeGreaterThanOrEqual(estimate.value * (1 - 1e-12));
      }
      if (centroid.ok && centroid.interval) expect(centroid.interval[0]).toBeLessThanOrEqual(centroid.value);
    },
  );
  it.each([1e-300, 1e-160, 1e150, 1e300])("gives finite numbers for endpoints of %d and levels next to 0 and 1", (size) => {
    for (const level of [1e-12, 1 - 1e-12]) {
      for (const n of [3, 4, 12, 40]) {
        const set = drawEndpoints(createRandom(n), n, DRAWS.normal, [size, size]);
        expect(notFinite(endpointScatter(set, { level }))).toEqual([]);
        expect(given(set, { level }).ellipse.aspect).toBeGreaterThan(0);
      }
    }
  });
  it("finds the middle of endpoints on a line, and none where a stretch of it would do", () => {
    const onLine = (...t: number[]) => given({ x: Float64Array.from(t, (v) => 1 + v / 8), y: Float64Array.from(t, (v) => 3 - v / 4) });
    expect(onLine(9, 1, 4).robust.geometricMedian).toEqual([1.5, 2]);
    expect(onLine(9, 1, 4, 4).robust.geometricMedian).toEqual([1.5, 2]);
    expect(onLine(9, 1, 4, 5).robust).toMatchObject({
      geometricMedian: null,
      meanDistance: expect.closeTo((9 * Math.sqrt(5)) / 8 / 4, 12),
    });
    expect(onLine(9, 1, 4).ellipse).toMatchObject({ aspect: 0, eccentricity: 1, area: 0 });
    expect(onLine(9, 1, 4).correlation).toBeCloseTo(-1, 12);
  });
  it("gives the longer axis of a narrow scatter its direction and the shorter one its digits", () => {
    const x = Float64Array.from({ length: 101 }, (_, i) => i - 50);
    const { ellipse } = given(mapped({ x, y: x.map((_, i) => (i % 2 ? 1 : -1) * 1e-9) }, turn(30)));
    expect(ellipse.angle).toBeCloseTo(30, 8);
    // closed form: 51 times -1e-9 and 50 times 1e-9 have the mean -1e-9/101
    expect(ellipse.axisSd[1] / (1e-9 * Math.sqrt((101 - 1 / 101) / 100))).toBeCloseTo(1, 5);
  });
  it("says where there is no spread, and that one endpoint is too few", () => {
    const same = given({ x: Float64Array.of(3, 3, 3), y: Float64Array.of(-1, -1, -1) });
    expect(same.sd.bivariate).toMatchObject({ ok: false, why: "noSpread" });
    expect(same).toMatchObject({
      correlation: null,
      ellipse: { angle: null, aspect: null, area: 0 },
      robust: { geometricMedian: [3, -1], meanDistance: 0 },
    });
    expect(given({ x: Float64Array.of(1, 2, 3), y: Float64Array.of(5, 5, 5) }).correlation).toBeNull();
    expect(endpointScatter({ x: Float64Array.of(1), y: Float64Array.of(2) })).toEqual({ ok: false, why: "tooFew", unit: "px", n: 1 });
    expect(given({ x: Float64Array.of(0, 1), y: Float64Array.of(0, 1) }).ellipse.factors).toMatchObject({ mean: null, next: null });
  });
  // shares simulated with 600 sets: 5 % of normal sets of 50, 65 % of skewed ones, 91 % of heavy-tailed ones
  it("warns of few endpoints, and of tails that its intervals of the spread do not hold for", () => {
    const random = createRandom(13);
    const share = (draw: (source: typeof random) => number): number => {
      const sets = Array.from({ length: 60 }, () => given(drawEndpoints(random, 50, draw)).warnings);
      return sets.filter((warnings) => warnings.includes("notNormal")).length / 60;
    };
    expect(share(DRAWS.normal)).toBeLessThan(0.2);
    expect(share(DRAWS.skewed)).toBeGreaterThan(0.4);
    expect(share(DRAWS.heavyTailed)).toBeGreaterThan(0.75);
    expect(given(EIGHT).warnings).toContain("few");
    expect(given(drawEndpoints(random, 20, DRAWS.normal)).warnings).not.toContain("few");
  });
  it("does not stop at a search that has far to go", () => {
    const { point } = geometricMedian(
      endpointsOf([
        [0, 0],
        [1, 0.1],
        [2, -0.1],
        [1e6, 1e6],
        [-1e6, 1e6],
        [3, 0.2],
        [1.4, 0],
      ]),
      [1e5, 1e5],
      1,
      null,
    );
    expect(point![0]).toBeGreaterThan(0);
    expect(point![0]).toBeLessThan(3);
  });
});

describe("endpointScatter bad input", () => {
  it("names the column and the entry", () => {
    expect(() => endpointScatter({ x: Float64Array.of(1, Number.NaN), y: Float64Array.of(1, 2) })).toThrow(
      "endpointScatter: endpoints.x[1] must be finite, got NaN",
    );
    expect(() => endpointScatter({ x: Float64Array.of(1, 2), y: Float64Array.of(1) })).toThrow(
      "endpointScatter: endpoints.y must have 2 entries like the other columns, got 1",
    );
    expect(() => endpointScatter({ x: [1, 2], y: [1, 2] } as never)).toThrow(TypeError);
    expect(() => endpointScatter(null as never)).toThrow(TypeError);
  });
  it("refuses a level outside (0, 1)", () => {
    expect(() => endpointScatter(EIGHT, { level: 1 })).toThrow("endpointScatter: options.level must be above 0 and below 1, got 1");
  });
});
