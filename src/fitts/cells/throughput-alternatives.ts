import { type SpreadCell, slopeWithin } from "./trade-off.js";

/** Other numbers that go by the name of throughput, bit/s; `null` where they have no value. */
export interface ThroughputAlternatives {
  /** Mean over people of 1/b, b the slope of MT on effective difficulty: ignores the intercept. */
  readonly inverseSlope: number | null;
  /** Mean over people of mean difficulty over mean time: weighs slow cells more. */
  readonly ratioOfMeans: number | null;
  /** Grand mean difficulty over grand mean time: weighs slow people more, too. */
  readonly ratioOfGrandMeans: number | null;
}

export function throughputAlternatives(people: readonly (readonly SpreadCell[])[]): ThroughputAlternatives {
  const slopes = people.map((cells) => slopeWithin([cells]));
  return {
    inverseSlope: meanOf(slopes.map((slope) => (slope === null || slope <= 0 ? null : 1 / slope))),
    ratioOfMeans: meanOf(people.map(ratioOfMeans)),
    ratioOfGrandMeans: ratioOfMeans(people.flat()),
  };
}

/** Mean of the values, or `null` when there are none or one is missing. */
function meanOf(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 || known.length < values.length ? null : known.reduce((sum, value) => sum + value, 0) / known.length;
}

function ratioOfMeans(cells: readonly SpreadCell[]): number | null {
  if (cells.length === 0) return null;
  const sum = (of: (cell: SpreadCell) => number): number => cells.reduce((total, cell) => total + of(cell), 0);
  return sum((cell) => cell.effectiveDifficulty) / sum((cell) => cell.movementTime);
}
