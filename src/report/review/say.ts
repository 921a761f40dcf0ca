import type { Estimate, Reason } from "../../math/estimate.js";
import { sayMilliseconds, sayPercent } from "../../practice/say.js";
import type { Equipment } from "../../trace/types.js";

const REASON_WORDS: Readonly<Record<Reason, string>> = {
  tooFew: "too few data",
  noAxis: "no direction to aim in",
  noPress: "no press was recorded",
  belowResolution: "finer than the recording can show",
  notIdentified: "the data fit many values equally well",
  notConverged: "the search did not settle",
  mixedEquipment: "the equipment differs",
  noSpread: "all values are equal",
  missingData: "samples are missing",
  outOfReach: "out of reach at any pace",
};

/** Why a number cannot be given, in words. */
export function sayReason(why: Reason): string {
  return REASON_WORDS[why];
}

/** A time in milliseconds, a share in percent, anything else with three significant digits and its unit. */
export function sayValue(value: number, unit: string): string {
  if (unit === "s") return sayMilliseconds(value);
  if (unit === "1") return sayPercent(value);
  const text = Math.abs(value) >= 100 ? fixed(value) : String(Number(value.toPrecision(3)));
  return unit === "" ? text : `${text} ${unit}`;
}

function fixed(value: number): string {
  return String(Math.round(value));
}

/** An estimate with its interval, or why there is none. */
export function sayEstimate(estimate: Estimate): string {
  if (!estimate.ok) return `not known (${sayReason(estimate.why)})`;
  const { value, unit, interval } = estimate;
  if (interval === undefined) return sayValue(value, unit);
  return `${sayValue(value, unit)} (${sayValue(interval[0], unit)} to ${sayValue(interval[1], unit)})`;
}

/** A change with its interval; that of a share is in percentage points. */
export function sayChange(change: Estimate): string {
  if (!change.ok || change.unit !== "1") return sayEstimate(change);
  const { value, interval } = change;
  const points = (share: number): string => fixed(100 * share);
  return interval === undefined ? `${points(value)} points` : `${points(value)} points (${points(interval[0])} to ${points(interval[1])})`;
}

/** The date of an ISO time, as it was where it was written. */
export function sayDate(startedAt: string): string {
  return startedAt.slice(0, 10);
}

/** What was worked with, as far as it was written down. */
export function sayEquipment(equipment: Equipment): string {
  const { id, refreshHz, frameCapHz, reportHz, latency, countsPerInch } = equipment;
  const known = [
    refreshHz !== undefined && `display ${refreshHz} Hz`,
    frameCapHz !== undefined && `capped at ${frameCapHz}`,
    reportHz !== undefined && `reports ${reportHz} Hz`,
    latency !== undefined && `delay ${sayValue(latency, "s")}`,
    countsPerInch !== undefined && `${countsPerInch} counts per inch`,
  ].filter((part) => part !== false);
  return known.length === 0 ? `${id} (nothing else recorded)` : `${id} (${known.join(", ")})`;
}
