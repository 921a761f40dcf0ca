// Source: shared reference table scatter/constants.json: constants of the bivariate normal computed with SciPy 1.10.1 (closed forms, chi-squared and F
// quantiles), and figures printed in navigation manuals and lecture notes, named in each case there, good to their own rounding only.
import { describe, expect, it } from "vitest";
import { circularErrorProbable } from "../../src/endpoints/circular-error-probable.js";
import { endpointScatter } from "../../src/endpoints/endpoint-scatter.js";
import { hitProbability } from "../../src/endpoints/hit-probability.js";
import type { NormalScatter } from "../../src/endpoints/types.js";
import { widthForHitRate } from "../../src/endpoints/width-for-hit-rate.js";
import type { Estimate } from "../../src/math/estimate.js";
import { logGamma } from "../../src/math/gamma.js";
import { normalQuantile } from "../../src/math/normal-quantile.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const cases = readReference("scatter/constants.json")?.cases ?? [];
const caseOf = (name: string): ReferenceCase => cases.find((c) => c.name === name)!;
const given = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);
const scatterOf = (sx: number, sy: number): NormalScatter => ({
  mean: [0, 0],
  covariance: [
    [sx * sx, 0],
    [0, sy * sy],
  ],
});
const ROUND = scatterOf(1, 1);
const LINE = scatterOf(1, 0);
const radius = (share: number, scatter = ROUND): number => given(circularErrorProbable(scatter, { share }).radius);
const inside = (r: number, scatter = ROUND): number => given(hitProbability(scatter, { kind: "circle", diameter: 2 * r }).model);
const stripFor = (share: number): number => given(widthForHitRate(LINE, share, { shape: "strip" }).width);

function expectWithin(c: ReferenceCase, what: string, got: number, expected: number): void {
  expect(within(got, expected, c.tolerance), `${what}: ${got} for ${expected}`).toBe(true);
}

describe.skipIf(cases.length === 0)(`constants of scatter against the table (skipped: ${SHARED_ABSENT})`, () => {
  it("holds six cases", () => expect(cases.length).toBe(6));

  it("circular normal constants", () => {
    const c = caseOf("circular normal constants");
    const drms = Math.SQRT2;
    // the mean distance of round scatter, sqrt(pi/2), is Gamma(3/2) sqrt 2
    const mean = Math.SQRT2 * Math.exp(logGamma(1.5));
    const got: Record<string, number> = {
      cepOverSigma: radius(0.5),
      r39Ellipse1Sigma: inside(1),
      meanRadiusOverSigma: mean,
      drmsOverSigma: drms,
      drmsProbability: inside(drms),
      twoDrmsProbabilityCircular: inside(2 * drms),
      r90OverSigma: radius(0.9),
      r95OverSigma: radius(0.95),
      r99OverSigma: radius(0.99),
      r95OverCep: radius(0.95) / radius(0.5),
      drmsOverCep: drms / radius(0.5),
      rayleighSdOverSigma: Math.sqrt(drms * drms - mean * mean),
      probableError: radius(0.5, LINE),
      madScale: 1 / normalQuantile(0.75),
      gaussianEntropyWidth: Math.sqrt(2 * Math.PI * Math.E),
      central96Width: stripFor(0.96),
    };
    expect(Object.keys(got).sort()).toEqual(Object.keys(c.expected).sort());
    for (const [name, expected] of Object.entries(c.expected)) expectWithin(c, name, got[name]!, expected as number);
  });
  it("share inside k sigma, circular normal", () => {
    const c = caseOf("share inside k sigma, circular normal");
    for (const [i, k] of c.input.k.entries()) expectWithin(c, `${k} sigma`, inside(k), c.expected[i]);
  });
  it("share within multiples of CEP", () => {
    const c = caseOf("share within multiples of CEP");
    for (const [i, m] of c.input.multiple.entries()) expectWithin(c, `${m} CEP`, inside(m * radius(0.5)), c.expected[i]);
  });
  it("ellipse scale factors", () => {
    const c = caseOf("ellipse scale factors");
    const ellipse = (n: number, level: number) => {
      const steps = Float64Array.from({ length: n }, (_, k) => k);
      const scatter = endpointScatter({ x: steps, y: steps.map((k) => k * k) }, { level });
      if (!scatter.ok) throw new Error(scatter.why);
      return scatter.ellipse.factors;
    };
    c.input.p.forEach((p: number, i: number) => {
      expectWithin(c, `chi at ${p}`, ellipse(5, p).known, c.expected.chi[i]);
      expectWithin(c, `radius at ${p}`, radius(p), c.expected.chi[i]);
    });
    c.input.n.forEach((n: number, i: number) => {
      expectWithin(c, `mean region, n = ${n}`, ellipse(n, 0.95).mean!, c.expected.meanRegion95[i]);
      expectWithin(c, `prediction, n = ${n}`, ellipse(n, 0.95).next!, c.expected.prediction95[i]);
    });
  });
  it("printed radii, circular normal", () => {
    const c = caseOf("printed radii, circular normal");
    const shares = [0.5, 0.66, 0.75, 0.9, 0.999];
    c.expected.forEach(([meaning, printed, exact, tolerance]: [string, number, number, number], i: number) => {
      expect(Math.abs(radius(shares[i]!) - printed), meaning).toBeLessThan(tolerance);
      expect(radius(shares[i]!)).toBeCloseTo(exact, 10);
    });
  });
  it("printed navigation constants", () => {
    const c = caseOf("printed navigation constants");
    const { cepOverSumOfSigmas, twoDrmsOverCep, twoDrmsProbabilityRange, oneSigmaEllipseShare, r95OverCep } = c.expected;
    for (const [got, { printed, exactCircular }] of [
      [radius(0.5) / 2, cepOverSumOfSigmas],
      [(2 * Math.SQRT2) / radius(0.5), twoDrmsOverCep],
      [radius(0.95) / radius(0.5), { ...r95OverCep, exactCircular: r95OverCep.exact }],
    ] as const) {
      expectWithin(c, "printed", got, printed);
      expect(got).toBeCloseTo(exactCircular, 12);
    }
    expectWithin(c, "one sigma ellipse", inside(1), oneSigmaEllipseShare.printed);
    expect(inside(1)).toBeCloseTo(oneSigmaEllipseShare.exact, 13);
    [LINE, ROUND].forEach((scatter, i) => {
      const got = inside(i === 0 ? 2 : 2 * Math.SQRT2, scatter);
      expectWithin(c, "2DRMS", got, twoDrmsProbabilityRange.printed[i]);
      expect(got).toBeCloseTo(twoDrmsProbabilityRange.exact[i], 12);
    });
  });
});
