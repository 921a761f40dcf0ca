import { meanAndSd } from "../../math/mean-and-sd.js";
import { robustSd } from "../../math/robust-sd.js";
import type { Acquisition, Flag } from "../../movement/types.js";

/** Fewer movements than this give no scatter to test against. */
const FEWEST = 20;
/** More end points than this make the expected share no better, and take longer. */
const MOST = 400;
/** Rows with these flags have no end point that an aim explains. */
const SPOILT: readonly Flag[] = [
  "missingData",
  "belowResolution",
  "noAxis",
  "noMovement",
  "clutch",
  "movingTarget",
  "edge",
  "hidden",
  "gainChanged",
];

/** End points that the person's scatter is judged by. */
export type Ending = "primary" | "press";

/** An end point in the frame of the movement, in units of what its scatter grows with: the amplitude for the primary, the width for the press. */
export interface ScaledError {
  readonly along: number;
  readonly across: number;
}

/** Scatter of movements that nothing but their own target could have drawn. */
export interface OwnScatter {
  /** Number of them. */
  readonly n: number;
  /** As many as are used, evenly picked; empty under 20. */
  readonly errors: readonly ScaledError[];
  /** Standard deviations, from all rows (robust ones) when there are too few such movements; `undefined` when nothing is known. */
  readonly sd: ScaledError | undefined;
}

/** Scatter of the single movements; `others` stand in for the standard deviations when these are too few. */
export function ownScatter(singles: readonly Acquisition[], others: readonly Acquisition[], ending: Ending): OwnScatter {
  const errors = singles.flatMap((row) => scaledError(row, ending) ?? []);
  const n = errors.length;
  if (n >= FEWEST) {
    const sd = { along: meanAndSd(errors.map(({ along }) => along)).sd, across: meanAndSd(errors.map(({ across }) => across)).sd };
    return { n, errors: evenly(errors, MOST), sd };
  }
  const all = others.flatMap((row) => scaledError(row, ending) ?? []);
  if (all.length < FEWEST) return { n, errors: [], sd: undefined };
  return { n, errors: [], sd: { along: robustSd(all.map(({ along }) => along)), across: robustSd(all.map(({ across }) => across)) } };
}

/** What an ending's scatter is measured in for this row. */
export function scaleOf({ amplitude, width }: Acquisition, ending: Ending): number | undefined {
  return ending === "primary" ? amplitude : width;
}

/** Whether the row's end points can be explained by an aim. */
export function isAimed(row: Acquisition): boolean {
  return !row.flags.some((flag) => SPOILT.includes(flag));
}

function scaledError(row: Acquisition, ending: Ending): ScaledError | undefined {
  const { along, across } = row.errors[ending] ?? {};
  const scale = scaleOf(row, ending);
  if (along === undefined || across === undefined || scale === undefined || !isAimed(row)) return undefined;
  return { along: along / scale, across: across / scale };
}

function evenly<T>(items: readonly T[], most: number): readonly T[] {
  if (items.length <= most) return items;
  return Array.from({ length: most }, (_, k) => items[Math.floor(((k + 0.5) * items.length) / most)]!);
}
