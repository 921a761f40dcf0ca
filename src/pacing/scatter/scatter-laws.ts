import type { BiasLine, ScatterLaw } from "../types.js";

/** Standard deviation that a law gives at amplitude `a` and movement time `t`; not above 0 where a linear law with a negative floor has left its range. */
export function scatterAt(law: ScatterLaw, a: number, t: number): number {
  if (law.form === "linear") return law.floor + (law.slope * a) / t;
  return law.factor * a ** law.amplitudeExponent * t ** -law.timeExponent;
}

/** Derivatives of the standard deviation by the parameters of the law: floor and slope, or log factor and both exponents. */
export function scatterGradient(law: ScatterLaw, a: number, t: number): readonly number[] {
  if (law.form === "linear") return [1, a / t];
  const s = scatterAt(law, a, t);
  return [s, s * Math.log(a), -s * Math.log(t)];
}

/** Bias at movement time `t`, held at its end values outside `times`. */
export function biasAt(bias: BiasLine | undefined, t: number, times: readonly [number, number] | undefined): number {
  return bias === undefined ? 0 : bias.level + bias.slope * (within(t, times) - bias.at);
}

/** `t` moved to the nearer end of `times` where it lies outside. */
export function within(t: number, times: readonly [number, number] | undefined): number {
  return times === undefined ? t : Math.min(times[1], Math.max(times[0], t));
}
