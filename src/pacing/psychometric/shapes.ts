import { normalCdf, normalDensity } from "../../math/normal.js";
import { normalQuantile } from "../../math/normal-quantile.js";

/** Shape of a psychometric function; a Weibull function is `"gumbel"` on the logarithm of the level. */
export type PsychometricShape = "logistic" | "normal" | "weibull" | "gumbel";

/** A distribution function of standard form. */
export interface StandardShape {
  /** Share below z, and above it with its own digits. */
  readonly below: (z: number) => number;
  readonly above: (z: number) => number;
  readonly density: (z: number) => number;
  /** Where the share below is p, in (0, 1). */
  readonly quantile: (p: number) => number;
}

const LOGISTIC: StandardShape = {
  below: (z) => 1 / (1 + Math.exp(-z)),
  above: (z) => 1 / (1 + Math.exp(z)),
  // even in z; written with the decaying exponential, so that nothing overflows
  density: (z) => {
    const e = Math.exp(-Math.abs(z));
    return e / ((1 + e) * (1 + e));
  },
  quantile: (p) => Math.log(p) - Math.log1p(-p),
};

const NORMAL: StandardShape = {
  below: normalCdf,
  above: (z) => normalCdf(-z),
  density: normalDensity,
  quantile: normalQuantile,
};

const GUMBEL: StandardShape = {
  below: (z) => -Math.expm1(-Math.exp(z)),
  above: (z) => Math.exp(-Math.exp(z)),
  density: (z) => {
    const hazard = Math.exp(z);
    // an infinite hazard meets a share of nothing
    return z > 20 ? 0 : hazard * Math.exp(-hazard);
  },
  quantile: (p) => Math.log(-Math.log1p(-p)),
};

/** The standard form behind a shape. */
export function standardShape(shape: PsychometricShape): StandardShape {
  if (shape === "logistic") return LOGISTIC;
  return shape === "normal" ? NORMAL : GUMBEL;
}
