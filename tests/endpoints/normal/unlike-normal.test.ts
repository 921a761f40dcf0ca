import { describe, expect, it } from "vitest";
import { moments } from "../../../src/endpoints/inference/moments.js";
import { isUnlikeNormal } from "../../../src/endpoints/normal/unlike-normal.js";
import { createRandom } from "../../../src/math/random.js";
import { DRAWS, drawEndpoints, endpointsOf, mapped } from "../scatter-draws.js";

const judge = (set: ReturnType<typeof drawEndpoints>): boolean => isUnlikeNormal(set, moments(set));

describe("isUnlikeNormal", () => {
  const share = (draw: (typeof DRAWS)[keyof typeof DRAWS], n: number): number => {
    const random = createRandom(8);
    let count = 0;
    for (let run = 0; run < 500; run++) if (judge(drawEndpoints(random, n, draw, [4, 1]))) count++;
    return count / 500;
  };
  // Source: Mardia 1970 (recalled): skewness chi-squared, kurtosis normal for large normal sets; one in a hundred each, to within sampling of 500 sets
  it.each([10, 50, 200])("seldom speaks against normal scatter, n = %d", (n) => expect(share(DRAWS.normal, n)).toBeLessThan(0.045));
  // Source: closed form: a gamma variable of shape 2 has a skewness of sqrt 2, Student's t with 3 degrees of freedom no fourth moment
  it("finds skewed and heavy-tailed scatter", () => {
    expect(share(DRAWS.skewed, 50)).toBeGreaterThan(0.8);
    expect(share(DRAWS.skewed, 200)).toBeGreaterThan(0.99);
    expect(share(DRAWS.heavyTailed, 50)).toBeGreaterThan(0.7);
    expect(share(DRAWS.heavyTailed, 200)).toBeGreaterThan(0.97);
  });
  it("does not depend on the frame", () => {
    const random = createRandom(2);
    for (let run = 0; run < 50; run++) {
      const set = drawEndpoints(random, 30, DRAWS.heavyTailed);
      expect(judge(mapped(set, [3, -2, 0.5, 1], [100, -7]))).toBe(judge(set));
    }
  });
  it("says nothing of endpoints on a line", () => {
    expect(judge(endpointsOf([1, 2, 3, 4, 100].map((k) => [k, 2 * k] as const)))).toBe(false);
  });
});
