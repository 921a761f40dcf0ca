import { BINS_PER_OCTAVE, SMALLEST } from "../math/quantile-bins.js";
import { requireObject, show } from "../math/require.js";
import { VERSION } from "../math/version.js";
import type { Acquisition } from "../movement/types.js";
import { createGroupCells } from "./cell/group-cells.js";
import { createReader } from "./measures/measures.js";
import { resolveOptions } from "./measures/resolve-options.js";
import type { Labels, Tally, TallyOptions } from "./types.js";

/** Beyond this size squares would overflow; below its inverse they would vanish. */
const LARGEST = 1e140;

/**
 * Acquisition rows in sums and counts that add up: tallies of parts, merged by `mergeTallies` in any order, are byte for byte the tally of the whole. Per
 * group and measure: number of values and of rows without, range, sum and sum of squares without rounding, a quantile sketch, a histogram; outcomes,
 * flags, covariances. A row counts for a measure where `summarize` would count it. `readTally` makes figures of it.
 *
 * Time is proportional to the rows, room to groups and measures, whatever the number of rows.
 *
 * @param rows - rows of `analyze` or of an analyzer, in any order; none gives a tally without groups, which merges with others
 * @param options - see `TallyOptions`
 * @returns plain data, the same after JSON
 * @throws TypeError if `rows` or an option has the wrong type; RangeError if an option is out of range, or a row has a value that is not finite or beyond 1e140 in size (below 1e-140 it is taken as 0)
 * @see sums without rounding after Shewchuk 1997, bins after Masson, Rim and Lee 2019 (DDSketch), both recalled
 * @example
 * ```ts
 * tally([], { by: { person: "a" } }).groups; // => []
 * ```
 */
export function tally(rows: readonly Acquisition[], options: TallyOptions = {}): Tally {
  if (!Array.isArray(rows)) throw new TypeError(`tally: rows must be an array of acquisitions, got ${show(rows)}`);
  const resolved = resolveOptions(options);
  const { measures, labels } = resolved;
  const read = createReader(measures);
  const cells = createGroupCells(resolved);
  for (const [at, row] of (rows as readonly Acquisition[]).entries()) {
    requireObject("tally", `rows[${at}]`, row);
    const values = read(row).map((value, i) => (value === undefined ? undefined : countable(value, measures[i]!, at)));
    cells.of(labelsOf(row, labels, options.by ?? {}, at)).add(row, values);
  }
  return {
    header: {
      library: "aimed-movement",
      version: VERSION,
      schema: 1,
      options: resolved,
      bins: { perOctave: BINS_PER_OCTAVE, smallest: SMALLEST },
    },
    groups: cells.close(),
  };
}

/** The value, 0 where its square would vanish. */
function countable(value: number, measure: string, at: number): number {
  const size = Math.abs(value);
  if (size <= LARGEST) return size < 1 / LARGEST ? 0 : value;
  throw new RangeError(`tally: ${measure} of rows[${at}] must be finite and at most ${LARGEST} in size, got ${show(value)}`);
}

function labelsOf(row: Acquisition, names: readonly string[], by: NonNullable<TallyOptions["by"]>, at: number): Labels {
  return Object.fromEntries(
    names.map((name) => {
      const given = by[name]!;
      const label = typeof given === "function" ? given(row) : given;
      if (typeof label !== "string") throw new TypeError(`tally: options.by.${name} of rows[${at}] must be a text, got ${show(label)}`);
      return [name, label];
    }),
  );
}
