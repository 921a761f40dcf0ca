import type { Part } from "../types.js";
import {
  BETWEEN_BREAKS_MINUTES,
  BETWEEN_SITTINGS_MINUTES,
  BREAK_MINUTES,
  LONG_DAY_MINUTES,
  LONGEST_STRETCH_MINUTES,
  MIXED_STRETCH_MINUTES,
  SHORTEST_MINUTES,
  UNITS_PER_MINUTE,
} from "./limits.js";
import type { Shares } from "./share-minutes.js";

/** One stretch of the day, in half minutes: a part, all together, a break, or the hours between two sittings. */
export interface Stretch {
  readonly kind: Part | "combined" | "break" | "pause";
  readonly units: number;
}

/** Puts the shares of a day in order: parts, then all together; a long day in two sittings; a break before practice without one gets too long. */
export function layOut(shares: Shares, mixed: boolean): Stretch[] {
  const total = shares.parts.reduce((sum, one) => sum + one.units, shares.combined);
  const sittings = total > LONG_DAY_MINUTES * UNITS_PER_MINUTE ? divideDay(shares) : [shares];
  return sittings.flatMap((sitting, i) => [
    ...(i > 0 ? [{ kind: "pause" as const, units: BETWEEN_SITTINGS_MINUTES * UNITS_PER_MINUTE }] : []),
    ...withBreaks([...partStretches(sitting, mixed), ...pieces("combined", sitting.combined, LONGEST_STRETCH_MINUTES, Math.ceil)]),
  ]);
}

/** Halves every share; what would fall below the shortest stretch stays whole, in turns in the one or the other sitting. */
function divideDay({ parts, combined }: Shares): [Shares, Shares] {
  let whole = 0;
  const halves = parts.map(({ part, units }) => {
    const divided = units >= 2 * SHORTEST_MINUTES * UNITS_PER_MINUTE;
    const first = divided ? Math.ceil(units / 2) : units * (1 - (whole++ % 2));
    return { part, first, second: units - first };
  });
  const sitting = (which: "first" | "second", rest: number): Shares => ({
    parts: halves.flatMap((half) => (half[which] > 0 ? [{ part: half.part, units: half[which] }] : [])),
    combined: rest,
  });
  const half = Math.floor(combined / 2);
  return [sitting("first", half), sitting("second", combined - half)];
}

function partStretches(shares: Shares, mixed: boolean): Stretch[] {
  return mixed
    ? mixedStretches(shares)
    : shares.parts.flatMap(({ part, units }) => pieces(part, units, LONGEST_STRETCH_MINUTES, Math.ceil));
}

/** Every part spread over the whole time. A part with more minutes than the others stands between them, and never twice in a row. */
function mixedStretches({ parts }: Shares): Stretch[] {
  const longer = parts.length > 1 && parts[0]!.units > parts[1]!.units ? parts[0] : undefined;
  const alike = longer ? parts.slice(1) : parts;
  const placed = alike.flatMap(({ part, units }, i) =>
    pieces(part, units, MIXED_STRETCH_MINUTES, Math.round).map((stretch, j, all) => ({
      stretch,
      at: (j + (i + 0.5) / alike.length) / all.length,
    })),
  );
  const others = placed.sort((a, b) => a.at - b.at).map(({ stretch }, i) => ({ stretch, at: (i + 1) / (placed.length + 1) }));
  if (longer === undefined) return others.map(({ stretch }) => stretch);
  const most = others.length + 1;
  const between = pieces(longer.part, longer.units, MIXED_STRETCH_MINUTES, (count) => Math.min(most, Math.round(count))).map(
    (stretch, j, all) => ({ stretch, at: (j + 0.5) / all.length }),
  );
  return [...between, ...others].sort((a, b) => a.at - b.at).map(({ stretch }) => stretch);
}

/** Divides a stretch into equal pieces of about `minutes`, to the half minute. */
function pieces(kind: Stretch["kind"], units: number, minutes: number, toWhole: (share: number) => number): Stretch[] {
  const count = Math.max(1, toWhole(units / (minutes * UNITS_PER_MINUTE)));
  return Array.from({ length: count }, (_, i) => ({ kind, units: Math.floor((units + i) / count) }));
}

function withBreaks(stretches: readonly Stretch[]): Stretch[] {
  let since = 0;
  return stretches.flatMap((stretch) => {
    const tired = since > 0 && since + stretch.units > BETWEEN_BREAKS_MINUTES * UNITS_PER_MINUTE;
    since = tired ? stretch.units : since + stretch.units;
    return tired ? [{ kind: "break" as const, units: BREAK_MINUTES * UNITS_PER_MINUTE }, stretch] : [stretch];
  });
}
