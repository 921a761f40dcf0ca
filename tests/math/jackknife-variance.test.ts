import { describe, expect, it } from "vitest";
import { jackknifeVariance } from "../../src/math/jackknife-variance.js";
import { meanAndSd } from "../../src/math/mean-and-sd.js";

const ONE = [27.5, 21.0, 19.0, 23.6, 17.0, 17.9, 16.9, 20.1, 21.9, 22.6, 23.1, 19.6, 19.0, 21.7, 21.4];

describe("jackknifeVariance against outside values", () => {
  // Source: closed form. The jackknife of a mean is its squared standard error s^2/n.
  it("is the squared standard error for a mean", () => {
    const sum = ONE.reduce((a, b) => a + b, 0);
    const { mean, sd } = meanAndSd(ONE);
    expect(jackknifeVariance(15, mean, (i) => (sum - ONE[i]!) / 14)).toBeCloseTo((sd * sd) / 15, 12);
  });
  it("is not finite when an estimate is not", () => expect(jackknifeVariance(3, 1, (i) => (i === 1 ? Number.NaN : 1))).toBeNaN());
});
