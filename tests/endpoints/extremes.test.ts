// Lengths and levels at the ends of what a double holds: every comparison of scatters still gives plain finite numbers, or says why not.
import { describe, expect, it } from "vitest";
import { anisotropyTest } from "../../src/endpoints/anisotropy-test.js";
import { biasTest } from "../../src/endpoints/bias-test.js";
import { compareScatters } from "../../src/endpoints/compare-scatters.js";
import { scatterDependence } from "../../src/endpoints/scatter-dependence.js";
import { createRandom } from "../../src/math/random.js";
import { DRAWS, drawEndpoints, notFinite } from "./scatter-draws.js";

describe("tests of endpoints at extreme lengths and levels", () => {
  it.each([1, 1e-300, 1e-160, 1e150, 1e300])("give finite numbers for a scatter of %d", (size) => {
    const random = createRandom(1);
    for (const level of [1e-12, 1 - 1e-16]) {
      for (const n of [4, 12, 40]) {
        const one = drawEndpoints(random, n, DRAWS.normal, [size, size]);
        const other = drawEndpoints(random, n, DRAWS.normal, [size, size]);
        const predictors = { amplitude: one.x.map((value) => Math.abs(value) + size), direction: one.y.map((value) => value / size) };
        const results = [
          biasTest(one, { level }),
          anisotropyTest(one, { level }),
          compareScatters(one, other, { level, permutations: 99 }),
          scatterDependence(other, predictors, { level }),
        ];
        expect(results.flatMap((result) => notFinite(result))).toEqual([]);
        expect(results.slice(0, n < 10 ? 3 : 4).map((result) => result.ok)).not.toContain(false);
      }
    }
  });
});
