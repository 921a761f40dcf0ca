import { type AxisErrors, axisErrors } from "../endpoints/axis-errors.js";
import type { Estimate } from "../math/estimate.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { meanEstimate } from "../math/mean-estimate.js";
import { proportionEstimate } from "../math/proportion-estimate.js";
import { rmsEstimate } from "../math/rms-estimate.js";
import type { Acquisition, Offset } from "./types.js";

export type { AxisErrors } from "../endpoints/axis-errors.js";

/** Errors of a set of endpoints about their targets. */
export interface ErrorSummary {
  /** Endpoints used. */
  readonly n: number;
  /** Rows without such an endpoint, or left out for a flag that spoils it. */
  readonly leftOut: number;
  readonly along: AxisErrors;
  readonly across: AxisErrors;
  /** Distances from the centre: mean, distance of the mean endpoint (bias), root mean squared distance from it (spread), and about the centre. */
  readonly radial: { readonly mean: Estimate; readonly centroid: Estimate; readonly bivariateVariable: Estimate; readonly total: Estimate };
  /** Share of endpoints on the target. */
  readonly onTarget: Estimate;
  /** Shares that ended more than half a target width before the centre, and beyond it. */
  readonly undershoot: Estimate;
  readonly overshoot: Estimate;
}

/** Summarises one kind of endpoint of the rows. */
export function summarizeErrors(
  rows: readonly Acquisition[],
  pick: (row: Acquisition) => Offset | undefined,
  unit: string,
  level: number,
): ErrorSummary {
  const ends = rows.flatMap((row) => {
    const offset = pick(row);
    return offset === undefined ? [] : [{ offset, half: row.width / 2 }];
  });
  const aimed = ends.filter((end) => end.offset.along !== undefined);
  const along = aimed.map((end) => end.offset.along ?? 0);
  const across = aimed.map((end) => end.offset.across ?? 0);
  const count = (test: (end: (typeof aimed)[number]) => boolean): Estimate =>
    proportionEstimate(aimed.filter(test).length, aimed.length, level);
  return {
    n: ends.length,
    leftOut: rows.length - ends.length,
    along: axisErrors(along, unit, level),
    across: axisErrors(across, unit, level),
    radial: radialErrors(
      ends.map((end) => end.offset.radial),
      along,
      across,
      unit,
      level,
    ),
    onTarget: proportionEstimate(ends.filter((end) => end.offset.inside).length, ends.length, level),
    undershoot: count((end) => (end.offset.along ?? 0) < -end.half),
    overshoot: count((end) => (end.offset.along ?? 0) > end.half),
  };
}

/** Hancock, Butler and Fischman 1995 (recalled): mean radial, centroid radial and bivariate variable error. */
function radialErrors(
  radial: readonly number[],
  along: readonly number[],
  across: readonly number[],
  unit: string,
  level: number,
): ErrorSummary["radial"] {
  const n = along.length;
  const few: Estimate = { ok: false, why: "tooFew", unit, n };
  const length = (a: number, b: number): Estimate => (n < 2 ? few : { ok: true, value: Math.sqrt(a * a + b * b), unit, n });
  const [one, other] = [meanAndSd(along), meanAndSd(across)];
  // with 1/n, so that squares of bias and spread add up to the mean square
  const population = Math.sqrt((n - 1) / n);
  return {
    mean: meanEstimate(radial, unit, level),
    centroid: length(one.mean, other.mean),
    bivariateVariable: length(one.sd * population, other.sd * population),
    total: rmsEstimate(radial, unit, level),
  };
}
