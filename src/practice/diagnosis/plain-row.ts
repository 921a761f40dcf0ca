import { indexOfDifficulty } from "../../fitts/index-of-difficulty.js";
import type { Acquisition, Flag } from "../../movement/types.js";

/** Rows with these flags do not say where their time went, or not toward which standing target. */
const UNREADABLE: readonly Flag[] = [
  "missingData",
  "belowResolution",
  "noAxis",
  "noMovement",
  "movingTarget",
  "edge",
  "hidden",
  "gainChanged",
];

/** One acquisition in the numbers that a diagnosis needs; times in seconds, errors in widths of the target. */
export interface PlainRow {
  /** Time per part; they add up to the time from go to the deciding press. */
  readonly nextTarget: number;
  readonly primary: number;
  readonly correction: number;
  readonly stopAndPress: number;
  /** log2(A/W + 1), bits. */
  readonly difficulty: number;
  /** log2(|e|/W + 1) at the end of the primary and at the stop, bits, and whether the pointer was off the target there (1) or on it (0). */
  readonly primaryBits: number;
  readonly primaryOff: number;
  readonly stopBits: number;
  readonly stopOff: number;
  /** 1 when it follows another acquisition of the same trial, so that its latency runs from a press and not from the showing of the target. */
  readonly follows: number;
  /** Place within the session, 0 the first row, 1 the last. */
  readonly place: number;
  readonly corrections: number;
  /** 1 when the first press hit. */
  readonly hit: number;
  readonly source: Acquisition;
}

/** The readable rows of a session in order. */
export function plainRows(rows: readonly Acquisition[]): PlainRow[] {
  return rows.flatMap((row, i) => {
    const { budget, errors, amplitude, width } = row;
    if (amplitude === undefined || !(amplitude > 0) || !(width > 0) || errors.primary === undefined || errors.stop === undefined) return [];
    if (row.flags.some((flag) => UNREADABLE.includes(flag))) return [];
    return [
      {
        nextTarget: budget.latency,
        primary: budget.primary + budget.clutch,
        correction: budget.correction,
        stopAndPress: budget.verification + budget.recovery,
        difficulty: indexOfDifficulty(amplitude, width),
        primaryBits: Math.log2(errors.primary.radial / width + 1),
        primaryOff: errors.primary.inside ? 0 : 1,
        stopBits: Math.log2(errors.stop.radial / width + 1),
        stopOff: errors.stop.inside ? 0 : 1,
        follows: i > 0 && rows[i - 1]!.trial === row.trial ? 1 : 0,
        place: rows.length > 1 ? i / (rows.length - 1) : 0,
        corrections: row.corrections.length,
        hit: row.outcome === "hit" ? 1 : 0,
        source: row,
      },
    ];
  });
}

/** Error of the primary as a share of the distance, which scatter grows with. */
export function primaryErrorShare({ source }: PlainRow): number {
  return source.errors.primary!.radial / source.amplitude!;
}
