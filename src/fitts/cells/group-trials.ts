import type { PointingTrials } from "../types.js";

/** One pointing trial of a cell. */
export interface CellTrial {
  /** Its index among all trials. */
  readonly at: number;
  readonly along: number;
  readonly travelled: number;
  readonly movementTime: number;
  readonly hit: boolean;
}

/** The trials of one person, amplitude and width, in the order they were made. */
export interface TrialCell {
  readonly person: string;
  readonly amplitude: number;
  readonly width: number;
  readonly trials: readonly CellTrial[];
}

/** Sorts trials into cells, in the order of their first trials. Cost O(n). */
export function groupTrials({ amplitude, width, along, travelled, movementTime, hit, person }: PointingTrials): TrialCell[] {
  const cells = new Map<string, TrialCell & { readonly trials: CellTrial[] }>();
  for (let i = 0; i < along.length; i++) {
    const cell = { person: person?.[i] ?? "1", amplitude: amplitude[i]!, width: width[i]!, trials: [] };
    // numbers first: what follows them may be any text
    const key = `${cell.amplitude} ${cell.width} ${cell.person}`;
    const known = cells.get(key) ?? cell;
    cells.set(key, known);
    known.trials.push({
      at: i,
      along: along[i]!,
      travelled: travelled?.[i] ?? cell.amplitude + along[i]!,
      movementTime: movementTime[i]!,
      hit: hit ? hit[i] === 1 : Math.abs(along[i]!) <= cell.width / 2,
    });
  }
  return [...cells.values()];
}
