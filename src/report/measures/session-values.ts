import { indexOfDifficulty } from "../../fitts/index-of-difficulty.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import type { Acquisition } from "../../movement/types.js";
import type { SessionMeasure } from "./session-measures.js";

/** Fewest rows of a session that make a mean, and a spread. */
const ROWS_FOR_MEAN = 10;
const ROWS_FOR_SPREAD = 20;

interface Point {
  readonly id: number;
  readonly value: number;
}

/**
 * One figure per session, at the same difficulty: sessions differ in how far and how small their targets are, which is no change of skill. Analysis of
 * covariance: v = session + b (ID - mean ID), ID = log2(A/W + 1), b pooled within sessions, every session's mean taken at the mean ID of all. `undefined`
 * where a session has too few rows. Spreads are those about the law.
 */
export function sessionValues(sessions: readonly (readonly Acquisition[])[], measure: SessionMeasure): (number | undefined)[] {
  const points = sessions.map((rows) => rows.flatMap((row) => pointOf(row, measure)));
  const enough = measure.by === "sd" ? ROWS_FOR_SPREAD : ROWS_FOR_MEAN;
  const used = points.filter(({ length }) => length >= enough);
  const slope = pooledSlope(used);
  const middle = meanAndSd(used.flat().map(({ id }) => id)).mean;
  return points.map((session) => {
    if (session.length < enough) return undefined;
    const { mean, sd } = meanAndSd(session.map(({ id, value }) => value - slope * (id - middle)));
    return measure.by === "sd" ? sd : mean;
  });
}

function pointOf(row: Acquisition, measure: SessionMeasure): Point[] {
  const value = measure.of(row);
  if (value === undefined || row.amplitude === undefined) return [];
  return [{ id: indexOfDifficulty(row.amplitude, row.width), value }];
}

/** Slope of value on difficulty within sessions; 0 where difficulty does not vary. */
function pooledSlope(sessions: readonly (readonly Point[])[]): number {
  let products = 0;
  let squares = 0;
  for (const session of sessions) {
    const id = meanAndSd(session.map((point) => point.id)).mean;
    const value = meanAndSd(session.map((point) => point.value)).mean;
    for (const point of session) {
      products += (point.id - id) * (point.value - value);
      squares += (point.id - id) ** 2;
    }
  }
  return squares > 1e-9 ? products / squares : 0;
}
