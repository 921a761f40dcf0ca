import type { Estimate } from "../math/estimate.js";
import type { FlagCounts, OutcomeCounts } from "../movement/summary/counts.js";
import type { Acquisition } from "../movement/types.js";
import type { TallyMeasure } from "./measures/measures.js";

/** Options of `tally`. */
export interface TallyOptions {
  /** Name of the length unit of the rows, default `"px"`. It labels the results, and tallies of different units do not merge. */
  readonly unit?: string;
  /**
   * What is tallied: measures of sessions (`acquisitionTime`, `hitShare`, `primaryTime`, `primaryError`, `correctionTime`, `verificationTime`, `latency`) and
   * columns of `toTable` that hold numbers. Default: those of sessions and `pressAfterStop`. More cost time and room in proportion.
   */
  readonly measures?: readonly TallyMeasure[];
  /**
   * Measures whose covariances are kept, over the rows that have all of them, at most 12 of `measures`. Default: those of the parts of an acquisition that
   * `measures` name. More cost time and room with their square.
   */
  readonly covariances?: readonly TallyMeasure[];
  /** Edges of histograms by measure, ascending; default none. A measure without edges has no histogram; more edges show more and take more room. */
  readonly edges?: Readonly<Partial<Record<TallyMeasure, readonly number[]>>>;
  /**
   * Labels that tell groups apart: for each its text for all rows, or a function that reads it from a row. Default none, one group. More labels make
   * more groups, of which each takes its room: `{ person: "a", session: "2026-03-01", block: (row) => row.block }`.
   */
  readonly by?: Readonly<Record<string, string | ((row: Acquisition) => string)>>;
}

/** Which group a row belongs to: one text for each label. */
export type Labels = Readonly<Record<string, string>>;

/** A sum without rounding: doubles that add up to it exactly, largest first; the first is the sum rounded, an empty list is 0. */
export type ExactSum = readonly number[];

/** One measure of a group. */
export interface MeasureTally {
  /** Rows with a value, and rows without. */
  readonly n: number;
  readonly missing: number;
  /** `null` without values. */
  readonly min: number | null;
  readonly max: number | null;
  readonly sum: ExactSum;
  readonly sumOfSquares: ExactSum;
  /** Bins of the quantile sketch that hold values, ascending, each with its count. */
  readonly bins: readonly (readonly [bin: number, count: number])[];
  /** Values below the first edge, from each edge to below the next, and from the last edge on. Absent without edges. */
  readonly histogram?: readonly number[];
}

/** Several measures of the rows that have all of them. */
export interface JointTally {
  readonly n: number;
  readonly sums: readonly ExactSum[];
  /** Of products of measure i with measure j, j <= i, row by row of the lower triangle. */
  readonly sumsOfProducts: readonly ExactSum[];
}

/** What was counted of the rows of one group. */
export interface TallyGroup {
  readonly labels: Labels;
  readonly n: number;
  readonly outcomes: OutcomeCounts;
  /** Rows that carry each flag, in alphabetical order; flags nobody carries are absent. */
  readonly flags: FlagCounts;
  readonly pressedInMotion: number;
  readonly measures: Readonly<Partial<Record<TallyMeasure, MeasureTally>>>;
  readonly joint: JointTally;
}

/** Rows in sums and counts that add up: those of parts make exactly those of the whole. Plain data. */
export interface Tally {
  readonly header: {
    readonly library: "aimed-movement";
    readonly version: string;
    readonly schema: 1;
    readonly options: {
      readonly unit: string;
      readonly measures: readonly TallyMeasure[];
      readonly covariances: readonly TallyMeasure[];
      readonly edges: Readonly<Partial<Record<TallyMeasure, readonly number[]>>>;
      /** Names of the labels, in alphabetical order. */
      readonly labels: readonly string[];
    };
    /** Of the quantile sketch: equal bins from each power of two to the next, and the size below which a value counts as 0. */
    readonly bins: { readonly perOctave: number; readonly smallest: number };
  };
  /** In the order of their labels. */
  readonly groups: readonly TallyGroup[];
}

/** A quantile from the sketch. */
export interface QuantileReading {
  /** Share of values below, in (0, 1). */
  readonly p: number;
  readonly estimate: Estimate;
  /** Ends between which the quantile of the values themselves lies for certain; `null` without values. */
  readonly within: readonly [number, number] | null;
}

/** One measure of a group in figures. */
export interface MeasureReading {
  readonly n: number;
  readonly missing: number;
  readonly min: number | null;
  readonly max: number | null;
  /** Over all rows; with an interval only where rows are the units. */
  readonly mean: Estimate;
  /** Between all rows, n - 1. */
  readonly sd: Estimate;
  readonly quantiles: readonly QuantileReading[];
  readonly histogram?: { readonly edges: readonly number[]; readonly counts: readonly number[] };
  /** Over one mean for each unit, every unit counting alike, with Student's interval; absent unless a label names the units. */
  readonly acrossUnits?: { readonly mean: Estimate; readonly sd: Estimate };
}

/** How measures vary together between the rows that have all of them. */
export interface JointReading {
  readonly measures: readonly TallyMeasure[];
  readonly n: number;
  /** Sample covariances (n - 1), in the product of the two units; `null` below two rows. */
  readonly covariance: readonly (readonly (number | null)[])[];
  readonly correlation: readonly (readonly Estimate[])[];
}

/** One group in figures. */
export interface GroupReading {
  readonly labels: Labels;
  readonly n: number;
  readonly outcomes: OutcomeCounts;
  readonly flags: FlagCounts;
  readonly pressedInMotion: number;
  /** How many units the rows come from; absent unless a label names the units. */
  readonly units?: number;
  readonly measures: Readonly<Partial<Record<TallyMeasure, MeasureReading>>>;
  readonly joint: JointReading;
}

/** A tally in figures. Plain data. */
export interface TallyReading {
  readonly header: {
    readonly library: "aimed-movement";
    readonly version: string;
    readonly schema: 1;
    readonly options: {
      readonly level: number;
      readonly quantiles: readonly number[];
      readonly by: readonly string[];
      /** `null` where no units were named. */
      readonly across: string | null;
    };
    /** Of the tally that was read. */
    readonly tally: Tally["header"];
  };
  readonly groups: readonly GroupReading[];
}
