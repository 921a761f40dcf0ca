import type { ScatterRead } from "./read-scatter.js";
import { isUnlikeNormal } from "./unlike-normal.js";

/**
 * What to mind when a figure rests on normal endpoints. `few`: under 20, the spread itself is uncertain. `shapeUnknown`: under 50, too few to see
 * whether they are normal; where they are not, an interval named 95 % may hold the truth 30 times in 100 only. `notNormal`: they are skewed or lie
 * further out than normal ones, so that value and interval of the normal model are off.
 */
export type NormalWarning = "few" | "shapeUnknown" | "notNormal";

const ENOUGH = 20;
const ENOUGH_FOR_SHAPE = 50;

/** Warnings for endpoints; none for a stated scatter. */
export function normalWarnings({ n, endpoints, moments }: ScatterRead): NormalWarning[] {
  if (endpoints === undefined || moments === undefined) return [];
  const warnings: NormalWarning[] = [];
  if (n < ENOUGH) warnings.push("few");
  if (n < ENOUGH_FOR_SHAPE) warnings.push("shapeUnknown");
  if (isUnlikeNormal(endpoints, moments)) warnings.push("notNormal");
  return warnings;
}
