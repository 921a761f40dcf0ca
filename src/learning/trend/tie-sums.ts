/** Sums over the groups of equal values of a list, t values to a group, as Kendall's statistics need them. */
export interface TieSums {
  /** Pairs within groups: the sum of t(t - 1)/2. */
  readonly pairs: number;
  /** Sum of t(t - 1)(t - 2). */
  readonly triples: number;
  /** Sum of t(t - 1)(2t + 5). */
  readonly weighted: number;
}

/** The groups of equal neighbours (in every one of the columns): in an ascending list, all of its ties. */
export function tieSums(...columns: readonly Float64Array[]): TieSums {
  const n = columns[0]!.length;
  let pairs = 0;
  let triples = 0;
  let weighted = 0;
  for (let from = 0, to = 0; from < n; from = to) {
    while (to < n && columns.every((column) => column[to] === column[from])) to++;
    const t = to - from;
    pairs += (t * (t - 1)) / 2;
    triples += t * (t - 1) * (t - 2);
    weighted += t * (t - 1) * (2 * t + 5);
  }
  return { pairs, triples, weighted };
}
