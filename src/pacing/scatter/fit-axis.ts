import { sumOfSquares } from "../../math/sum-of-squares.js";
import { smallInverse } from "./small-inverse.js";

/** Most rounds of scoring; well-posed fits need 5 to 15. */
const ROUNDS = 200;
/** The search has settled when no parameter moves by more than this share of its standard error. */
const SETTLED = 1e-8;
/** Halvings of a step that would lower the likelihood. */
const HALVINGS = 30;
/** A scatter below this share of the usual one is a fit to single trials, not a law. */
const LEAST = 0.02;

/** Errors on one axis, what their mean may depend on, and what the logarithm of their scatter, or the scatter itself, may depend on. */
export interface AxisProblem {
  readonly errors: Float64Array;
  /** Columns of the mean. */
  readonly mean: readonly Float64Array[];
  /** Columns of the scatter. */
  readonly scale: readonly Float64Array[];
  /** Whether the scatter is linear in its columns, or its logarithm is. */
  readonly link: "identity" | "log";
}

/** The most likely coefficients, with their covariances from the expected information: those of mean and scatter are independent. */
export interface AxisSolution {
  readonly mean: number[];
  readonly scale: number[];
  readonly meanCovariance: number[][];
  readonly scaleCovariance: number[][];
  readonly logLikelihood: number;
}

/**
 * Normal errors whose mean is linear in some columns and whose scatter is linear, or log-linear, in others: maximum likelihood by Fisher's scoring
 * (textbook), mean and scatter in turn, halved where a step would lower the likelihood. `undefined` where columns depend on each other, there
 * is no scatter, or the search does not settle.
 */
export function fitAxis(problem: AxisProblem): AxisSolution | undefined {
  const { errors, mean, scale, link } = problem;
  const n = errors.length;
  if (n <= mean.length + scale.length) return undefined;
  let beta = weighted(mean, errors, new Float64Array(n).fill(1));
  if (beta === undefined) return undefined;
  let rest = residuals(errors, mean, beta);
  const usual = Math.sqrt(sumOfSquares(rest) / n);
  const size = errors.reduce((most, e) => Math.max(most, Math.abs(e)), 0);
  if (!(usual > 1e-12 * size)) return undefined;
  const level = link === "identity" ? usual : Math.log(usual);
  const start = weighted(scale, new Float64Array(n).fill(level), new Float64Array(n).fill(1));
  if (start === undefined) return undefined;
  let theta = start;
  let s = spread(scale, theta, link);
  let likelihood = logLikelihood(rest, s);
  for (let round = 0; round < ROUNDS; round++) {
    const weights = s.map((value) => 1 / (value * value));
    const nextBeta = weighted(mean, errors, weights);
    if (nextBeta === undefined) return undefined;
    beta = nextBeta;
    rest = residuals(errors, mean, beta);
    likelihood = logLikelihood(rest, s);
    // score and expected information of the scatter
    const pull = Float64Array.from(rest, (r, i) =>
      link === "identity" ? ((r * r) / (s[i]! * s[i]!) - 1) / s[i]! : (r * r) / (s[i]! * s[i]!) - 1,
    );
    const weight = Float64Array.from(s, (value) => (link === "identity" ? 2 / (value * value) : 2));
    const inverse = smallInverse(information(scale, weight));
    if (inverse === undefined) return undefined;
    const score = scale.map((column) => dot(column, pull));
    const step = inverse.map((row) => row.reduce((sum, value, j) => sum + value * score[j]!, 0));
    const moved = Math.sqrt(
      Math.max(
        0,
        step.reduce((sum, value, j) => sum + value * score[j]!, 0),
      ),
    );
    let share = 1;
    let halvings = 0;
    for (; halvings < HALVINGS; halvings++, share /= 2) {
      const tried = theta.map((value, j) => value + share * step[j]!);
      const triedS = spread(scale, tried, link);
      if (!triedS.every((value) => value > LEAST * usual)) continue;
      const triedLikelihood = logLikelihood(rest, triedS);
      if (triedLikelihood >= likelihood - 1e-12 * Math.abs(likelihood)) {
        theta = tried;
        s = triedS;
        likelihood = triedLikelihood;
        break;
      }
    }
    if (moved < SETTLED) return solution(problem, beta, theta, s, likelihood);
    if (halvings === HALVINGS) return undefined;
  }
  return undefined;
}

function solution(
  { mean, scale, link }: AxisProblem,
  beta: number[],
  theta: number[],
  s: Float64Array,
  likelihood: number,
): AxisSolution | undefined {
  const meanCovariance = smallInverse(
    information(
      mean,
      s.map((value) => 1 / (value * value)),
    ),
  );
  const scaleCovariance = smallInverse(
    information(
      scale,
      s.map((value) => (link === "identity" ? 2 / (value * value) : 2)),
    ),
  );
  if (meanCovariance === undefined || scaleCovariance === undefined) return undefined;
  return { mean: beta, scale: theta, meanCovariance, scaleCovariance, logLikelihood: likelihood };
}

function spread(columns: readonly Float64Array[], theta: readonly number[], link: "identity" | "log"): Float64Array {
  return Float64Array.from(columns[0]!, (_, i) => {
    let sum = 0;
    for (let j = 0; j < theta.length; j++) sum += theta[j]! * columns[j]![i]!;
    return link === "identity" ? sum : Math.exp(sum);
  });
}

function logLikelihood(rest: Float64Array, s: Float64Array): number {
  let sum = -0.5 * rest.length * Math.log(2 * Math.PI);
  for (let i = 0; i < rest.length; i++) sum -= Math.log(s[i]!) + (rest[i]! / s[i]!) ** 2 / 2;
  return sum;
}

function residuals(y: Float64Array, columns: readonly Float64Array[], beta: readonly number[]): Float64Array {
  return Float64Array.from(y, (value, i) => beta.reduce((left, b, j) => left - b * columns[j]![i]!, value));
}

function weighted(columns: readonly Float64Array[], y: Float64Array, weights: Float64Array): number[] | undefined {
  const inverse = smallInverse(information(columns, weights));
  if (inverse === undefined) return undefined;
  const right = columns.map((column) => column.reduce((sum, value, i) => sum + value * weights[i]! * y[i]!, 0));
  return inverse.map((row) => row.reduce((sum, value, j) => sum + value * right[j]!, 0));
}

function information(columns: readonly Float64Array[], weights: Float64Array): number[][] {
  return columns.map((one) => columns.map((other) => one.reduce((sum, value, i) => sum + value * other[i]! * weights[i]!, 0)));
}

function dot(one: Float64Array, other: Float64Array): number {
  return one.reduce((sum, value, i) => sum + value * other[i]!, 0);
}
