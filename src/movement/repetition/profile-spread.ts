/** Profiles of one length laid beside each other: how far they differ. */
export interface ProfileSpread {
  readonly mean: Float64Array;
  /** Standard deviation across profiles (n - 1) at each point. */
  readonly sd: Float64Array;
  /** Mean of `sd`. */
  readonly functionalSd: number;
  /** Coefficient of multiple correlation; 0 where the profiles are no more alike than values drawn at random from all of them, or have no shape. */
  readonly multipleCorrelation: number;
}

/**
 * Spread of the profiles that `pick` names, each as often as it is named; at least two. The coefficient of multiple correlation is
 * sqrt(1 - [SS about the mean profile / (T (n - 1))] / [SS about the grand mean / (T n - 1)]) for n profiles of T points (Kadaba et al. 1989, recalled).
 */
export function profileSpread(profiles: readonly Float64Array[], pick: ArrayLike<number>): ProfileSpread {
  const n = pick.length;
  const points = profiles[0]!.length;
  const mean = new Float64Array(points);
  const sd = new Float64Array(points);
  for (let k = 0; k < n; k++) {
    const profile = profiles[pick[k]!]!;
    for (let t = 0; t < points; t++) mean[t]! += profile[t]!;
  }
  let grand = 0;
  for (let t = 0; t < points; t++) {
    mean[t]! /= n;
    grand += mean[t]! / points;
  }
  for (let k = 0; k < n; k++) {
    const profile = profiles[pick[k]!]!;
    for (let t = 0; t < points; t++) sd[t]! += (profile[t]! - mean[t]!) * (profile[t]! - mean[t]!);
  }
  let within = 0;
  let between = 0;
  let functionalSd = 0;
  for (let t = 0; t < points; t++) {
    within += sd[t]!;
    between += n * (mean[t]! - grand) * (mean[t]! - grand);
    sd[t] = Math.sqrt(sd[t]! / (n - 1));
    functionalSd += sd[t]! / points;
  }
  const ratio = (within / (points * (n - 1))) * ((points * n - 1) / (within + between));
  return { mean, sd, functionalSd, multipleCorrelation: ratio < 1 ? Math.sqrt(1 - ratio) : 0 };
}
