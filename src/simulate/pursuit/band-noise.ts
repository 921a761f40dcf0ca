import type { Random } from "../../math/random.js";

/**
 * `n` values of stationary noise with standard deviation `sd`, `step` seconds apart: white noise through two equal first-order filters with the
 * corner `bandHz`. The recursion x = 2a x' - a^2 x'' + e has the variance (1 + a^2)/(1 - a^2)^3 of e, which fixes the size exactly.
 */
export function bandNoise(random: Random, n: number, step: number, sd: number, bandHz: number): Float64Array {
  const values = new Float64Array(n);
  if (sd === 0) return values;
  const a = Math.exp(-2 * Math.PI * bandHz * step);
  const drive = sd * Math.sqrt((1 - a * a) ** 3 / (1 + a * a));
  // both filters start settled: correlation of the two neighbours at the start is 2a/(1 + a^2)
  const r = (2 * a) / (1 + a * a);
  let before = sd * random.normal();
  let last = r * before + sd * Math.sqrt(1 - r * r) * random.normal();
  for (let k = 0; k < n; k++) {
    values[k] = last;
    const next = 2 * a * last - a * a * before + drive * random.normal();
    before = last;
    last = next;
  }
  return values;
}
