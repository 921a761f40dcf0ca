import { describe, expect, it } from "vitest";
import { pooledSdEstimate } from "../../src/math/pooled-sd-estimate.js";

describe("pooledSdEstimate against outside values", () => {
  // Source: SciPy 1.17.1 stats.chi2.ppf with 10 degrees of freedom, computed
  it("carries the chi-squared interval", () =>
    expect(pooledSdEstimate(0.01715475777403208, 10, 12, "s")).toEqual({
      ok: true,
      value: 0.01715475777403208,
      unit: "s",
      n: 12,
      interval: [expect.closeTo(0.01198632, 8), expect.closeTo(0.03010546, 8)],
      level: 0.95,
    }));
  it("needs a degree of freedom and a spread", () => {
    expect(pooledSdEstimate(1, 0, 1, "s")).toEqual({ ok: false, why: "tooFew", unit: "s", n: 1 });
    expect(pooledSdEstimate(0, 3, 4, "s")).toEqual({ ok: false, why: "noSpread", unit: "s", n: 4 });
  });
});
