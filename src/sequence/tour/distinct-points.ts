/** Points without repeats, in the order in which each place first comes. */
export interface DistinctPoints {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** For each place the numbers of the points that lie on it, rising. */
  readonly members: readonly (readonly number[])[];
}

/** Gathers points that lie on exactly the same place: they follow each other in a shortest way, at no cost. */
export function distinctPoints(x: Float64Array, y: Float64Array): DistinctPoints {
  const sorted = Uint32Array.from(x.keys()).sort((a, b) => x[a]! - x[b]! || y[a]! - y[b]! || a - b);
  const groups: number[][] = [];
  for (let i = 0; i < sorted.length; i++) {
    const point = sorted[i]!;
    const group = groups[groups.length - 1];
    if (group !== undefined && x[group[0]!] === x[point] && y[group[0]!] === y[point]) group.push(point);
    else groups.push([point]);
  }
  groups.sort((a, b) => a[0]! - b[0]!);
  return {
    x: Float64Array.from(groups, (group) => x[group[0]!]!),
    y: Float64Array.from(groups, (group) => y[group[0]!]!),
    members: groups,
  };
}
