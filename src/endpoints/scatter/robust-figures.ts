import { medianDeviation, medianInPlace } from "../../math/median.js";
import { SD_PER_MAD } from "../../math/sd-per-mad.js";
import type { Endpoints } from "../types.js";
import { geometricMedian } from "./geometric-median.js";
import type { ScatterEllipse } from "./scatter-ellipse.js";

/** Centre and spread that few far endpoints cannot drag along. */
export interface RobustFigures {
  /** Median per axis: depends on how the axes lie. */
  readonly marginalMedian: readonly [number, number];
  /** Point with the smallest mean distance to the endpoints, however the axes lie; `null` when a whole stretch of a line has it. */
  readonly geometricMedian: readonly [number, number] | null;
  /** That smallest mean distance. */
  readonly meanDistance: number;
  /** Median absolute deviation from the median per axis, times 1.4826: estimates the SD of normal endpoints. 0 when more than half are equal. */
  readonly mad: readonly [number, number];
}

/** Medians of at least one endpoint, lengths counted in `scale`; on a line as the `ellipse` tells. */
export function robustFigures(endpoints: Endpoints, scale: number, { axisSd, angle }: ScatterEllipse): RobustFigures {
  const { x, y } = endpoints;
  const marginalMedian = [medianInPlace(x.slice()) + 0, medianInPlace(y.slice()) + 0] as const;
  const { point, meanDistance } = geometricMedian(endpoints, marginalMedian, scale, axisSd[1] === 0 ? angle : null);
  return {
    marginalMedian,
    geometricMedian: point,
    meanDistance,
    mad: [SD_PER_MAD * medianDeviation(x, marginalMedian[0]), SD_PER_MAD * medianDeviation(y, marginalMedian[1])] as const,
  };
}
