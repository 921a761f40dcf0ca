/** Profiles of one length laid beside each other: how far they differ. */
export interface ProfileSpread {
  readonly mean: Float64Array;
  /** Sum of the squared deviations across profiles at each point. */
  readonly squares: Float64Array;
}

/** One number for how far profiles differ. */
export interface Likeness {
  /** Mean over the points of the standard deviation across profiles (n - 1). */
  readonly functionalSd: number;
  /** Coefficient of multiple correlation; 0 where the profiles are no more alike than values drawn at random from all of them, or have no shape. */
  readonly multipleCorrelation: number;
}

/** Mean and squares of the profiles that `pick` names, each as often as it is named. */
export function profileSpread(profiles: readonly Float64Array[], pick: ArrayLike<number>): ProfileSpread {
  const n = pick.length;
  const points = profiles[0]!.length;
  const mean = new Float64Array(points);
  const squares = new Float64Array(points);
  for (let k = 0; k < n; k++) {
    const profile = profiles[pick[k]!]!;
    for (let t = 0; t < points; t++) mean[t]! += profile[t]!;
  }
  for (let t = 0; t < points; t++) mean[t]! /= n;
  for (let k = 0; k < n; k++) {
    const profile = profiles[pick[k]!]!;
    for (let t = 0; t < points; t++) squares[t]! += (profile[t]! - mean[t]!) * (profile[t]! - mean[t]!);
  }
  return { mean, squares };
}

/** The spread without one of its `n` profiles. */
export function withoutProfile({ mean, squares }: ProfileSpread, profile: Float64Array, n: number): ProfileSpread {
  return {
    mean: mean.map((m, t) => m - (profile[t]! - m) / (n - 1)),
    squares: squares.map((s, t) => Math.max(0, s - (n / (n - 1)) * (profile[t]! - mean[t]!) * (profile[t]! - mean[t]!))),
  };
}

/**
 * Likeness of `n` profiles, at least two, from their spread. The coefficient of multiple correlation is
 * sqrt(1 - [SS about the mean profile / (T (n - 1))] / [SS about the grand mean / (T n - 1)]) for profiles of T points (Kadaba et al. 1989, recalled).
 */
export function likenessOf({ mean, squares }: ProfileSpread, n: number): Likeness {
  const points = mean.length;
  let grand = 0;
  for (let t = 0; t < points; t++) grand += mean[t]! / points;
  let within = 0;
  let between = 0;
  let functionalSd = 0;
  for (let t = 0; t < points; t++) {
    within += squares[t]!;
    between += n * (mean[t]! - grand) * (mean[t]! - grand);
    functionalSd += Math.sqrt(squares[t]! / (n - 1)) / points;
  }
  const ratio = (within / (points * (n - 1))) * ((points * n - 1) / (within + between));
  return { functionalSd, multipleCorrelation: ratio < 1 ? Math.sqrt(1 - ratio) : 0 };
}
