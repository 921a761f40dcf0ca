import type { PsychometricShape } from "./shapes.js";

/** Which axis the function is fitted on: the level or its logarithm, turned round where larger levels are harder, so that hits always rise. */
export interface Axis {
  readonly log: boolean;
  readonly turned: boolean;
}

/** The axis of these options; a Weibull function lives on logarithms. */
export function axisOf(scale: "log" | "linear", harder: "down" | "up", shape: PsychometricShape): Axis {
  return { log: scale === "log" || shape === "weibull", turned: harder === "up" };
}

/** A level put on the axis. */
export function onAxis({ log, turned }: Axis, level: number): number {
  const u = log ? Math.log(level) : level;
  return turned ? -u : u;
}

/** A place on the axis as a level; `null` where a double cannot hold it. */
export function offAxis({ log, turned }: Axis, u: number | null): number | null {
  if (u === null) return null;
  const along = turned ? -u : u;
  const level = log ? Math.exp(along) : along;
  return Number.isFinite(level) && (!log || level > 0) ? level + 0 : null;
}

/** Two places on the axis as levels, the smaller first. */
export function rangeOffAxis(axis: Axis, [low, high]: readonly [number | null, number | null]): readonly [number | null, number | null] {
  const ends = [offAxis(axis, low), offAxis(axis, high)] as const;
  return axis.turned ? [ends[1], ends[0]] : ends;
}
