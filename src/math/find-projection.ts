import type { CountedProblem } from "./fit-problem.js";
import { linearParameters } from "./linear-parameters.js";
import { type ProjectedProblem, projectProblem } from "./projected-problem.js";
import { spreadAbout } from "./restart-points.js";
import { sumOfSquares } from "./sum-of-squares.js";

/** Residuals that a projection promises may differ from the model's by this share of the data: what a linear fit of long columns loses. */
const AGREES = 1e-6;

/**
 * The problem without the parameters that enter linearly. They are looked for where derivatives exist: at a start, else at one of the points about
 * the first.
 */
export function findProjection(counted: CountedProblem, spread: number): ProjectedProblem {
  const [start] = counted.starts;
  const about = spreadAbout(start!, 0, spread, () => 0, counted).map(({ point }) => point);
  for (const point of [...counted.starts, ...about]) {
    const linear = linearParameters(counted, point);
    if (linear === undefined) continue;
    const projected = projectProblem(counted, linear);
    if (linear.length === 0) return projected;
    // trust, but verify: the residuals promised must be those of the model
    const promised = new Float64Array(counted.size);
    projected.evaluate(
      Float64Array.from(projected.searched, (j) => point[j]!),
      promised,
    );
    const real = new Float64Array(counted.size);
    counted.residuals(projected.whole(), real);
    const size = Math.sqrt(counted.dataSum) + Math.sqrt(sumOfSquares(real));
    if (promised.every((value, i) => Math.abs(value - real[i]!) <= AGREES * size)) return projected;
  }
  return projectProblem(counted, []);
}
