import type { Estimate } from "../../math/estimate.js";
import type { ChangeKind } from "./comparison.js";

/** Where a change is worked out (logarithms for `percent`), and the way back. */
export interface ChangeScale {
  /** Unit of a change. */
  readonly unit: string;
  /** A session value on the scale of the work. */
  readonly value: (value: number) => number;
  /** A level from that scale in the unit of the measure. */
  readonly level: (value: number) => number;
  /** A change from that scale in its own unit. */
  readonly change: (change: number) => number;
  /** A change in its own unit on that scale. */
  readonly onScale: (change: number) => number;
  /** A standard deviation from that scale in the unit of a change. */
  readonly spread: (sd: number) => number;
}

export function changeScale(kind: ChangeKind, unit: string): ChangeScale {
  const same = (value: number): number => value;
  if (kind === "difference") return { unit, value: same, level: same, change: same, onScale: same, spread: same };
  const percent = (log: number): number => 100 * Math.expm1(log);
  return { unit: "%", value: Math.log, level: Math.exp, change: percent, onScale: (share) => Math.log1p(share / 100), spread: percent };
}

/** An estimate with its value and interval carried over by a rising function. */
export function carried(estimate: Estimate, to: (value: number) => number, unit: string): Estimate {
  if (!estimate.ok) return { ...estimate, unit };
  const { interval, level, ...rest } = estimate;
  const there = { ...rest, value: to(estimate.value) + 0, unit };
  const ends = interval && carriedPair(interval, to);
  return ends === undefined || level === undefined ? there : { ...there, interval: ends, level };
}

/** Both ends, without a negative zero; `undefined` where one does not fit into a double, as a share may when sessions are few and far apart. */
export function carriedPair([low, high]: readonly [number, number], to: (value: number) => number): readonly [number, number] | undefined {
  const ends = [to(low) + 0, to(high) + 0] as const;
  return ends.every(Number.isFinite) ? ends : undefined;
}
