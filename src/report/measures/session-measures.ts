import type { Acquisition } from "../../movement/types.js";
import { hasMovement, hasPrimaryEnd } from "../../movement/unsound-rows.js";
import type { Part } from "../../practice/types.js";

/** One figure per session, by which periods are compared and learning is followed. */
export interface SessionMeasure {
  readonly name: string;
  /** What it measures, in words for a report. */
  readonly label: string;
  /** The part it belongs to; absent for the whole acquisition. */
  readonly part?: Part;
  readonly unit: string;
  readonly better: "lower" | "higher";
  /** Counted in percent of the level, or as a plain difference. */
  readonly kind: "percent" | "difference";
  /** Smallest change that matters: percent, or the unit. A choice. */
  readonly worthwhile: number;
  /** The figure of one row, `undefined` where the row has none. */
  readonly of: (row: Acquisition) => number | undefined;
  /** How the rows of a session become one figure. */
  readonly by: "mean" | "sd";
}

const when = (test: boolean, value: number | undefined): number | undefined => (test ? value : undefined);

/** The headline measure of the whole and of each part, whole first. */
export const SESSION_MEASURES: readonly SessionMeasure[] = [
  {
    name: "acquisitionTime",
    label: "time per acquisition",
    unit: "s",
    better: "lower",
    kind: "percent",
    worthwhile: 2,
    by: "mean",
    of: (row) => row.times.end - row.times.go,
  },
  {
    name: "hitShare",
    label: "share of first presses that hit",
    unit: "1",
    better: "higher",
    kind: "difference",
    worthwhile: 0.02,
    by: "mean",
    of: (row) => (row.outcome === "hit" ? 1 : 0),
  },
  {
    name: "primaryTime",
    label: "time of the primary movement",
    part: "primary",
    unit: "s",
    better: "lower",
    kind: "percent",
    worthwhile: 2,
    by: "mean",
    of: (row) => when(hasMovement(row), row.budget.primary),
  },
  {
    name: "primaryError",
    label: "error of the primary movement in target widths",
    part: "primary",
    unit: "W",
    better: "lower",
    kind: "percent",
    worthwhile: 5,
    by: "mean",
    of: (row) => when(hasPrimaryEnd(row) && row.errors.primary !== undefined, (row.errors.primary?.radial ?? 0) / row.width),
  },
  {
    name: "correctionTime",
    label: "time of corrections",
    part: "correction",
    unit: "s",
    better: "lower",
    kind: "difference",
    worthwhile: 0.01,
    by: "mean",
    of: (row) => when(hasMovement(row), row.budget.correction),
  },
  {
    name: "verificationTime",
    label: "time from stop to press",
    part: "stopAndPress",
    unit: "s",
    better: "lower",
    kind: "difference",
    worthwhile: 0.005,
    by: "mean",
    of: (row) => when(hasMovement(row) && row.times.press !== undefined, row.budget.verification),
  },
  {
    name: "pressTimingSd",
    label: "spread of the press about the stop",
    part: "stopAndPress",
    unit: "s",
    better: "lower",
    kind: "percent",
    worthwhile: 10,
    by: "sd",
    of: (row) => when(hasMovement(row), row.pressing?.afterStop),
  },
  {
    name: "latency",
    label: "response latency",
    part: "nextTarget",
    unit: "s",
    better: "lower",
    kind: "difference",
    worthwhile: 0.005,
    by: "mean",
    of: (row) => when(hasMovement(row), row.budget.latency),
  },
];
