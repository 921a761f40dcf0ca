import { requireInteger, requireNumber, requireObject, show } from "../../math/require.js";
import { requireList } from "../../math/require-list.js";
import { type Axis, onAxis } from "./scale.js";

/** Places nearer to each other than this share of their range are one level: a staircase comes back to it but for rounding. */
const SAME = 1e-9;
const LARGEST_LEVEL = 1e100;

/** Hits at levels of difficulty, as equally long columns: a row a level, or a row a trial. */
export interface PsychometricData {
  /** Level of difficulty (width, time limit, speed, …); above 0 on the log scale. The same level may stand in several rows. */
  readonly levels: ArrayLike<number>;
  /** Hits in this row. */
  readonly hits: ArrayLike<number>;
  /** Trials in this row; absent: every row is one trial. */
  readonly trials?: ArrayLike<number>;
}

/** Counts at distinct places of the axis, ascending. */
export interface LevelCounts {
  /** The level as it was given, and its place. */
  readonly levels: Float64Array;
  readonly at: Float64Array;
  readonly trials: Float64Array;
  readonly hits: Float64Array;
}

/** Reads the rows and pools those of one level; rows without trials are left out. */
export function levelCounts(where: string, data: PsychometricData, axis: Axis): LevelCounts {
  requireObject(where, "data", data);
  const { levels, hits, trials } = data;
  requireList(where, "data.levels", levels);
  for (const [name, column] of Object.entries({ hits, trials })) {
    if (column === undefined && name === "trials") continue;
    requireList(where, `data.${name}`, column!);
    if (column!.length !== levels.length) {
      throw new RangeError(`${where}: data.${name} must have ${levels.length} entries like data.levels, got ${show(column!.length)}`);
    }
  }
  const rows = Array.from({ length: levels.length }, (_, i) => {
    if (axis.log) requireNumber(where, `data.levels[${i}]`, levels[i]!, 1 / LARGEST_LEVEL, LARGEST_LEVEL);
    else requireNumber(where, `data.levels[${i}]`, levels[i]!, -LARGEST_LEVEL, LARGEST_LEVEL);
    const n = trials === undefined ? 1 : trials[i]!;
    requireInteger(where, `data.trials[${i}]`, n, 0, 1e9);
    requireInteger(where, `data.hits[${i}]`, hits[i]!, 0, n);
    return { level: levels[i]!, at: onAxis(axis, levels[i]!), n, k: hits[i]! };
  }).filter(({ n }) => n > 0);
  return pool(rows.sort((a, b) => a.at - b.at));
}

function pool(rows: readonly { readonly level: number; readonly at: number; readonly n: number; readonly k: number }[]): LevelCounts {
  const hair = rows.length === 0 ? 0 : SAME * (rows.at(-1)!.at - rows[0]!.at);
  const levels: number[] = [];
  const at: number[] = [];
  const trials: number[] = [];
  const hits: number[] = [];
  for (const row of rows) {
    const last = at.length - 1;
    if (last >= 0 && row.at - at[last]! <= hair) {
      trials[last]! += row.n;
      hits[last]! += row.k;
    } else {
      levels.push(row.level);
      at.push(row.at);
      trials.push(row.n);
      hits.push(row.k);
    }
  }
  return { levels: Float64Array.from(levels), at: Float64Array.from(at), trials: Float64Array.from(trials), hits: Float64Array.from(hits) };
}
