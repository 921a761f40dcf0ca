import { medianInPlace } from "../../math/median.js";
import type { Recording } from "../../trace/types.js";

/** Frames per second that a recording tells, from the median of their spacings; `undefined` when it has fewer than three. */
export function frameRate({ frames }: Recording): number | undefined {
  if (frames === undefined || frames.length < 3) return undefined;
  const spacings = frames.subarray(1).map((t, k) => t - frames[k]!);
  const median = medianInPlace(spacings.filter((spacing) => spacing > 0));
  return median > 0 ? 1 / median : undefined;
}
