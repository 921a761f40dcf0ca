// Source: shared reference table scatter/hit-probability.json: circles and rectangles by numerical integration with SciPy 1.10.1 (rectangles agree
// with inclusion and exclusion of its bivariate distribution function, circles with a simulation); quadrants, strips and round scatter in closed form.
import { describe, expect, it } from "vitest";
import { circularErrorProbable } from "../../src/endpoints/circular-error-probable.js";
import { hitProbability } from "../../src/endpoints/hit-probability.js";
import type { NormalScatter } from "../../src/endpoints/types.js";
import { widthForHitRate } from "../../src/endpoints/width-for-hit-rate.js";
import type { Estimate } from "../../src/math/estimate.js";
import type { Shape } from "../../src/trace/types.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const cases = readReference("scatter/hit-probability.json")?.cases ?? [];
const named = (start: string): ReferenceCase[] => cases.filter((c) => c.name.startsWith(start));
const given = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);
const inside = (scatter: NormalScatter, shape: Shape): number => given(hitProbability(scatter, shape).model);
const round = (sigma: number): NormalScatter => ({
  mean: [0, 0],
  covariance: [
    [sigma * sigma, 0],
    [0, sigma * sigma],
  ],
});

function expectWithin(c: ReferenceCase, got: number, expected: number): void {
  expect(within(got, expected, c.tolerance), `${c.name}: ${got} for ${expected}`).toBe(true);
}

describe.skipIf(cases.length === 0)(`hit probability against the table (skipped: ${SHARED_ABSENT})`, () => {
  it("holds nine circles, eight rectangles and four closed forms", () => {
    expect([named("circle").length, named("rectangle").length, cases.length]).toEqual([9, 8, 21]);
  });

  it.each(named("circle"))("$name", (c) => {
    const { covariance, offset, radius } = c.input;
    expectWithin(c, inside({ mean: offset, covariance }, { kind: "circle", diameter: 2 * radius }), c.expected.probability);
  });
  it.each(named("rectangle"))("$name", (c) => {
    const { covariance, offset, bounds } = c.input;
    const [x0, x1, y0, y1] = bounds;
    // the library's rectangles lie about the target's centre: the offset is taken from the middle of these
    const mean = [offset[0] - (x0 + x1) / 2, offset[1] - (y0 + y1) / 2] as const;
    expectWithin(c, inside({ mean, covariance }, { kind: "rect", width: x1 - x0, height: y1 - y0 }), c.expected.probability);
    // the same, walked around by a quarter turn
    expectWithin(c, inside({ mean, covariance }, { kind: "rect", width: y1 - y0, height: x1 - x0, angle: 90 }), c.expected.probability);
  });
  it.each(named("orthant probability"))("$name", (c) => {
    c.input.rho.forEach((rho: number, k: number) => {
      // a square so large that its two far sides are out of reach
      const scatter: NormalScatter = {
        mean: [-50, -50],
        covariance: [
          [1, rho],
          [rho, 1],
        ],
      };
      expectWithin(c, inside(scatter, { kind: "rect", width: 100, height: 100 }), c.expected[k]);
    });
  });
  it.each(named("one-axis hit rate"))("$name", (c) => {
    c.input.wOverSd.forEach((width: number, k: number) => {
      expectWithin(c, inside(round(1), { kind: "rect", width, height: 100 }), c.expected[k]);
      // and back: the strip for that rate
      expectWithin(c, given(widthForHitRate(round(1), c.expected[k], { shape: "strip" }).width), width);
    });
  });
  it.each(named("radius needed for a hit rate"))("$name", (c) => {
    c.input.hitRate.forEach((rate: number, k: number) => {
      expectWithin(c, given(widthForHitRate(round(c.input.sigma), rate).width) / 2, c.expected[k]);
      expectWithin(c, given(circularErrorProbable(round(c.input.sigma), { share: rate }).radius), c.expected[k]);
    });
  });
  it.each(named("sigma implied by a hit rate"))("$name", (c) => {
    c.input.hitRate.forEach((rate: number, k: number) => {
      // the width grows in proportion to sigma
      expectWithin(c, c.input.radius / (given(widthForHitRate(round(1), rate).width) / 2), c.expected[k]);
      const got = inside(round(c.expected[k]), { kind: "circle", diameter: 2 * c.input.radius });
      expectWithin(c, got, rate);
    });
  });
});
