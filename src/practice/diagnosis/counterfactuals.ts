import type { Estimate } from "../../math/estimate.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { quantile } from "../../math/quantile.js";
import type { Offset } from "../../movement/types.js";
import type { Counterfactual } from "../types.js";
import { meanOf } from "./law-within.js";
import type { PlainRow } from "./plain-row.js";

/** Classes of primary error, equally frequent in the reference. */
const CLASSES = 5;

/** Hits at the first press: sessions are the units, the interval kept within 0 and 1. */
export function hitShare(sessions: readonly (readonly PlainRow[])[], level: number): Estimate {
  return shareOf(sessions, (row) => row.hit, level);
}

/** How often the first press would have hit with one thing as in the reference, as ideal, or away. Cost O(rows log rows). */
export function counterfactuals(
  sessions: readonly (readonly PlainRow[])[],
  reference: readonly (readonly PlainRow[])[],
  level: number,
): readonly Counterfactual[] {
  const others = reference.flat();
  const weight = likeReference(sessions.flat(), others);
  const gain = usualGain(sessions.flat());
  return [
    {
      change: "primaryError",
      hitShare:
        others.length < CLASSES
          ? { ok: false, why: "tooFew", unit: "1", n: sessions.length }
          : shareOf(sessions, (row) => weight(row) * row.hit, level),
    },
    {
      change: "correctiveGain",
      hitShare: shareOf(sessions, (row) => row.hit + inside(withGain(row, gain), row) - inside(withGain(row, 1), row), level),
    },
    {
      change: "slip",
      hitShare: shareOf(sessions, (row) => row.hit + inside(row.source.errors.stop, row) - inside(row.source.errors.press, row), level),
    },
  ];
}

/** Weights that give the person's rows the reference's mix of primary errors, in fifths of the reference; a fifth the person never meets is left out. */
function likeReference(rows: readonly PlainRow[], reference: readonly PlainRow[]): (row: PlainRow) => number {
  const sorted = Float64Array.from(reference, (row) => row.primaryBits).sort();
  const edges = Array.from({ length: CLASSES - 1 }, (_, i) => quantile(sorted, (i + 1) / CLASSES));
  const classOf = (row: PlainRow): number => edges.filter((edge) => row.primaryBits > edge).length;
  const counts = Array.from({ length: CLASSES }, (_, c) => rows.filter((row) => classOf(row) === c).length);
  const met = counts.filter((count) => count > 0).length;
  return (row) => rows.length / (met * counts[classOf(row)]!);
}

/** Share of the error that a correction removes, over those that were needed: least squares through the origin along the error, each gain weighed by its error squared. */
function usualGain(rows: readonly PlainRow[]): number {
  const needed = rows.flatMap((row) => row.source.corrections.filter((one) => !one.unnecessary && one.gain !== undefined));
  const weight = (radial: number): number => radial * radial;
  const sum = needed.reduce((total, one) => total + weight(one.errorBefore.radial), 0);
  return sum > 0 ? needed.reduce((total, one) => total + (weight(one.errorBefore.radial) / sum) * one.gain!, 0) : 1;
}

/** Where the press would have been had the last correction removed its share at a usual gain of 1; as it was without a correction. */
function withGain(row: PlainRow, gain: number): Offset | undefined {
  const { errors, corrections } = row.source;
  const last = corrections.at(-1);
  const press = errors.press;
  if (press?.along === undefined || press.across === undefined) return press;
  if (last === undefined || last.errorBefore.along === undefined || last.errorBefore.across === undefined) return press;
  const along = press.along - (1 - gain) * last.errorBefore.along;
  const across = press.across - (1 - gain) * last.errorBefore.across;
  const radial = Math.sqrt(along * along + across * across);
  return { along, across, radial, inside: radial <= row.source.width / 2 };
}

function inside(at: Offset | undefined, row: PlainRow): number {
  // by the width along the approach, on both sides of a change alike
  return at !== undefined && at.radial <= row.source.width / 2 ? 1 : 0;
}

function shareOf(sessions: readonly (readonly PlainRow[])[], of: (row: PlainRow) => number, level: number): Estimate {
  const found = meanEstimate(
    sessions.map((rows) => meanOf(rows.map(of))),
    "1",
    level,
  );
  if (!found.ok || found.interval === undefined) return found;
  const within = (share: number): number => Math.min(1, Math.max(0, share));
  return { ...found, value: within(found.value), interval: [within(found.interval[0]), within(found.interval[1])] };
}
