// The recordings of fitts-1d as pointing trials: two vertical bars, endpoints and times, no paths. The table is described in its own README.
import type { PointingTrials } from "../../src/fitts/types.js";
import { sharedPath } from "../shared.js";
import { readTable } from "./read-table.js";

/** `all`: every row. `reversal`: rows that go from one bar to the other within a condition, so that start and distance are known. */
export type Selection = "all" | "reversal";

interface Row {
  readonly person: string;
  readonly presentation: string;
  readonly trial: number;
  readonly amplitude: number;
  readonly width: number;
  readonly time: number;
  readonly x: number;
  readonly target: number;
  readonly hit: number;
}

const HALF_SCREEN = 960;

/** The rows of the table, in its order; none when the folder is absent. */
export function fitts1dRows(): Row[] {
  const path = sharedPath("data", "fitts-1d", "trials.csv");
  if (path === undefined) return [];
  return readTable(path).map((row) => ({
    person: row.participant!,
    presentation: row.presentation!,
    trial: Number(row.trial),
    amplitude: Number(row.A),
    width: Number(row.W),
    time: Number(row.mt_ms) / 1000,
    x: Number(row.x),
    target: Number(row.targetX),
    hit: Number(row.hit),
  }));
}

/** Trials of one selection. `along` is positive beyond the centre in the direction of travel; without a known start that is outward from the middle of the screen. */
export function fitts1dTrials(rows: readonly Row[], selection: Selection): PointingTrials {
  const used = rows.flatMap((row, i) => {
    const before = rows[i - 1];
    const follows =
      before?.person === row.person && before.amplitude === row.amplitude && before.width === row.width && before.trial + 1 === row.trial;
    const reverses = follows && before.target !== row.target;
    if (selection === "reversal" && !reverses) return [];
    const direction = Math.sign(reverses ? row.target - before.target : row.target - HALF_SCREEN);
    return [{ ...row, along: direction * (row.x - row.target), travelled: reverses ? Math.abs(row.x - before.x) : row.amplitude }];
  });
  const column = (of: (row: (typeof used)[number]) => number): Float64Array => Float64Array.from(used, of);
  return {
    amplitude: column((row) => row.amplitude),
    width: column((row) => row.width),
    movementTime: column((row) => row.time),
    along: column((row) => row.along),
    travelled: column((row) => (selection === "reversal" ? row.travelled : row.amplitude)),
    hit: column((row) => row.hit),
    person: used.map((row) => row.person),
  };
}

/** Whether a row hits by the half-open box of the source: from -W/2 up to, not including, W/2. */
export function hitsHalfOpenBox({ x, target, width }: Row): boolean {
  return -width / 2 <= x - target && x - target < width / 2;
}
