import { bcaInterval } from "../../math/bootstrap.js";
import { type Likeness, likenessOf, type ProfileSpread, profileSpread, withoutProfile } from "./profile-spread.js";

/** Ends of the interval of each number, absent where all draws lie on one side of it. */
export type LikenessIntervals = Readonly<Record<keyof Likeness, readonly [number, number] | undefined>>;

/**
 * Bootstrap intervals (BCa) over profiles, of both numbers from the same resamples. `draw(n)` gives a whole number below n. The acceleration comes from leaving out
 * one profile each, which the sums allow without going through the others again: cost O(resamples n).
 */
export function likenessIntervals(
  profiles: readonly Float64Array[],
  whole: ProfileSpread,
  resamples: number,
  level: number,
  draw: (n: number) => number,
): LikenessIntervals {
  const n = profiles.length;
  const pick = new Int32Array(n);
  const drawn = Array.from({ length: resamples }, () => {
    for (let i = 0; i < n; i++) pick[i] = draw(n);
    return likenessOf(profileSpread(profiles, pick), n);
  });
  const without = profiles.map((profile) => likenessOf(withoutProfile(whole, profile, n), n - 1));
  const value = likenessOf(whole, n);
  const interval = (trait: keyof Likeness) =>
    bcaInterval(
      {
        value: value[trait],
        draws: Float64Array.from(drawn, (one) => one[trait]).sort(),
        acceleration: accelerationOf(without.map((one) => one[trait])),
      },
      level,
    );
  return { functionalSd: interval("functionalSd"), multipleCorrelation: interval("multipleCorrelation") };
}

/** sum d^3 / (6 (sum d^2)^1.5), d the mean less each value left. */
function accelerationOf(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  let squares = 0;
  let cubes = 0;
  for (const value of values) {
    squares += (mean - value) ** 2;
    cubes += (mean - value) ** 3;
  }
  return squares > 0 ? cubes / (6 * squares ** 1.5) : 0;
}
