import { requireLevel, requireObject, requireOneOf, show } from "../math/require.js";
import { VERSION } from "../math/version.js";
import { createGroupCells, keyOf } from "./cell/group-cells.js";
import { readJoint } from "./reading/read-joint.js";
import { type Reading, readMeasure } from "./reading/read-measure.js";
import { requireTally } from "./require-tally.js";
import type { GroupReading, MeasureReading, Tally, TallyGroup, TallyReading } from "./types.js";

const QUANTILES = [0.05, 0.25, 0.5, 0.75, 0.95];

/** Options of `readTally`. */
export interface ReadTallyOptions {
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. Higher makes them wider. */
  readonly level?: number;
  /** Shares of the values below the quantiles wanted, each above 0 and below 1, default 0.05, 0.25, 0.5, 0.75 and 0.95. More cost time. */
  readonly quantiles?: readonly number[];
  /** Labels of the tally to keep apart; groups that differ in others only become one. Default: all but `across`. Fewer make fewer, larger groups. */
  readonly by?: readonly string[];
  /**
   * What was drawn independently, and so bears the intervals. A label of the tally, such as the person or the session: one mean for each, an interval over these
   * means. `"row"`: the rows themselves, for groups of one person under like conditions; over several people or sessions such intervals are too narrow.
   * Default: none, and no intervals.
   */
  readonly across?: string;
}

/**
 * A tally in figures: mean, SD, quantiles, histogram, covariance and correlation of each measure in each group.
 *
 * Mean and SD are those of all rows, rounded once. A quantile comes with the ends between which that of the values themselves lies for certain, less than
 * 0.8 % apart (or 2e-9 about 0). Intervals are given only over units that `across` names, since rows of one person resemble each other: over the means of the units
 * by Student, or over the rows as `summarize` does.
 *
 * @param tally - of `tally` or `mergeTallies`, or the same after JSON
 * @param options - see `ReadTallyOptions`
 * @returns figures by group, in the order of their labels; a tally without rows has none
 * @throws TypeError or RangeError if `tally` is none, or its counts do not agree with each other, or if an option is out of range
 * @see sample moments, rule 7 of Hyndman and Fan, Student's interval: textbook forms, from memory
 * @example
 * ```ts
 * readTally(tally([])).groups; // => []
 * readTally(tally([]), { across: "person" }); // => RangeError: options.across must be one of "row"
 * ```
 */
export function readTally(tally: Tally, options: ReadTallyOptions = {}): TallyReading {
  requireTally("readTally", "tally", tally);
  const { header } = tally;
  const reading = resolveReading(options, header.options.labels);
  const { across, by } = reading;
  const units = across === null || across === "row" ? undefined : byWhole(regroup(tally, [...by, across]), by);
  return {
    header: { library: "aimed-movement", version: VERSION, schema: 1, options: reading, tally: header },
    groups: regroup(tally, by).map((group) => readGroup(group, units?.get(keyOf(by, group.labels)), header.options, reading)),
  };
}

function resolveReading(options: ReadTallyOptions, labels: readonly string[]): Reading {
  requireObject("readTally", "options", options);
  const { level = 0.95, quantiles = QUANTILES, across = null } = options;
  requireLevel("readTally", level);
  if (!Array.isArray(quantiles)) throw new TypeError(`readTally: options.quantiles must be a list of numbers, got ${show(quantiles)}`);
  quantiles.forEach((p, i) => {
    if (!(p > 0 && p < 1)) throw new RangeError(`readTally: options.quantiles[${i}] must be above 0 and below 1, got ${show(p)}`);
  });
  if (across !== null) requireOneOf("readTally", "options.across", across, ["row", ...labels]);
  const by = options.by ?? labels.filter((label) => label !== across);
  if (!Array.isArray(by)) throw new TypeError(`readTally: options.by must be a list of labels, got ${show(by)}`);
  by.forEach((label, i) => {
    requireOneOf(
      "readTally",
      `options.by[${i}]`,
      label,
      labels.filter((name) => name !== across),
    );
  });
  return { level, quantiles, by: labels.filter((label) => by.includes(label)), across };
}

/** The groups that are left when only some labels tell them apart. */
function regroup({ header, groups }: Tally, labels: readonly string[]): TallyGroup[] {
  const cells = createGroupCells({ ...header.options, labels });
  for (const group of groups) cells.of(group.labels).merge(group);
  return cells.close();
}

/** Groups of units under the labels of the group they belong to. */
function byWhole(units: readonly TallyGroup[], by: readonly string[]): Map<string, TallyGroup[]> {
  const lists = new Map<string, TallyGroup[]>();
  for (const unit of units) {
    const key = keyOf(by, unit.labels);
    const list = lists.get(key);
    if (list) list.push(unit);
    else lists.set(key, [unit]);
  }
  return lists;
}

function readGroup(
  group: TallyGroup,
  units: readonly TallyGroup[] | undefined,
  options: Tally["header"]["options"],
  reading: Reading,
): GroupReading {
  const { labels, n, outcomes, flags, pressedInMotion, measures, joint } = group;
  const figures = options.measures.map((name): [string, MeasureReading] => {
    const own = units?.map((unit) => unit.measures[name]!);
    return [name, readMeasure(name, measures[name]!, own, options, reading)];
  });
  return {
    labels,
    n,
    outcomes,
    flags,
    pressedInMotion,
    ...(units && { units: units.length }),
    measures: Object.fromEntries(figures) as GroupReading["measures"],
    joint: readJoint(joint, options.covariances),
  };
}
