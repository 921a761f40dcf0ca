import type { Estimate } from "../../math/estimate.js";
import { minimizeBetween } from "../../math/minimize-between.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import { smallInverse } from "../scatter/small-inverse.js";

/** Rates looked at, per second: from a function that hardly rises to a step. */
const SLOWEST = 0.2;
const FASTEST = 200;

/** Hits as a function of movement time that rises from 0 to an asymptote: L (1 - exp(-r (t - d))) from t = d on. */
export interface AccuracyOverTime {
  /** Share L that is never exceeded, in (0, 1]. `notIdentified`: hits do not rise with time, distance or width varied, or the data end before they level off. */
  readonly asymptote: Estimate;
  /** Rate r of the approach, per second. */
  readonly rate: Estimate;
  /** Movement time d at which hits begin, seconds. */
  readonly intercept: Estimate;
  readonly logLikelihood: number | null;
}

/** Values of the three parameters; `null` where none could be found. */
export interface RisingHits {
  readonly asymptote: number;
  readonly rate: number;
  readonly intercept: number;
}

/** The most likely rise of hits over movement time, one condition: the three parameters searched one within the other. */
export function accuracyOverTime(
  times: Float64Array,
  hit: Float64Array,
  oneCondition: boolean,
  level: number,
): AccuracyOverTime & { readonly found: RisingHits | null } {
  const n = hit.length;
  const refuse = (why: "tooFew" | "notIdentified"): AccuracyOverTime & { readonly found: null } => {
    const not = (unit: string): Estimate => ({ ok: false, why, unit, n });
    return { asymptote: not("1"), rate: not("1/s"), intercept: not("s"), logLikelihood: null, found: null };
  };
  if (n < 20) return refuse("tooFew");
  const hits = hit.reduce((sum, one) => sum + one, 0);
  if (!oneCondition || hits === 0 || hits === n) return refuse("notIdentified");
  const firstHit = times.reduce((least, t, i) => (hit[i] === 1 ? Math.min(least, t) : least), Number.POSITIVE_INFINITY);
  const groups = groupByTime(times, hit);
  const rise = new Float64Array(groups.length);
  const given = (d: number, logRate: number): { loss: number; asymptote: number } => {
    const r = Math.exp(logRate);
    for (const [i, { time }] of groups.entries()) rise[i] = time > d ? 0 - Math.expm1(-r * (time - d)) : 0;
    const least = minimizeBetween((l) => lossOf(rise, groups, l), 0.01, 1, 1e-6);
    return { loss: least.value, asymptote: least.at };
  };
  const overRate = (d: number) => minimizeBetween((q) => given(d, q).loss, Math.log(SLOWEST), Math.log(FASTEST), 1e-5);
  const end = firstHit * (1 - 1e-6);
  const best = minimizeBetween((d) => overRate(d).value, 0, end, 1e-6 * end);
  const logRate = overRate(best.at).at;
  const { asymptote, loss } = given(best.at, logRate);
  const found = { asymptote, rate: Math.exp(logRate), intercept: best.at };
  if (!Number.isFinite(loss)) return refuse("notIdentified");
  const spread = covarianceOf(found, times);
  const free =
    found.asymptote < 1 - 1e-4 &&
    found.rate > SLOWEST * 1.01 &&
    found.rate < FASTEST * 0.99 &&
    best.at > 1e-3 * end &&
    best.at < end * (1 - 1e-3);
  if (!free || spread === undefined) return { ...refuse("notIdentified"), logLikelihood: -loss, found };
  const z = normalQuantile(0.5 + level / 2);
  const about = (value: number, j: number, unit: string): Estimate => {
    const half = z * Math.sqrt(spread[j]![j]!);
    return { ok: true, value, unit, n, interval: [value - half, value + half], level };
  };
  return {
    asymptote: about(asymptote, 0, "1"),
    rate: about(found.rate, 1, "1/s"),
    intercept: about(best.at, 2, "s"),
    logLikelihood: -loss,
    found,
  };
}

/** Share of hits at movement time t. */
export function risingShare({ asymptote, rate, intercept }: RisingHits, t: number): number {
  return t > intercept ? 0 - asymptote * Math.expm1(-rate * (t - intercept)) : 0;
}

/** Presses of one movement time: those of a pace share it. */
interface TimeGroup {
  readonly time: number;
  hits: number;
  misses: number;
}

function groupByTime(times: Float64Array, hit: Float64Array): TimeGroup[] {
  const groups = new Map<number, TimeGroup>();
  for (const [i, time] of times.entries()) {
    const group = groups.get(time) ?? { time, hits: 0, misses: 0 };
    if (hit[i] === 1) group.hits++;
    else group.misses++;
    groups.set(time, group);
  }
  return [...groups.values()];
}

function lossOf(rise: Float64Array, groups: readonly TimeGroup[], asymptote: number): number {
  let sum = 0;
  for (let i = 0; i < rise.length; i++) {
    const p = asymptote * rise[i]!;
    const { hits, misses } = groups[i]!;
    if (hits > 0) sum -= hits * Math.log(p);
    if (misses > 0) sum -= misses * Math.log1p(-p);
  }
  // a hit before the intercept, or a sure hit that missed: as unlikely as can be, but comparable
  return Number.isFinite(sum) ? sum : 1e300;
}

function covarianceOf({ asymptote, rate, intercept }: RisingHits, times: Float64Array): number[][] | undefined {
  const sum = [0, 1, 2].map(() => [0, 0, 0]);
  for (const t of times) {
    if (t <= intercept) continue;
    const left = Math.exp(-rate * (t - intercept));
    const p = asymptote * (1 - left);
    const slope = [1 - left, asymptote * (t - intercept) * left, -asymptote * rate * left];
    for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) sum[i]![j]! += (slope[i]! * slope[j]!) / (p * (1 - p));
  }
  return smallInverse(sum);
}
