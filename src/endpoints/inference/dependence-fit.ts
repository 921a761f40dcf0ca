import type { Estimate } from "../../math/estimate.js";
import { linearRegression } from "../../math/linear-regression.js";
import { medianInPlace } from "../../math/median.js";
import { studentQuantile } from "../../math/student-quantile.js";
import { studentTail } from "../../math/student-tail.js";
import { sumOfSquares } from "../../math/sum-of-squares.js";
import { waldTest } from "../../math/wald-test.js";
import type { DependenceDesign } from "./dependence-design.js";

/** One harmonic of direction: the part `amplitude cos(k (direction - phase))`, k = 1 or 2. */
export interface DirectionHarmonic {
  /** Size, not below 0; chance alone gives about 1.25 standard errors of its terms. */
  readonly amplitude: number;
  /** Direction in which it is largest, radians, in (-pi, pi] for the first and (-pi/2, pi/2] for the second harmonic; `null` when it has no size. */
  readonly phase: number | null;
  /** F test of its cosine and sine together. */
  readonly f: number;
  readonly df: readonly [number, number];
  readonly p: number;
}

/** How a quantity follows the direction of the movement. */
export interface DirectionEffect {
  /** Once round the circle: one side against the other. */
  readonly first: DirectionHarmonic;
  /** Twice round the circle: one axis against the other, such as horizontal and vertical; `null` when the directions do not tell. */
  readonly second: DirectionHarmonic | null;
  /** F test of all terms together. */
  readonly f: number;
  readonly df: readonly [number, number];
  readonly p: number;
}

/** How a quantity follows the amplitude of the movement. */
export interface AmplitudeEffect {
  /** Change per unit of amplitude, with its Student interval. */
  readonly slope: Estimate;
  readonly standardError: number;
  /** Two-sided. */
  readonly p: number;
}

/** How the spread follows the amplitude of the movement. */
export interface GrowthEffect extends AmplitudeEffect {
  /** Slope over the spread at the mean amplitude, per length unit: 0.001 is a tenth more per 100. In proportion to the amplitude it is 1/mean amplitude. */
  readonly growth: Estimate;
}

/** An error against amplitude and direction, each with the other held. */
export interface BiasDependence {
  /** Mean error at the mean amplitude, all directions weighing alike. */
  readonly typical: Estimate;
  /** `null` when the amplitudes are all alike. */
  readonly amplitude: AmplitudeEffect | null;
  /** `null` when the directions are too few, or bound to the amplitudes. */
  readonly direction: DirectionEffect | null;
}

/** The size of the deviations against amplitude and direction, each with the other held. */
export interface SpreadDependence extends BiasDependence {
  readonly amplitude: GrowthEffect | null;
}

/** Least share of itself that the deviation of a movement is taken to hold, where the fit all but runs through it. */
const LEAST_OWN = 0.05;
/** Residuals whose squares are below this share of those of the errors are rounding: nothing can be said of their size. */
const ROUNDING = 1e-24;

type Fit = NonNullable<ReturnType<typeof linearRegression>>;

/** The fullest design that the data allow. */
export function pickDesign(designs: readonly DependenceDesign[], y: Float64Array): DependenceDesign | undefined {
  return designs.find((design) => linearRegression(design.columns, y) !== undefined);
}

/** In which words and units to describe a fit. */
interface Wording {
  readonly unit: string;
  readonly level: number;
  /** Length in which errors and amplitudes were given to the fit, so that no square overflows or vanishes. */
  readonly scale: number;
}

/** A quantity (in units of the scale, as the design's amplitudes) and the size of its deviations against a design; `null` where all are equal. */
export function fitDependence(
  design: DependenceDesign,
  y: Float64Array,
  wording: Wording,
): { readonly bias: BiasDependence | null; readonly spread: SpreadDependence | null } {
  const fit = y.every((value) => value === y[0]) ? undefined : linearRegression(design.columns, y);
  if (fit === undefined || !(fit.residualSum > 0)) return { bias: null, spread: null };
  const bias = describeFit(design, fit, wording);
  if (fit.residualSum <= ROUNDING * sumOfSquares(y)) return { bias, spread: null };
  const spread = linearRegression(design.columns, sizes(design, fit));
  if (spread === undefined || !(spread.residualSum > 0)) return { bias, spread: null };
  const size = describeFit(design, spread, wording);
  const amplitude = size.amplitude && { ...size.amplitude, growth: growthOf(spread, wording) };
  return { bias, spread: { ...size, amplitude } };
}

