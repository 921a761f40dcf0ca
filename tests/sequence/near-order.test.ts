import { describe, expect, it } from "vitest";
import { exactOrder } from "../../src/math/exact-order.js";
import { createRandom } from "../../src/math/random.js";
import { nearOrder } from "../../src/sequence/tour/near-order.js";
import { nearestNeighbourOrder } from "../../src/sequence/tour/nearest-neighbour-order.js";
import { distanceOf, orderLength } from "../../src/sequence/tour/visiting-order.js";

describe("nearOrder", () => {
  // Source: dynamic programming over subsets, a second implementation that cannot be wrong by a local optimum
  it.each(["fromFirst", "open", "closed"] as const)(
    "finds the shortest order of 10 to 13 points (%s) in at least 98 of 100 fields",
    (kind) => {
      const random = createRandom(3);
      let shortest = 0;
      for (let field = 0; field < 100; field++) {
        const n = 10 + (field % 4);
        const x = Float64Array.from({ length: n }, () => random.uniform());
        const y = Float64Array.from({ length: n }, () => random.uniform());
        const near = nearOrder(x, y, nearestNeighbourOrder(x, y), kind);
        expect(new Set(near).size).toBe(n);
        if (kind === "fromFirst") expect(near[0]).toBe(0);
        const ratio =
          orderLength(x, y, near, kind === "closed") / orderLength(x, y, exactOrder(n, distanceOf(x, y), kind), kind === "closed");
        expect(ratio).toBeGreaterThan(1 - 1e-12);
        expect(ratio).toBeLessThan(1.03);
        if (ratio < 1 + 1e-9) shortest++;
      }
      expect(shortest).toBeGreaterThanOrEqual(98);
    },
  );
});
