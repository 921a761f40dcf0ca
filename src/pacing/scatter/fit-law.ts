import type { Estimate } from "../../math/estimate.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { AxisLaw, ScatterLaw } from "../types.js";
import { type AxisSolution, fitAxis } from "./fit-axis.js";

/** Amplitudes whose logarithms vary by less than this cannot tell their exponent. */
const ONE_AMPLITUDE = 0.1;

/** One law fitted to the errors on one axis. */
export interface AxisFit {
  readonly law: AxisLaw;
  /** Covariance of floor and slope, or of log factor and both exponents. */
  readonly scatterCovariance: readonly (readonly number[])[];
  /** Covariance of level and slope of the bias. */
  readonly biasCovariance: readonly (readonly number[])[];
  readonly logLikelihood: number;
  readonly parameters: number;
  /** The parameters with their Student intervals, by name. An amplitude exponent that one distance cannot tell is `notIdentified`, and taken as the time exponent. */
  readonly estimates: Readonly<Record<string, Estimate>>;
}

/** Errors of presses with the movement times they are set against. */
export interface AxisData {
  readonly errors: Float64Array;
  readonly amplitude: Float64Array;
  readonly times: Float64Array;
  readonly unit: string;
  readonly level: number;
}

/** Fits the linear or the power law to one axis, the bias as a line in time; the scatter is freed of the bias of maximum likelihood (two means were fitted). */
export function fitLaw(form: ScatterLaw["form"], data: AxisData): AxisFit | undefined {
  const { errors, amplitude, times } = data;
  const n = errors.length;
  if (n < 6) return undefined;
  const ones = new Float64Array(n).fill(1);
  const at = meanAndSd(times).mean;
  const mean = [ones, times.map((t) => t - at)];
  const logA = amplitude.map(Math.log);
  const logT = times.map(Math.log);
  const tied = meanAndSd(logA).sd < ONE_AMPLITUDE;
  const [midA, midT] = [meanAndSd(logA).mean, meanAndSd(logT).mean];
  const speed = (i: number): number => logA[i]! - midA - logT[i]! + midT;
  const scale =
    form === "linear"
      ? [ones, amplitude.map((a, i) => a / times[i]!)]
      : tied
        ? [ones, ones.map((_, i) => speed(i))]
        : [ones, logA.map((a) => a - midA), logT.map((t) => midT - t)];
  const found = fitAxis({ errors, mean, scale, link: form === "linear" ? "identity" : "log" });
  if (found === undefined) return undefined;
  const free = Math.sqrt(n / (n - mean.length));
  const [scatter, covariance] = form === "linear" ? linearLaw(found, free) : powerLaw(found, free, tied, midA, midT);
  const fit = {
    law: { scatter, bias: { level: found.mean[0]!, slope: found.mean[1]!, at } },
    scatterCovariance: covariance,
    biasCovariance: found.meanCovariance,
    logLikelihood: found.logLikelihood,
    parameters: mean.length + scale.length,
  };
  return { ...fit, estimates: estimatesOf(fit, data, tied) };
}

function linearLaw({ scale, scaleCovariance }: AxisSolution, free: number): [ScatterLaw, number[][]] {
  return [
    { form: "linear", floor: free * scale[0]!, slope: free * scale[1]! },
    scaleCovariance.map((row) => row.map((value) => free * free * value)),
  ];
}

// from columns about their means to the plain law: log factor = level - alpha mean log A + beta mean log T
function powerLaw(
  { scale, scaleCovariance }: AxisSolution,
  free: number,
  tied: boolean,
  midA: number,
  midT: number,
): [ScatterLaw, number[][]] {
  const turn = tied
    ? [
        [1, midT - midA],
        [0, 1],
        [0, 1],
      ]
    : [
        [1, -midA, midT],
        [0, 1, 0],
        [0, 0, 1],
      ];
  const [logFactor, amplitudeExponent, timeExponent] = turn.map((row) => row.reduce((sum, value, j) => sum + value * scale[j]!, 0));
  const covariance = turn.map((one) =>
    turn.map((other) => one.reduce((sum, a, i) => sum + other.reduce((inner, b, j) => inner + a * b * scaleCovariance[i]![j]!, 0), 0)),
  );
  return [
    { form: "power", factor: free * Math.exp(logFactor!), amplitudeExponent: amplitudeExponent!, timeExponent: timeExponent! },
    covariance,
  ];
}

function estimatesOf(fit: Omit<AxisFit, "estimates">, { errors, unit, level }: AxisData, tied: boolean): Record<string, Estimate> {
  const n = errors.length;
  const { scatter, bias } = fit.law;
  const t = -studentQuantile((1 - level) / 2, n - fit.parameters);
  const about = (value: number, variance: number, of: string): Estimate => {
    const half = t * Math.sqrt(variance);
    return { ok: true, value, unit: of, n, interval: [value - half, value + half], level };
  };
  const lines = {
    biasLevel: about(bias!.level, fit.biasCovariance[0]![0]!, unit),
    biasSlope: about(bias!.slope, fit.biasCovariance[1]![1]!, `${unit}/s`),
  };
  const v = (j: number): number => fit.scatterCovariance[j]![j]!;
  if (scatter.form === "linear") return { floor: about(scatter.floor, v(0), unit), slope: about(scatter.slope, v(1), "s"), ...lines };
  return {
    timeExponent: about(scatter.timeExponent, v(2), "1"),
    amplitudeExponent: tied ? { ok: false, why: "notIdentified", unit: "1", n } : about(scatter.amplitudeExponent, v(1), "1"),
    ...lines,
  };
}
