import type { Labels, Tally, TallyGroup } from "../types.js";
import { createGroupCell, type GroupCell } from "./group-cell.js";

/** All groups of a tally while they are counted. */
export interface GroupCells {
  /** The group of these labels, made when it is first asked for. */
  of(labels: Labels): GroupCell;
  /** In the order of their labels. */
  close(): TallyGroup[];
}

/** No group as yet. */
export function createGroupCells(options: Tally["header"]["options"]): GroupCells {
  const cells = new Map<string, GroupCell>();
  return {
    of(labels) {
      const own = Object.fromEntries(options.labels.map((name) => [name, labels[name]!]));
      const key = keyOf(options.labels, own);
      const known = cells.get(key);
      if (known !== undefined) return known;
      const cell = createGroupCell(own, options);
      cells.set(key, cell);
      return cell;
    },
    close() {
      // by code units, so that every machine has the same order
      const keys = [...cells.keys()].sort();
      return keys.map((key) => cells.get(key)!.close());
    },
  };
}

/** One text for each set of labels. */
export function keyOf(names: readonly string[], labels: Labels): string {
  return JSON.stringify(names.map((name) => labels[name]));
}
