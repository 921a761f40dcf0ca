import type { Estimate } from "../../math/estimate.js";
import { drawScatters } from "./draw-scatter.js";
import { intervalOfDraws } from "./interval-of-draws.js";
import type { PrincipalNormal } from "./principal-normal.js";

/** What a figure of the normal model is given with. */
export interface ModelOptions {
  readonly unit: string;
  readonly level: number;
  readonly seed: number;
  readonly draws: number;
}

/**
 * Figures of a normal scatter fitted to `n` endpoints, each with its interval from one common set of drawn scatters; without interval for a
 * stated scatter (n = 0), which is taken for true. Not ok: `tooFew` without a scatter, `noSpread` when the endpoints coincide.
 */
export function modelEstimates<K extends string>(
  normal: PrincipalNormal | undefined,
  n: number,
  figures: Readonly<Record<K, (scatter: PrincipalNormal) => number>>,
  { unit, level, seed, draws }: ModelOptions,
): Record<K, Estimate> {
  const names = Object.keys(figures) as K[];
  const each = (estimate: (name: K) => Estimate): Record<K, Estimate> =>
    Object.fromEntries(names.map((name) => [name, estimate(name)])) as Record<K, Estimate>;
  if (normal === undefined) return each(() => ({ ok: false, why: "tooFew", unit, n }));
  if (n > 0 && normal.long === 0) return each(() => ({ ok: false, why: "noSpread", unit, n }));
  const scatters = n === 0 ? [] : drawScatters(normal, n, draws, seed);
  return each((name) => {
    const value = figures[name](normal) + 0; // a negative zero would not survive JSON
    if (n === 0) return { ok: true, value, unit, n };
    const drawn = Float64Array.from(scatters, figures[name]);
    const interval = intervalOfDraws(drawn, value, level);
    return Number.isFinite(interval[1]) ? { ok: true, value, unit, n, interval, level } : { ok: true, value, unit, n };
  });
}
