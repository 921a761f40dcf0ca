import type { Estimate } from "../math/estimate.js";

/** Whether to slow down, hold the pace or speed up, with what decided. */
export interface PaceAdvice {
  readonly advice: "slowDown" | "hold" | "speedUp" | "cannotTell";
  /** Movement time that was practised, seconds (median), and the one to practise next; the same for `hold` and `cannotTell`. */
  readonly from: number;
  readonly to: number;
  /** Share of first presses that hit, with the one-sided bounds that decided as its interval. */
  readonly hitShare: Estimate;
  /** The share that is wanted, in (0, 1). */
  readonly wanted: number;
  /** One sentence with the figures that decided. */
  readonly reason: string;
}

/** Trials made at several paces, as equally long columns in the order they were made; lengths in one unit, seconds. */
export interface PaceTrials {
  /** Time from onset to stop, or to the press where that came first: latency and verification left out. Where `pressed` is 0: the time that had passed. Above 0. */
  readonly movementTime: Float64Array;
  /** Distance from start to target centre, above 0. */
  readonly amplitude: Float64Array;
  /** Extent of the target along the approach, above 0. */
  readonly width: Float64Array;
  /** Endpoint minus target centre along the axis of the movement, positive beyond the centre; not looked at where `pressed` is 0. */
  readonly along: Float64Array;
  /** The same across the axis; without it hits are judged along the axis alone. */
  readonly across?: Float64Array;
  /** 1 where the endpoint hit the target, 0 where it did not; default: by the offsets, the width and `options.shape`. */
  readonly hit?: Float64Array;
  /** 0 where the time ran out before a press; default all 1. Such a trial is kept: it counts as not hit, and never as fast. */
  readonly pressed?: Float64Array;
  /** The pace that was asked for, one label a trial; rows with one label were made under one instruction. */
  readonly pace?: readonly string[];
}

/** Outline of the targets in the frame of the movement: a circle, a square along the axis, or a strip without end across it. */
export type PaceTarget = "circle" | "square" | "strip";

/** Scatter that grows with the mean speed of the movement: s = floor + slope A/T. */
export interface LinearScatter {
  readonly form: "linear";
  /** Length unit: scatter of an endless movement. */
  readonly floor: number;
  /** Seconds: growth with the speed A/T. */
  readonly slope: number;
}

/** Scatter as a product of powers: s = factor A^amplitudeExponent T^-timeExponent. */
export interface PowerScatter {
  readonly form: "power";
  readonly factor: number;
  readonly amplitudeExponent: number;
  readonly timeExponent: number;
}

/** How the standard deviation of the endpoints depends on amplitude A and movement time T. */
export type ScatterLaw = LinearScatter | PowerScatter;

/** Mean endpoint minus target centre: level + slope (T - at); held at its end values outside the movement times seen. */
export interface BiasLine {
  /** Length unit, at the movement time `at`. */
  readonly level: number;
  /** Length unit per second. */
  readonly slope: number;
  /** Seconds. */
  readonly at: number;
}

/** Endpoints on one axis: normal about the bias with the scatter. */
export interface AxisLaw {
  readonly scatter: ScatterLaw;
  /** Absent means none. */
  readonly bias?: BiasLine;
}

/** How endpoints scatter at every pace: fitted, or stated. */
export interface SpeedAccuracyLaw {
  readonly along: AxisLaw;
  /** Absent where hits depend on the error along the axis alone. */
  readonly across?: AxisLaw;
  /** Shortest and longest movement time it was seen at, seconds; absent for a stated law. */
  readonly times?: readonly [number, number];
}