/** What a fit says, in words of the result. */
function describeFit(design: DependenceDesign, fit: Fit, wording: Wording): BiasDependence {
  const { unit, level, scale } = wording;
  const [typical, slope] = fit.coefficients as [number, number];
  const [typicalError, standardError] = fit.standardErrors as [number, number];
  return {
    typical: estimateOf(fit, typical * scale, typicalError * scale, unit, level),
    amplitude: design.amplitude
      ? { slope: estimateOf(fit, slope, standardError, "1", level), standardError, p: studentTail(slope / standardError, fit.df) }
      : null,
    direction: design.harmonics === 0 ? null : directionEffect(design, fit, scale),
  };
}

function estimateOf(fit: Fit, value: number, error: number, unit: string, level: number): Estimate {
  const half = -studentQuantile((1 - level) / 2, fit.df) * error;
  return { ok: true, value: value + 0, unit, n: fit.residuals.length, interval: [value - half, value + half], level };
}

/** Error of a ratio b/a by its linear part: (var b + (b/a)^2 var a - 2 (b/a) cov(a, b))/a^2. */
function growthOf(fit: Fit, { unit: length, level, scale }: Wording): Estimate {
  const [a, b] = fit.coefficients as [number, number];
  const unit = `1/${length}`;
  const growth = b / a;
  const variance = fit.covariance[1]![1]! + growth * growth * fit.covariance[0]![0]! - 2 * growth * fit.covariance[0]![1]!;
  const error = Math.sqrt(Math.max(0, variance)) / Math.abs(a) / scale;
  // a spread at the mean amplitude that is fitted as nothing has no growth
  const known = a > 0 && Number.isFinite(growth / scale) && Number.isFinite(error);
  return known ? estimateOf(fit, growth / scale, error, unit, level) : { ok: false, why: "notIdentified", unit, n: fit.residuals.length };
}

function directionEffect(design: DependenceDesign, fit: Fit, scale: number): DirectionEffect {
  const from = design.amplitude ? 2 : 1;
  const harmonic = (k: 1 | 2): DirectionHarmonic => {
    const at = from + 2 * (k - 1);
    const cos = fit.coefficients[at]!;
    const sin = fit.coefficients[at + 1]!;
    const size = Math.sqrt(cos * cos + sin * sin);
    return {
      amplitude: size * scale,
      phase: size > 0 ? Math.atan2(sin, cos) / k : null,
      ...waldTest(fit.coefficients, fit.covariance, at, 2, fit.df),
    };
  };
  const all = waldTest(fit.coefficients, fit.covariance, from, 2 * design.harmonics, fit.df);
  return { first: harmonic(1), second: design.harmonics === 2 ? harmonic(2) : null, ...all };
}

/**
 * Sizes of the deviations from a fit: |r/sqrt(1 - h) - their median|, with the leverage h of each movement, which keeps its residual small.
 * Taken from the median a test on them holds for skewed deviations, too (Im 2000; Machado and Santos Silva 2000; recalled).
 */
function sizes({ columns }: DependenceDesign, fit: Fit): Float64Array {
  const n = fit.residuals.length;
  const p = columns.length + 1;
  const scale = fit.df / fit.residualSum;
  const row = new Float64Array(p).fill(1);
  const out = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    for (let j = 1; j < p; j++) row[j] = columns[j - 1]![i]!;
    let leverage = 0;
    for (let j = 0; j < p; j++) for (let k = 0; k < p; k++) leverage += row[j]! * row[k]! * fit.covariance[j]![k]!;
    out[i] = fit.residuals[i]! / Math.sqrt(Math.max(LEAST_OWN, 1 - leverage * scale));
  }
  const middle = medianInPlace(out.slice());
  for (let i = 0; i < n; i++) out[i] = Math.abs(out[i]! - middle);
  return out;
}
