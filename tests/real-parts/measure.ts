// A measure over many movements as one printed figure: its median, with the other quantiles and the literature's range in the words beside it.
import type { Estimate } from "../../src/math/estimate.js";
import type { Figure, Outcome } from "../validation/figure.js";
import { describeSpread, spreadOf } from "./spread.js";

/** What is read off each movement, and what others found. */
export interface Measure<Row> {
  readonly name: string;
  readonly unit: string;
  /** No, one or several values of a movement. */
  readonly of: (row: Row) => number | undefined | readonly number[];
  /** Range known from elsewhere, with its source. */
  readonly known?: string;
}

/** All values of a measure. */
export function valuesOf<Row>(rows: readonly Row[], { of }: Pick<Measure<Row>, "of">): number[] {
  return rows.flatMap((row) => of(row) ?? []);
}

/** The median as a figure that is only printed. */
export function distributionFigure<Row>(rows: readonly Row[], measure: Measure<Row>, source: string): Outcome {
  const spread = spreadOf(valuesOf(rows, measure));
  const literature = measure.known === undefined ? "" : `; literature: ${measure.known}`;
  if (spread.n === 0) throw new Error(`${measure.name}: no movement has a value`);
  return {
    name: `${measure.name}, median`,
    value: spread.q50,
    bar: `printed; ${describeSpread(spread, measure.unit)}${literature}`,
    ok: true,
    source,
  };
}

/** A share as a figure that is only printed. */
export function shareFigure<Row>(name: string, rows: readonly Row[], test: (row: Row) => boolean, source: string, known?: string): Outcome {
  const value = rows.length === 0 ? 0 : rows.filter(test).length / rows.length;
  return { name, value, bar: `printed; of ${rows.length}${known === undefined ? "" : `; literature: ${known}`}`, ok: true, source };
}

/** A figure that is only printed. */
export function printed(name: string, value: number, note: string, source: string): Figure {
  return { name, value, bar: `printed; ${note}`, ok: true, source };
}

/** The value of an estimate that must have one. */
export function estimated(estimate: Estimate): number {
  if (!estimate.ok) throw new Error(`no value: ${JSON.stringify(estimate)}`);
  return estimate.value;
}
