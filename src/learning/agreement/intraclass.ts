import type { Estimate, Reason } from "../../math/estimate.js";
import { fQuantile } from "../../math/f-distribution.js";
import type { VarianceTable } from "./score-table.js";

/**
 * Form of an intraclass correlation, in the numbering of Shrout and Fleiss. First 1: sessions taken as interchangeable; 2: a change common to all counts
 * against reliability (agreement); 3: it does not (consistency). Then 1: of a single session; k: of the mean of all sessions given.
 */
export type IccForm = "1,1" | "1,k" | "2,1" | "2,k" | "3,1" | "3,k";

const FORMS: readonly IccForm[] = ["1,1", "1,k", "2,1", "2,k", "3,1", "3,k"];

/** Value, low and high end; ends that are no numbers where the errors are all 0. */
type Ends = readonly [value: number, low: number, high: number];

/** All six forms with their intervals, or the reason why there are none. */
export function intraclass(table: VarianceTable | Reason, n: number, level: number): Record<IccForm, Estimate> {
  const found = typeof table === "string" ? table : coefficients(table, (1 + level) / 2);
  const describe = (form: IccForm): Estimate => {
    if (typeof found === "string") return { ok: false, why: found, unit: "1", n };
    const [value, low, high] = found[form];
    if (!Number.isFinite(value)) return { ok: false, why: "noSpread", unit: "1", n };
    if (!Number.isFinite(low) || !Number.isFinite(high)) return { ok: true, value: value + 0, unit: "1", n };
    return { ok: true, value: value + 0, unit: "1", n, interval: [low + 0, high + 0], level };
  };
  return Object.fromEntries(FORMS.map((form) => [form, describe(form)])) as Record<IccForm, Estimate>;
}

function coefficients(table: VarianceTable, p: number): Record<IccForm, Ends> | "noSpread" {
  const { between, within, error, sessions } = table;
  if (between.sumOfSquares + within.sumOfSquares === 0) return "noSpread";
  const k = sessions.df + 1;
  const n = between.df + 1;
  const b = between.meanSquare;
  const e = error.meanSquare;
  const j = sessions.meanSquare;
  const one = byRatio(b, within.meanSquare, between.df, within.df, k, p);
  const three = byRatio(b, e, between.df, error.df, k, p);
  const value = (b - e) / (b + (k - 1) * e + (k * (j - e)) / n);
  // degrees of freedom of Satterthwaite for the part that sessions and errors have in the variance of a score
  const ratio = j / e;
  const part = n * (1 + (k - 1) * value) - k * value;
  const df = ((k - 1) * (n - 1) * (k * value * ratio + part) ** 2) / ((n - 1) * (k * value * ratio) ** 2 + part ** 2);
  const rest = k * j + (k * n - k - n) * e;
  const [f, g] = df > 0 ? [fQuantile(p, n - 1, df), fQuantile(p, df, n - 1)] : [Number.NaN, Number.NaN];
  const two: Ends = [value, (n * (b - f * e)) / (f * rest + n * b), (n * (g * b - e)) / (rest + n * g * b)];
  const averaged = (share: number): number => (k * share) / (1 + (k - 1) * share);
  return {
    "1,1": one.single,
    "1,k": one.mean,
    "2,1": two,
    "2,k": [(b - e) / (b + (j - e) / n), averaged(two[1]), averaged(two[2])],
    "3,1": three.single,
    "3,k": three.mean,
  };
}

/** Both forms that follow from one ratio of mean squares, with F limits. */
function byRatio(b: number, e: number, df1: number, df2: number, k: number, p: number): { readonly single: Ends; readonly mean: Ends } {
  const low = b / e / fQuantile(p, df1, df2);
  const high = (b / e) * fQuantile(p, df2, df1);
  const single = (f: number): number => (f - 1) / (f + k - 1);
  return { single: [(b - e) / (b + (k - 1) * e), single(low), single(high)], mean: [(b - e) / b, 1 - 1 / low, 1 - 1 / high] };
}
