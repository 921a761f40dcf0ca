import { CERTAIN, type Trend } from "./trend-evidence.js";
import type { PlateauSeries, PlateauWarning } from "./types.js";

const ALIKE = 0.3;
const TOO_EASY = 0.97;
/** Days without practice between recent sessions. */
const BREAK_DAYS = 7;

/** The recent stretch begins at `from`, the equipment at `since`; `broken`: the course before it is another one. */
export function plateauWarnings(found: {
  readonly series: PlateauSeries;
  readonly from: number;
  readonly since: number;
  readonly trend: Trend;
  readonly broken: boolean;
}): PlateauWarning[] {
  const { series, from, since, trend, broken } = found;
  const { speaks, chances, autocorrelation } = trend.evidence;
  const warnings: PlateauWarning[] = [];
  if ((autocorrelation ?? 0) > ALIKE) warnings.push("autocorrelated");
  if (speaks === "for" && Math.max(chances.gain, chances.loss) >= CERTAIN) warnings.push("realButSmall");
  if (since > 0) warnings.push("equipmentChanged");
  if (broken) warnings.push("earlierCourse");
  if (meanFrom(series.hitShare, from) > TOO_EASY) warnings.push("taskTooEasy");
  if (longestGap(series.day, from) > BREAK_DAYS) warnings.push("break");
  return warnings;
}

function meanFrom(values: ArrayLike<number> | undefined, from: number): number {
  let sum = 0;
  const n = values?.length ?? 0;
  for (let i = from; i < n; i++) sum += values![i]!;
  return n > from ? sum / (n - from) : 0;
}

function longestGap(day: ArrayLike<number>, from: number): number {
  let longest = 0;
  for (let i = from + 1; i < day.length; i++) longest = Math.max(longest, day[i]! - day[i - 1]!);
  return longest;
}
