import { fc, test } from "@fast-check/vitest";
import { lgamma } from "mathjs";
import { describe, expect, it } from "vitest";
import { gammaKernel, gammaTails, logGamma, regularizedGammaP } from "../../src/math/gamma.js";
import { normalCdf } from "../../src/math/normal.js";

describe("the gamma functions against outside values", () => {
  // Source: SciPy 1.10.1 special.gammaln, computed
  it.each([
    [0.001, 6.907178885383853],
    [0.5, 0.5723649429247],
    [2.5, 0.2846828704729192],
    [10.3, 13.482036786138359],
    [12, 17.502307845873887],
    [100, 359.1342053695754],
    [1e5, 1051287.7089736569],
  ])("log gamma(%d) is that of SciPy", (x, expected) => expect(Math.abs(logGamma(x) / expected - 1)).toBeLessThan(2e-14));

  // Source: closed forms: gamma(n) = (n - 1)!, gamma(1/2) = sqrt(pi)
  it("gives factorials and the root of pi", () => {
    let log = 0;
    for (let n = 1; n < 30; n++) {
      expect(logGamma(n)).toBeCloseTo(log, 12);
      log += Math.log(n);
    }
    expect(Math.exp(logGamma(0.5))).toBeCloseTo(Math.sqrt(Math.PI), 14);
  });

  // Source: SciPy 1.10.1 special.gammainc and gammaincc, computed
  it.each([
    [0.5, 0.1, 0.34527915398142317, 0.6547208460185768],
    [1.5, 4, 0.9539882943107686, 0.04601170568923136],
    [3, 2.5, 0.45618688411667035, 0.5438131158833297],
    [10, 10, 0.5420702855281478, 0.4579297144718523],
    [10, 30, 0.9999928782491372, 7.121750862815593e-6],
    [50.5, 40, 0.060965525229495623, 0.9390344747705044],
    [200, 230, 0.9796688566711638, 0.020331143328836242],
  ])("the tails for shape %d at %d are those of SciPy", (a, x, lower, upper) => {
    const tails = gammaTails(a, x);
    expect(regularizedGammaP(a, x)).toBe(tails.lower);
    expect(Math.abs(tails.lower / lower - 1)).toBeLessThan(1e-13);
    expect(Math.abs(tails.upper / upper - 1)).toBeLessThan(1e-13);
  });

  // Source: closed form for whole shapes, Q(n, x) = exp(-x) sum x^k/k! below n, summed with 60 digits by Python's decimal
  it("keeps its digits far out in a tail", () => {
    expect(Math.abs(gammaTails(1000, 2000).upper / 6.847349459614753e-136 - 1)).toBeLessThan(1e-13);
    expect(Math.abs(gammaTails(1000, 500).lower / 3.2982727970671e-86 - 1)).toBeLessThan(1e-13);
  });

  // Source: closed forms P(1, x) = 1 - exp(-x) and P(1/2, z^2/2) = P(|normal| < z), the latter by Math.expm1 and the project's normal cdf
  test.prop([fc.double({ min: 1e-6, max: 30, noNaN: true })])("meets the exponential and the normal distribution", (x) => {
    expect(Math.abs(regularizedGammaP(1, x) / -Math.expm1(-x) - 1)).toBeLessThan(1e-13);
    expect(Math.abs(gammaTails(0.5, x).upper - 2 * normalCdf(-Math.sqrt(2 * x)))).toBeLessThan(1e-14);
  });

  // Source: mathjs 15.2 lgamma, itself good to 2e-12 (at 0.3798 SciPy sides with this project to the last digit)
  test.prop([fc.double({ min: 0.01, max: 1000, noNaN: true })])("log gamma is that of mathjs", (x) => {
    expect(Math.abs(logGamma(x) - lgamma(x))).toBeLessThan(4e-12 * Math.max(1, Math.abs(lgamma(x))));
  });
});

describe("gamma tails properties", () => {
  const shape = fc.double({ min: 0.05, max: 2000, noNaN: true });
  const share = fc.double({ min: 0.01, max: 4, noNaN: true });

  test.prop([shape, share])("the tails lie in 0..1 and sum to 1", (a, ratio) => {
    const { lower, upper } = gammaTails(a, a * ratio);
    expect(lower >= 0 && upper >= 0).toBe(true);
    expect(lower + upper).toBeCloseTo(1, 15);
  });

  // P(a, x) - P(a + 1, x) = x^a exp(-x)/gamma(a + 1): both branches and the kernel must agree
  test.prop([shape, share])("neighbouring shapes differ by the kernel", (a, ratio) => {
    const x = a * ratio;
    expect(Math.abs(regularizedGammaP(a, x) - regularizedGammaP(a + 1, x) - gammaKernel(a, x) / a)).toBeLessThan(1e-13);
  });

  // the difference quotient is off by its step squared; one thousandth of the spread leaves 1e-6 of the peak
  test.prop([fc.double({ min: 0.5, max: 500, noNaN: true }), fc.double({ min: 0.3, max: 3, noNaN: true })])(
    "the kernel is the slope",
    (a, ratio) => {
      const x = a * ratio;
      const step = 1e-3 / Math.sqrt(a + 1);
      const slope = (regularizedGammaP(a, x * Math.exp(step)) - regularizedGammaP(a, x * Math.exp(-step))) / (2 * step);
      expect(Math.abs(slope - gammaKernel(a, x))).toBeLessThan(1e-5 * Math.sqrt(a));
    },
  );
});

describe("gamma tails at the edges", () => {
  it("nothing lies below 0 and everything below a huge value", () => {
    expect(gammaTails(2, 0)).toEqual({ lower: 0, upper: 1, kernel: 0 });
    expect(gammaTails(2, 1e5)).toEqual({ lower: 1, upper: 0, kernel: 0 });
    expect(gammaKernel(2, 0)).toBe(0);
  });
  it("settles for large shapes", () => expect(regularizedGammaP(1e7, 1e7)).toBeCloseTo(0.5 + 1 / (3 * Math.sqrt(2 * Math.PI * 1e7)), 9));
});
