import { linearRegression } from "../../math/linear-regression.js";
import type { PlainRow } from "./plain-row.js";

/** Columns with less spread than this about the means of their units are constant there. */
const CONSTANT = 1e-9;

/** A number of a row: what is to be foretold, or what foretells it. */
export type Reading = (row: PlainRow) => number;

/** What a row of the reference would be expected to show. */
export type Law = Reading;

/**
 * Least squares of `of` on `by` within units (the sessions of a person, or the people of a group): slopes from the rows less the means of their unit, so that
 * quick people with small errors do not bend them; the intercept leaves the units' mean residuals at 0 on average, every unit counting once.
 * A column that does not vary within the units, or is a combination of those before it, is left out. Cost O(rows columns^2).
 */
export function lawWithin(units: readonly (readonly PlainRow[])[], of: Reading, by: readonly Reading[]): Law {
  const columns = by.map((reading) => ({ reading, values: centred(units, reading) })).filter(({ values }) => spread(values) > CONSTANT);
  const y = centred(units, of);
  let kept = columns;
  let slopes: readonly number[] | undefined;
  while (kept.length > 0 && slopes === undefined) {
    slopes = linearRegression(
      kept.map(({ values }) => values),
      y,
    )?.coefficients.slice(1);
    if (slopes === undefined) kept = kept.slice(0, -1);
  }
  const sloped: Reading = (row) => kept.reduce((sum, { reading }, j) => sum + slopes![j]! * reading(row), 0);
  const intercept = meanOf(units.map((rows) => meanOf(rows.map((row) => of(row) - sloped(row)))));
  return (row) => intercept + sloped(row);
}

/** Arithmetic mean; NaN of nothing. */
export function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function centred(units: readonly (readonly PlainRow[])[], reading: Reading): number[] {
  return units.flatMap((rows) => {
    const values = rows.map(reading);
    const mean = meanOf(values);
    return values.map((value) => value - mean);
  });
}

function spread(values: readonly number[]): number {
  return values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
}
