import { show } from "../math/require.js";
import { createGroupCells } from "./cell/group-cells.js";
import { requireTally } from "./require-tally.js";
import type { Tally } from "./types.js";

/**
 * One tally of all the rows that others were made of: groups of the same labels become one, others stand beside each other. The result depends on the rows
 * alone, byte for byte: not on the order of the tallies, nor on how rows were shared out among them or among earlier merges.
 *
 * @param tallies - at least one, made with the same options by the same version; read one after another, so that an iterator over a file takes no more room than
 * the result
 * @returns the tally of the whole
 * @throws TypeError or RangeError if an entry is no tally, or its counts do not agree with each other; RangeError if there is none, or if two were made otherwise,
 * naming what differs
 * @see sums without rounding after Shewchuk 1997, recalled
 * @example
 * ```ts
 * const part = tally([], { by: { person: "a" } });
 * mergeTallies([part, part]).groups; // => []
 * mergeTallies([part, tally([], { unit: "deg", by: { person: "b" } })]); // => RangeError: options.unit is "deg"
 * ```
 */
export function mergeTallies(tallies: Iterable<Tally>): Tally {
  if (tallies === null || typeof tallies !== "object" || typeof tallies[Symbol.iterator] !== "function") {
    throw new TypeError(`mergeTallies: tallies must be a list or an iterator of tallies, got ${show(tallies)}`);
  }
  let header: Tally["header"] | undefined;
  let cells: ReturnType<typeof createGroupCells> | undefined;
  let at = 0;
  for (const part of tallies) {
    requireTally("mergeTallies", `tallies[${at}]`, part);
    header ??= part.header;
    requireAlike(header, part.header, at);
    cells ??= createGroupCells(header.options);
    for (const group of part.groups) cells.of(group.labels).merge(group);
    at++;
  }
  if (header === undefined || cells === undefined) throw new RangeError("mergeTallies: tallies must hold at least one tally, got none");
  return { header, groups: cells.close() };
}

function requireAlike(first: Tally["header"], other: Tally["header"], at: number): void {
  const differs = (what: string, mine: unknown, theirs: unknown): void => {
    const [a, b] = [JSON.stringify(mine), JSON.stringify(theirs)];
    if (a === b) return;
    throw new RangeError(
      `mergeTallies: tallies must be made alike, but ${what} is ${b} in tallies[${at}] and ${a} in tallies[0]; tally the rows of either anew`,
    );
  };
  differs("the library's version", first.version, other.version);
  for (const option of ["unit", "measures", "covariances", "edges", "labels"] as const) {
    differs(`options.${option}`, first.options[option], other.options[option]);
  }
}
