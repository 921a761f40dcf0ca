import { requireObject, show } from "../../math/require.js";
import { requireList } from "../../math/require-list.js";
import type { PlateauSeries } from "./types.js";

const WHERE = "detectPlateau";

/** Throws unless the columns are as `PlateauSeries` says; values must be above 0 when `positive`. */
export function requireSeries(series: PlateauSeries, positive: boolean): void {
  requireObject(WHERE, "series", series);
  const { day, value, equipment, hitShare, alongside = {} } = series;
  requireList(WHERE, "series.day", day);
  requireList(WHERE, "series.value", value);
  for (let i = 1; i < day.length; i++) {
    if (day[i]! < day[i - 1]!)
      throw new RangeError(`${WHERE}: series.day[${i}] must be at least ${day[i - 1]}, the day before it, got ${day[i]}`);
  }
  requireLength("series.value", value.length, day.length);
  for (let i = 0; positive && i < value.length; i++) {
    if (!(value[i]! > 0)) throw new RangeError(`${WHERE}: series.value[${i}] must be above 0 for options.kind "percent", got ${value[i]}`);
  }
  if (hitShare !== undefined) {
    requireList(WHERE, "series.hitShare", hitShare);
    requireLength("series.hitShare", hitShare.length, day.length);
    for (let i = 0; i < hitShare.length; i++) {
      if (!(hitShare[i]! >= 0 && hitShare[i]! <= 1))
        throw new RangeError(`${WHERE}: series.hitShare[${i}] must be from 0 to 1, got ${hitShare[i]}`);
    }
  }
  if (equipment !== undefined) {
    if (!Array.isArray(equipment)) throw new TypeError(`${WHERE}: series.equipment must be an array of strings, got ${show(equipment)}`);
    requireLength("series.equipment", equipment.length, day.length);
    const odd = equipment.findIndex((name) => typeof name !== "string");
    if (odd >= 0) throw new TypeError(`${WHERE}: series.equipment[${odd}] must be a string, got ${show(equipment[odd])}`);
  }
  requireObject(WHERE, "series.alongside", alongside);
  for (const [name, measure] of Object.entries(alongside)) {
    requireList(WHERE, `series.alongside.${name}.value`, measure?.value);
    requireLength(`series.alongside.${name}.value`, measure.value.length, day.length);
    if (measure.better !== "lower" && measure.better !== "higher") {
      throw new RangeError(`${WHERE}: series.alongside.${name}.better must be "lower" or "higher", got ${show(measure.better)}`);
    }
  }
}

function requireLength(name: string, length: number, wanted: number): void {
  if (length !== wanted) throw new RangeError(`${WHERE}: ${name} must have ${wanted} entries like series.day, got ${length}`);
}
