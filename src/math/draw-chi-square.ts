import type { Random } from "./random.js";

/** A draw from the chi-squared distribution with `df` degrees of freedom, at least 2: the squeeze of Marsaglia and Tsang 2000 (recalled), about one normal draw each. */
export function drawChiSquare(random: Random, df: number): number {
  // a gamma variable of shape a is nearly d (1 + c z)^3; the rest is rejected
  const d = df / 2 - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const z = random.normal();
    const cube = (1 + c * z) ** 3;
    if (cube > 0 && Math.log(1 - random.uniform()) < (z * z) / 2 + d * (1 - cube + Math.log(cube))) return 2 * d * cube;
  }
}
