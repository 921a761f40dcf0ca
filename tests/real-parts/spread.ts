// Where the values of a measure lie, for printing beside what others found.
import { quantile } from "../../src/math/quantile.js";

/** Quantiles by linear interpolation between order statistics, which is NumPy's default. */
export interface Spread {
  readonly n: number;
  readonly q10: number;
  readonly q25: number;
  readonly q50: number;
  readonly q75: number;
  readonly q90: number;
}

/** The spread of finite values; a value that is not finite is an error, as no measure may give one. */
export function spreadOf(values: readonly number[]): Spread {
  for (const value of values) if (!Number.isFinite(value)) throw new RangeError(`spreadOf: values must be finite, got ${value}`);
  const sorted = Float64Array.from(values).sort();
  const at = (p: number): number => quantile(sorted, p);
  return { n: values.length, q10: at(0.1), q25: at(0.25), q50: at(0.5), q75: at(0.75), q90: at(0.9) };
}

/** The spread in one line: `"n 304; 10, 25, 75, 90 %: 0.28, 0.41, 0.76, 0.83 s"`. */
export function describeSpread({ n, q10, q25, q75, q90 }: Spread, unit: string): string {
  const shown = [q10, q25, q75, q90].map((value) => String(Number(value.toPrecision(3)))).join(", ");
  return `n ${n}; 10, 25, 75, 90 %: ${shown}${unit === "1" ? "" : ` ${unit}`}`;
}

/** Mean over the persons' means, each person counting once. */
export function meanOfPersons<T extends { readonly person: string }>(rows: readonly T[], pick: (row: T) => number): number {
  const values = new Map<string, number[]>();
  for (const row of rows) values.set(row.person, [...(values.get(row.person) ?? []), pick(row)]);
  return mean([...values.values()].map(mean));
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Correlation of the ranks (Spearman); ties get their mean rank. */
export function rankCorrelation(a: readonly number[], b: readonly number[]): number {
  const [x, y] = [ranks(a), ranks(b)];
  const centre = (a.length + 1) / 2;
  let xy = 0;
  let xx = 0;
  let yy = 0;
  for (let i = 0; i < a.length; i++) {
    xy += (x[i]! - centre) * (y[i]! - centre);
    xx += (x[i]! - centre) ** 2;
    yy += (y[i]! - centre) ** 2;
  }
  return xy / Math.sqrt(xx * yy);
}

function ranks(values: readonly number[]): number[] {
  const order = values.map((_, i) => i).sort((i, j) => values[i]! - values[j]!);
  const found = new Array<number>(values.length);
  for (let from = 0; from < order.length; ) {
    let to = from;
    while (to < order.length && values[order[to]!] === values[order[from]!]) to++;
    for (let k = from; k < to; k++) found[order[k]!] = (from + to + 1) / 2;
    from = to;
  }
  return found;
}
