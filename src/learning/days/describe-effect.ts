import type { Estimate, Reason } from "../../math/estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { Uncertain } from "../../math/welch.js";
import type { Effect } from "./structure.js";

/** What turns a change on the scale of the fit into shares and amounts. */
export interface EffectScale {
  readonly errors: "normal" | "lognormal";
  /** Typical level in the unit of the measure. */
  readonly typical: number;
  readonly unit: string;
  /** Confidence level. */
  readonly level: number;
}

/** An effect with Student intervals; `per` is added to the units. A share needs a level above 0. */
export function describeEffect(change: Uncertain | Reason | undefined, n: number, scale: EffectScale, per = ""): Effect {
  const { errors, typical, unit, level } = scale;
  const units = [`1${per}`, `${unit}${per}`] as const;
  if (change === undefined || typeof change === "string") {
    const [share, amount] = units.map((unit): Estimate => ({ ok: false, why: change ?? "tooFew", unit, n })) as [Estimate, Estimate];
    return { share, amount };
  }
  const half = -studentQuantile((1 - level) / 2, change.df) * Math.sqrt(change.variance);
  const ends = [change.value + 0, change.value - half, change.value + half];
  const estimate = (unit: string, to: (value: number) => number): Estimate => {
    const [value, low, high] = ends.map(to) as [number, number, number];
    return { ok: true, value, unit, n, interval: [low, high], level };
  };
  const share = shareOf(scale);
  return {
    share: share(0) === null ? { ok: false, why: "notIdentified", unit: units[0], n } : estimate(units[0], (v) => share(v)!),
    amount: estimate(units[1], errors === "lognormal" ? (v) => typical * Math.expm1(v) : (v) => v),
  };
}

/** Turns a change on the scale of the fit into a share of the level; `null` when that is not above 0. */
export function shareOf({ errors, typical }: EffectScale): (change: number) => number | null {
  if (errors === "lognormal") return (change) => Math.expm1(change) + 0;
  return (change) => (typical > 0 ? change / typical + 0 : null);
}
