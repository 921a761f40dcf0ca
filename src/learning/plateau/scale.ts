import { changeScale } from "../change/change-scale.js";

/** The scale on which a trend is fitted: logarithms for percent, the values themselves for differences; larger is better. */
export interface ImprovementScale {
  /** Unit of an improvement. */
  readonly unit: string;
  /** A session value on the scale. */
  readonly of: (value: number) => number;
  /** A change on the scale as an improvement in its unit, below 0 for a loss. */
  readonly improvement: (change: number) => number;
  /** Change on the scale that is a gain, and one that is a loss, of the worthwhile size; both above 0. */
  readonly gain: number;
  readonly loss: number;
}

/** A gain of 2 % in a time is a fall to 98 % of it, a loss a rise to 102 %. */
export function improvementScale(
  kind: "percent" | "difference",
  better: "lower" | "higher",
  worthwhile: number,
  unit: string,
): ImprovementScale {
  const sign = better === "lower" ? -1 : 1;
  const scale = changeScale(kind, unit);
  return {
    unit: scale.unit,
    of: (value) => sign * scale.value(value) + 0,
    improvement: (change) => sign * scale.change(sign * change) + 0,
    gain: sign * scale.onScale(sign * worthwhile),
    loss: -sign * scale.onScale(-sign * worthwhile),
  };
}
