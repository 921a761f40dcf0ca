import type { PointingCell } from "../types.js";

/** How throughput would move if the person traded speed for accuracy along the line MT = a + b IDe of these cells. */
export interface TradeOff {
  /** Intercept a of that line, seconds, and its slope b, seconds per bit, both within people. */
  readonly intercept: number;
  readonly slope: number;
  /** Predicted throughput over today's with endpoints two thirds as spread (slower), and one and a half times as spread (faster). */
  readonly narrower: number;
  readonly wider: number;
}

/** A moderate change of strategy: endpoints spread by this factor more or less, about 0.6 bit. */
const FACTOR = 1.5;

/** A cell that has an effective difficulty. */
export type SpreadCell = PointingCell & { readonly effectiveDifficulty: number; readonly throughput: number };

/**
 * Fits MT = a + b IDe within people (each person's own means taken out) and follows it to other spreads. With a = 0 throughput is 1/b wherever
 * the person stands on the line; with a > 0 it grows with difficulty. `null` when no line can be fitted or it does not rise.
 */
export function tradeOff(people: readonly (readonly SpreadCell[])[]): TradeOff | null {
  const slope = slopeWithin(people);
  if (slope === null || slope <= 0) return null;
  const cells = people.flat();
  const mean = (of: (cell: SpreadCell) => number): number => cells.reduce((sum, cell) => sum + of(cell), 0) / cells.length;
  const intercept = mean((cell) => cell.movementTime) - slope * mean((cell) => cell.effectiveDifficulty);
  const predicted = (factor: number): number =>
    mean(({ effectiveDifficulty: difficulty }) => {
      const there = Math.log2((2 ** difficulty - 1) * factor + 1);
      return there / (intercept + slope * there);
    });
  const [here, narrower, wider] = [predicted(1), predicted(FACTOR), predicted(1 / FACTOR)];
  // a line that reaches below no time at all says nothing there
  const lowest = cells.reduce((least, cell) => Math.min(least, cell.effectiveDifficulty), Number.POSITIVE_INFINITY);
  const easiest = Math.log2((2 ** lowest - 1) / FACTOR + 1);
  if (!(intercept + slope * easiest > 0)) return null;
  return { intercept, slope, narrower: narrower / here, wider: wider / here };
}

/** Slope of MT on effective difficulty with each person's own means taken out; `null` with too few cells. */
export function slopeWithin(people: readonly (readonly SpreadCell[])[]): number | null {
  let products = 0;
  let squares = 0;
  for (const cells of people) {
    const meanTime = cells.reduce((sum, cell) => sum + cell.movementTime, 0) / cells.length;
    const meanDifficulty = cells.reduce((sum, cell) => sum + cell.effectiveDifficulty, 0) / cells.length;
    for (const cell of cells) {
      const apart = cell.effectiveDifficulty - meanDifficulty;
      products += apart * (cell.movementTime - meanTime);
      squares += apart * apart;
    }
  }
  const enough = people.reduce((sum, cells) => sum + cells.length - 1, 0) >= 2;
  return enough && squares > 1e-9 ? products / squares : null;
}
