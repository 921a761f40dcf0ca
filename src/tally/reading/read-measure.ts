import type { Estimate } from "../../math/estimate.js";
import { exactMean } from "../../math/exact-sum.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { meanFromMoments } from "../../math/mean-from-moments.js";
import { proportionEstimate } from "../../math/proportion-estimate.js";
import { type Bracket, binnedQuantile, orderedValue } from "../../math/quantile-bins.js";
import { quantileRanks } from "../../math/quantile-ranks.js";
import { sdEstimate } from "../../math/sd-estimate.js";
import { sumOfDeviations } from "../../math/sum-of-deviations.js";
import { type TallyMeasure, unitOf } from "../measures/measures.js";
import type { MeasureReading, MeasureTally, QuantileReading, Tally, TallyReading } from "../types.js";

/** How a tally is read. */
export type Reading = TallyReading["header"]["options"];

/** One measure of a group in figures; `units` are the tallies of the units that its rows come from. */
export function readMeasure(
  name: TallyMeasure,
  whole: MeasureTally,
  units: readonly MeasureTally[] | undefined,
  options: Tally["header"]["options"],
  reading: Reading,
): MeasureReading {
  const unit = unitOf(name, options.unit);
  const edges = options.edges[name];
  const { n, missing, min, max } = whole;
  return {
    n,
    missing,
    min,
    max,
    mean:
      name === "hitShare" && reading.across === "row"
        ? proportionEstimate(whole.sum[0] ?? 0, n, reading.level)
        : meanOf(whole, unit, reading),
    sd: sdOf(whole, unit),
    quantiles: reading.quantiles.map((p) => quantileOf(whole, p, unit, reading)),
    ...(edges && whole.histogram && { histogram: { edges, counts: whole.histogram } }),
    ...(units && { acrossUnits: acrossUnits(units, unit, reading.level) }),
  };
}

function sampleSd({ n, sum, sumOfSquares }: MeasureTally): number {
  return Math.sqrt(sumOfDeviations(n, sum, sum, sumOfSquares) / (n - 1));
}

function meanOf(whole: MeasureTally, unit: string, { across, level }: Reading): Estimate {
  const { n } = whole;
  if (n === 0) return { ok: false, why: "tooFew", unit, n };
  const mean = exactMean(n, whole.sum);
  if (across === "row") return meanFromMoments(n, mean, n < 2 ? 0 : sampleSd(whole), unit, level);
  return { ok: true, value: mean, unit, n };
}

function sdOf(whole: MeasureTally, unit: string): Estimate {
  const { n } = whole;
  if (n < 2) return { ok: false, why: "tooFew", unit, n };
  const sd = sampleSd(whole);
  return sd === 0 ? { ok: false, why: "noSpread", unit, n } : { ok: true, value: sd, unit, n };
}

function quantileOf({ n, min, max, bins }: MeasureTally, p: number, unit: string, { across, level }: Reading): QuantileReading {
  if (min === null || max === null) return { p, estimate: { ok: false, why: "tooFew", unit, n }, within: null };
  const range: Bracket = [min, max];
  const { value, within } = binnedQuantile(bins, range, p);
  const ranks = across === "row" ? quantileRanks(n, p, level) : undefined;
  if (ranks === undefined) return { p, estimate: { ok: true, value, unit, n }, within };
  // the ends are known within their bins only: the interval takes in both
  const interval = [orderedValue(bins, range, ranks.low).within[0] + 0, orderedValue(bins, range, ranks.high).within[1] + 0] as const;
  return { p, estimate: { ok: true, value, unit, n, interval, level: ranks.level }, within };
}

function acrossUnits(units: readonly MeasureTally[], unit: string, level: number): { mean: Estimate; sd: Estimate } {
  const means = units.filter(({ n }) => n > 0).map(({ n, sum }) => exactMean(n, sum));
  return { mean: meanEstimate(means, unit, level), sd: sdEstimate(means, unit, level) };
}
