import { countFlags, countOutcomes, type FlagCounts, type OutcomeCounts } from "../../movement/summary/counts.js";
import type { Acquisition, Flag } from "../../movement/types.js";
import type { Labels, Tally, TallyGroup } from "../types.js";
import { createJointCell } from "./joint-cell.js";
import { createMeasureCell } from "./measure-cell.js";

/** A group while it is counted. */
export interface GroupCell {
  /** Counts a row with the values of the measures in it. */
  add(row: Acquisition, values: readonly (number | undefined)[]): void;
  merge(part: TallyGroup): void;
  close(): TallyGroup;
}

/** An empty group. */
export function createGroupCell(labels: Labels, { measures, covariances, edges }: Tally["header"]["options"]): GroupCell {
  const cells = measures.map((name) => createMeasureCell(edges[name]));
  const joint = createJointCell(covariances.length);
  const columns = covariances.map((name) => measures.indexOf(name));
  const rows: Acquisition[] = [];
  let n = 0;
  let pressedInMotion = 0;
  let outcomes = countOutcomes([]);
  let flags: FlagCounts = {};
  return {
    add(row, values) {
      rows.push(row);
      cells.forEach((cell, i) => {
        cell.add(values[i]);
      });
      joint.add(columns.map((at) => values[at]));
    },
    merge(part) {
      n += part.n;
      outcomes = sumOf(outcomes, part.outcomes);
      flags = sumOf(flags, part.flags);
      pressedInMotion += part.pressedInMotion;
      cells.forEach((cell, i) => {
        cell.merge(part.measures[measures[i]!]!);
      });
      joint.merge(part.joint);
    },
    close: () => ({
      labels,
      n: n + rows.length,
      outcomes: sumOf(outcomes, countOutcomes(rows)),
      flags: sorted(sumOf(flags, countFlags(rows))),
      pressedInMotion: pressedInMotion + rows.filter((row) => row.pressedInMotion).length,
      measures: Object.fromEntries(measures.map((name, i) => [name, cells[i]!.close()])) as TallyGroup["measures"],
      joint: joint.close(),
    }),
  };
}

function sumOf<T extends OutcomeCounts | FlagCounts>(a: T, b: T): T {
  const sum: Record<string, number> = { ...a };
  for (const [name, count] of Object.entries(b)) sum[name] = (sum[name] ?? 0) + count;
  return sum as T;
}

function sorted(flags: FlagCounts): FlagCounts {
  const names = (Object.keys(flags) as Flag[]).sort();
  return Object.fromEntries(names.map((name) => [name, flags[name]]));
}
